import type { CurvePoint } from '../../limits/curves.ts';
import type { LimitReport, LimitsReport } from '../report-json.ts';
import { clean } from './clean.ts';
import { column, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

/** What a person sees of the limits: who, one obstacle per row, and each limit over grip and mass when asked for. */
export function limitsText(report: LimitsReport, style: Style, width: number): string {
  const { level, limits } = report;
  const blocks = [
    headLines(report, style, width),
    level === null
      ? limitLines(limits, style, width)
      : wrap(clean(`It does not even cross level ground: ${level.says}.`), width).map(style.bad),
    level === null ? wrap(howText(report), width).map(style.faint) : [],
    curveLines('grip', '1', limits, style, width),
    curveLines('mass', 'kg', limits, style, width),
    level === null ? [summary(limits, style)] : [],
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** What `--quiet` leaves: a line for each obstacle of today's ground that is too large. */
export function quietLimits({ level, limits }: LimitsReport): string {
  const lines = [
    ...(level === null ? [] : [`It does not even cross level ground: ${level.says}.`]),
    ...(level === null ? limits.filter(tooLarge).map(failText) : []),
  ];
  return lines.map((line) => `${clean(line)}\n`).join('');
}

const tooLarge = ({ margin }: LimitReport): boolean => margin !== null && margin < 0;

function failText({ title, today, limit, unit, halt }: LimitReport): string {
  return `${title}: ${figure(today ?? 0, unit)} on today's ground, the limit is ${figure(limit, unit)}: ${halt?.says ?? ''}`;
}

/** One obstacle per row; what stops it stands under each row where the line would get too long. */
function limitLines(limits: readonly LimitReport[], style: Style, width: number): string[] {
  const columns: Column[] = [
    { head: 'obstacle', align: 'left' },
    { head: 'limit', align: 'right' },
    { head: 'today', align: 'right' },
    { head: 'in hand', align: 'right' },
    { head: 'what stops it', align: 'left' },
  ];
  const rows = limits.map((entry) => [
    entry.title,
    `${entry.halt ? '' : 'over '}${figure(entry.limit, entry.unit)}`,
    entry.today === null ? '–' : figure(entry.today, entry.unit),
    entry.margin === null ? '–' : `${entry.margin < 0 ? '−' : ''}${figure(Math.abs(entry.margin), '1')}`,
    clean(entry.halt ? kinds[entry.halt.by](entry.halt.says) : 'nothing up to that size'),
  ]);
  const [head = '', ...lines] = table(columns, rows);
  const start = head.indexOf('what stops it');
  return [
    style.faint(head),
    ...lines.flatMap((line, i) => {
      const [first = '', ...more] = wrap(rows[i]?.[4] ?? '', width - start);
      const text = [line.slice(0, start) + first, ...more.map((rest) => ' '.repeat(start) + rest)];
      return tooLarge(limits[i] as LimitReport) ? text.map(style.bad) : text;
    }),
  ];
}

/** What stops a vehicle, as a person says it. */
const kinds: Readonly<Record<NonNullable<LimitReport['halt']>['by'], (says: string) => string>> = {
  grip: (says) => `grip: ${says}`,
  torque: (says) => `torque: ${says}`,
  balance: (says) => `no balance: ${says}`,
  tipping: (says) => `tipping: ${says}`,
  belly: (says) => `belly: ${says}`,
  stop: (says) => `stop: ${says}`,
  stand: (says) => `standing: ${says}`,
};

/** With what grip, and how exactly. */
function howText({ grip, reverse }: LimitsReport): string {
  const tyres = grip === null ? 'each tyre with its own grip' : `every tyre with a grip of ${grip}`;
  const way = reverse ? ' in reverse' : '';
  return `Largest size crossed${way} in a crawl, without momentum, ${tyres}; to 0.1 %. Below the first size that stops it: larger ones may pass again.`;
}

/** A table of one kind of curve: one obstacle per row, one column per grip or mass, 0.5 %. */
function curveLines(
  over: 'grip' | 'mass',
  unit: string,
  limits: readonly LimitReport[],
  style: Style,
  width: number,
): string[] {
  const curves = limits.flatMap((entry) => {
    const points = over === 'grip' ? entry.overGrip : entry.overMass;
    return points === undefined ? [] : [{ entry, points }];
  });
  const first = curves[0];
  if (!first) return [];
  const heads =
    over === 'grip'
      ? first.points.map(({ at }) => at.toFixed(1))
      : column(
          first.points.map(({ at }) => at),
          unit,
        );
  const shown = curves.map(({ entry, points }) => [
    `${entry.title}, ${entry.unit === 'rad' ? 'deg' : unitOf(points)}`,
    ...cells(points, entry.unit),
  ]);
  const lines = table(
    [{ head: over, align: 'left' }, ...heads.map((head): Column => ({ head, align: 'right' }))],
    shown,
  );
  return [
    style.faint(lines[0] ?? ''),
    ...lines.slice(1),
    ...wrap(
      'To 0.5 %. After each: g grip, q torque, b balance, t tipping, u underside, s stop, x does not stand.',
      width,
    ).map(style.faint),
  ];
}

const marks = {
  grip: 'g',
  torque: 'q',
  balance: 'b',
  tipping: 't',
  belly: 'u',
  stop: 's',
  stand: 'x',
} as const;

/** Unit in which the largest of these lengths is shown. */
const unitOf = (points: readonly CurvePoint[]): string =>
  column(
    points.map(({ size }) => size),
    'm',
  )[0]?.split(' ')[1] ?? 'm';

/** Sizes without their unit, each with the mark of what stops it. */
function cells(points: readonly CurvePoint[], unit: 'm' | 'rad'): string[] {
  const texts = column(
    points.map(({ size }) => size),
    unit,
  );
  return points.map(
    ({ by }, i) => `${(texts[i] ?? '').replace(/°$| .*$/, '')}${by === undefined ? '+' : marks[by]}`,
  );
}

function summary(limits: readonly LimitReport[], style: Style): string {
  const today = limits.filter(({ margin }) => margin !== null);
  const over = today.filter(tooLarge);
  if (today.length === 0) return "Today's ground has none of these obstacles.";
  if (over.length === 0) return style.good("All such obstacles of today's ground lie within the limits.");
  return style.bad(over.map(failText).map(clean).join('\n'));
}
