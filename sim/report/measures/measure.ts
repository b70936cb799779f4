import type { Measure, Moment } from '../../../shared/report.ts';

/** What a measure is, whatever its value. */
export type MeasureHead = Pick<Measure, 'name' | 'title' | 'says' | 'source' | 'unit'>;

/** For measures whose definition is nobody else's. */
export const ownDefinition = 'definition of our own';

/**
 * A measure with its value, SI. A value that is missing or not finite becomes null: no NaN leaves the report.
 * `of` names the wheel, member or bogie; `moment` where it was reached.
 */
export function measured(
  head: MeasureHead,
  value: number | undefined,
  about: { readonly of?: string | undefined; readonly moment?: Moment | undefined } = {},
): Measure {
  const known = value !== undefined && Number.isFinite(value);
  return {
    ...head,
    value: known ? value : null,
    ...(about.of === undefined ? {} : { of: about.of }),
    ...(about.moment === undefined || !known ? {} : { moment: about.moment }),
  };
}
