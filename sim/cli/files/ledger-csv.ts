import { cell, nineDigits } from '../../../shared/csv.ts';
import { column, type Recording } from '../../../shared/recording.ts';
import type { LedgerLine } from '../../../shared/report.ts';
import type { DriveSeries } from '../../ledger/parts.ts';
import type { MassPointReport } from '../ledger-report.ts';

const heads = [
  'sort',
  'of',
  'quantity',
  'use',
  'carries',
  'limit',
  'unit',
  'how',
  'spread',
  'frame',
  'time (s)',
  'station (m)',
  'gives at (m)',
  'says',
] as const;

/** All lines of a ledger as CSV, in their order; cells that a line has nothing for are empty. All values in SI. */
export function ledgerCsv(lines: readonly LedgerLine[]): string {
  const number = (value: number | null | undefined) => (value == null ? '' : nineDigits(value));
  const rows = lines.map((line) =>
    [
      line.sort,
      cell(line.of),
      line.quantity,
      number(line.use),
      nineDigits(line.carries),
      number(line.limit),
      line.unit,
      line.how ?? '',
      number(line.spread),
      line.moment?.frame ?? '',
      number(line.moment?.time),
      number(line.moment?.station),
      number(line.gives?.station),
      cell(line.says),
    ].join(','),
  );
  return `${[heads.join(','), ...rows].join('\n')}\n`;
}

/**
 * Torque of every part of the drive line over the crossing as CSV, one line per frame; of ONE part. Beside it the share of
 * its rating and, of a joint, its angle; cells of what is not known are empty. All values in SI.
 */
export function* partsCsv(series: DriveSeries, recording: Recording): Generator<string> {
  const columns = [
    { head: 'time (s)', values: column(recording, 'time') },
    { head: 'station (m)', values: column(recording, 'station') },
    ...series.parts.flatMap(({ part, torque, use, angle }) => [
      { head: `torque[${part.name}] (N·m)`, values: torque },
      { head: `use[${part.name}] (1)`, values: use },
      ...(part.law.angled === undefined ? [] : [{ head: `angle[${part.name}] (rad)`, values: angle }]),
    ]),
    { head: 'current[battery] (A)', values: series.current },
  ];
  yield `${columns.map(({ head }) => cell(head)).join(',')}\n`;
  for (let f = 0; f < recording.frames; f++) {
    const cells = columns.map(({ values }) => {
      const value = values[f] as number;
      return Number.isFinite(value) ? nineDigits(value) : '';
    });
    yield `${cells.join(',')}\n`;
  }
}

/** Largest obstacle over mass as CSV, one line per point. */
export function massCurveCsv(points: readonly MassPointReport[], unit: string): string {
  const rows = points.map(({ mass, size, setBy }) =>
    [
      nineDigits(mass),
      nineDigits(size),
      setBy?.sort ?? '',
      cell(setBy?.of ?? ''),
      setBy?.quantity ?? '',
    ].join(','),
  );
  return `${[`mass (kg),size (${unit}),set by,of,quantity`, ...rows].join('\n')}\n`;
}
