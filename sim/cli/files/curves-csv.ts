import { nineDigits } from '../../../shared/csv.ts';
import type { LimitReport } from '../report-json.ts';

/** Limits over grip and over mass as CSV, piece by piece: one line per point. */
export function* curvesCsv(limits: readonly LimitReport[]): Generator<string> {
  yield 'kind,over,at,at (unit),limit,limit (unit),stopped by\n';
  for (const { kind, unit, overGrip = [], overMass = [] } of limits)
    for (const [over, atUnit, points] of [
      ['grip', '1', overGrip],
      ['mass', 'kg', overMass],
    ] as const)
      yield points
        .map(({ at, size, by }) =>
          [kind, over, nineDigits(at), atUnit, nineDigits(size), unit, by ?? ''].join(','),
        )
        .map((line) => `${line}\n`)
        .join('');
}
