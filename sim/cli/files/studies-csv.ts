import { cell, nineDigits } from '../../../shared/csv.ts';
import type { Field } from '../../studies/map.ts';
import type { InfluenceReport } from '../study-report.ts';

/** What matters, as CSV: one figure per line, the largest change first. All values in SI. */
export function influencesCsv(list: readonly InfluenceReport[]): string {
  const lines = list.map(({ name, now, unit, per, step, change }) =>
    [cell(name), nineDigits(now), cell(unit), per, nineDigits(step), nineDigits(change)].join(','),
  );
  return `${['figure,now (SI),unit,per,step (SI),change', ...lines].join('\n')}\n`;
}

/** A map as CSV: one point per line, row by row; cells that a point has nothing for are empty. All values in SI. */
export function mapCsv(
  field: Field,
  heads: { readonly x: string; readonly z: string; readonly value: string },
): string {
  const lines = field.points.map((p) =>
    [
      nineDigits(p.x),
      nineDigits(p.z),
      p.value === null ? '' : nineDigits(p.value),
      p.holds ? 1 : 0,
      p.fails.join(' '),
      cell(p.of ?? ''),
      p.station === undefined ? '' : nineDigits(p.station),
      nineDigits(p.off),
      cell(p.why ?? ''),
    ].join(','),
  );
  const head = [
    heads.x,
    heads.z,
    heads.value,
    'holds',
    'failing criteria',
    'of',
    'station (m)',
    'longest off (s)',
    'why',
  ];
  return `${[head.map(cell).join(','), ...lines].join('\n')}\n`;
}
