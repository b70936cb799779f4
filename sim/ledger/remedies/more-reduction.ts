import { formatNumber } from '../../../shared/units.ts';
import type { DrivePart } from '../../driveline/driveline.ts';
import { listWords } from '../../report/words.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { geared, inLine, isReduction, withParts } from './line.ts';
import { leastFactor, type Remedy } from './remedy.ts';

/**
 * More reduction after the part: the first reduction behind it on every way to the wheels, and on the other ways of the same
 * source the last one, so that all wheels still turn alike. Torque before it falls, and so does the speed.
 */
export const moreReduction: Remedy = {
  kind: 'more-reduction',
  title: 'More reduction after it',
  find(trouble) {
    const here = inLine(trouble);
    if (here === undefined) return [];
    const source = here.ways.find((way) => way.includes(here.part))?.at(-1);
    const chosen = here.ways.filter((way) => way.at(-1) === source).map((way) => after(way, here.part));
    if (chosen.some((part) => part === undefined)) return [];
    const parts = [...new Set(chosen as DrivePart[])];
    const vehicle = (factor: number) =>
      withParts(trouble.scenario, (entry, i) => {
        const part = parts.find(({ index }) => index === i);
        return part === undefined ? entry : geared(entry, part, factor * part.law.ratio);
      });
    const factor = leastFactor(trouble, vehicle);
    if (factor === undefined) return [];
    const was = parts.map((part) => `${part.name} ${formatNumber(part.law.ratio)}`);
    const will = parts.map((part) => formatNumber(part.law.ratio * factor));
    return [
      {
        says: `Ratio of ${listWords(was.map((text, i) => `${text} → ${will[i]}`))}.`,
        scenario: vehicle(factor),
        sets: parts.every((part) => isTold(trouble.scenario, part.index))
          ? parts.map((part) => ({
              path: `vehicle.driveline.parts[${part.index}].ratio`,
              value: part.law.ratio * factor,
            }))
          : [],
      },
    ];
  },
};

/** The first reduction behind a part on its way to the wheels; the last one where the part is not on this way. */
function after(way: readonly DrivePart[], part: DrivePart): DrivePart | undefined {
  const at = way.indexOf(part);
  return at < 0 ? way.find(isReduction) : way.slice(0, at).findLast(isReduction);
}

/** Whether the document gives a part's ratio as a figure, which another can take the place of. */
function isTold({ vehicle }: Scenario, index: number): boolean {
  const part = vehicle.driveline?.parts[index] as { readonly ratio?: unknown } | undefined;
  return typeof part?.ratio === 'number';
}
