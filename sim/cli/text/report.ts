import type { RunEnd } from '../../../shared/recording.ts';
import type { Measure, Moment, Report, Verdict, WheelReport } from '../../../shared/report.ts';
import { clean } from './clean.ts';
import { column, count, figure } from './figures.ts';
import { jointLines } from './joints.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

/** What a person sees of a stand or a run: who, the wheels, the measures, of a crawl the joints, the verdicts, the end. */
export function reportText(report: Report, style: Style, width: number): string {
  const blocks = [
    headLines(report, style, width),
    wheelLines(report.wheels, style),
    travelLines(report.measures, style),
    measureLines(report.measures, style),
    report.mode === 'crawl' ? jointLines(report.joints ?? [], style) : [],
    report.verdicts.flatMap((verdict) => verdictLines(verdict, style, width)),
    endLines(report, style, width),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** Title, vehicle, mass and centre of gravity. */
export function headLines(
  report: Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg'>,
  style: Style,
  width: number,
): string[] {
  const { x, z } = report.cg;
  const centre = `centre of gravity at x ${figure(x, 'm')}, z ${figure(z, 'm')} of the drawing`;
  return [
    ...wrap(clean(report.title), width).map(style.strong),
    ...wrap(`${clean(report.vehicle)}: ${figure(report.mass, 'kg')}, ${centre}`, width),
  ];
}

/** One axle line per row: standing load, and what became of it in a drive. */
function wheelLines(wheels: readonly WheelReport[], style: Style): string[] {
  if (wheels.length === 0) return [];
  const standing = wheels.map((wheel) => wheel.load);
  const columns: (readonly [head: string, cells: readonly string[]])[] = [
    ['axle', wheels.map((wheel) => `${wheel.axle}`)],
    ['wheels', wheels.map((wheel) => `${wheel.count}`)],
    ['standing', column(standing, 'N')],
    [
      'per wheel',
      column(
        wheels.map((wheel) => wheel.loadPerWheel),
        'N',
      ),
    ],
    [
      'rise',
      column(
        wheels.map((wheel) => wheel.travel),
        'm',
      ),
    ],
  ];
  if (wheels.some((wheel) => wheel.leastLoad !== undefined)) columns.push(...runColumns(wheels));
  const heads: Column[] = columns.map(([head]) => ({ head, align: 'right' }));
  const rows = wheels.map((wheel, i) => [clean(wheel.id), ...columns.map(([, cells]) => cells[i] ?? '')]);
  const [head = '', ...lines] = table([{ head: 'wheel', align: 'left' }, ...heads], rows);
  return [style.faint(head), ...lines];
}

/** The columns that a drive adds: least and greatest load, and the share of the time spent off the ground. */
function runColumns(wheels: readonly WheelReport[]): [head: string, cells: string[]][] {
  const least = wheels.map((wheel) => wheel.leastLoad ?? 0);
  const greatest = wheels.map((wheel) => wheel.greatestLoad ?? 0);
  // A wheel that carries nothing while standing has no share of it.
  const shares = (loads: readonly number[]): string[] => {
    const cells = column(
      loads.map((load, i) => ((wheels[i]?.load ?? 0) > 0 ? load / (wheels[i]?.load ?? 1) : 0)),
      '1',
    );
    return cells.map((cell, i) => ((wheels[i]?.load ?? 0) > 0 ? cell : '–'));
  };
  return [
    ['least', column(least, 'N')],
    ['share', shares(least)],
    ['greatest', column(greatest, 'N')],
    ['share', shares(greatest)],
    [
      'time off',
      column(
        wheels.map((wheel) => wheel.timeOff ?? 0),
        '1',
      ),
    ],
  ];
}

/**
 * Measures left to `--json`: those that there are for each wheel and member, which have tables of their own, and those
 * that say again where the run ended.
 */
const saidElsewhere = /^(wheel|member)[A-Z]|^(stationReached|distance|timeTaken)$/;

/** One member per row: how far it moved each way, and the share of its travel that this is. */
function travelLines(measures: readonly Measure[], style: Style): string[] {
  const members = [
    ...new Set(measures.filter(({ name }) => name.startsWith('member')).map(({ of = '' }) => of)),
  ];
  if (members.length === 0) return [];
  const cell = (name: string, member: string): string => {
    const measure = measures.find((each) => each.name === name && each.of === member);
    return measure === undefined || measure.value === null ? '–' : figure(measure.value, measure.unit);
  };
  const names = ['memberBump', 'memberBumpUsed', 'memberDroop', 'memberDroopUsed'];
  const rows = members.map((member) => [clean(member), ...names.map((name) => cell(name, member))]);
  const heads = ['bump', 'used', 'droop', 'used'].map((head): Column => ({ head, align: 'right' }));
  const [head = '', ...lines] = table([{ head: 'travel of', align: 'left' }, ...heads], rows);
  return [style.faint(head), ...lines];
}

/** One measure of the whole run per row, with what it belongs to and where it was reached. */
function measureLines(measures: readonly Measure[], style: Style): string[] {
  const known = measures.filter(({ name, value }) => value !== null && !saidElsewhere.test(name));
  if (known.length === 0) return [];
  const rows = known.map(({ title, value, unit, of, moment }) => [
    clean(title),
    figure(value ?? 0, unit),
    of === undefined ? '' : clean(of),
    moment === undefined ? '' : place(moment),
  ]);
  const columns: Column[] = [
    { head: 'measure', align: 'left' },
    { head: 'value', align: 'right' },
    { head: 'of', align: 'left' },
    { head: 'vehicle', align: 'left' },
  ];
  const used = columns.filter((_, c) => rows.some((row) => row[c] !== ''));
  const [head = '', ...lines] = table(
    used,
    rows.map((row) => row.filter((_, c) => used.includes(columns[c] as Column))),
  );
  return [style.faint(head), ...lines];
}

/** `at 0.84 m, 3.2 s`. */
function place(moment: Pick<Moment, 'station' | 'time'>): string {
  return `at ${figure(moment.station, 'm')}, ${figure(moment.time, 's')}`;
}

/** What was asked, with PASS or FAIL before it, and the answer below. */
function verdictLines(verdict: Verdict, style: Style, width: number): string[] {
  const mark = verdict.pass ? style.good('PASS') : style.bad('FAIL');
  const [first = '', ...more] = wrap(clean(verdict.asks), width - 6);
  return [
    `${mark}  ${style.strong(first)}`,
    ...more.map((line) => `      ${style.strong(line)}`),
    ...wrap(clean(verdict.says), width - 6).map((line) => `      ${line}`),
    ...wrap(clean(verdict.cause ?? ''), width - 6).map((line) => `      ${line}`),
  ];
}

/** What happened how often, how the run ended, and how many of the criteria held. */
function endLines(report: Report, style: Style, width: number): string[] {
  if (report.end === undefined) return [];
  const lines = [eventSentence(report.events), endSentence(report.end)].flatMap((line) =>
    wrap(clean(line), width),
  );
  return [...lines, summary(report, style)];
}

/** `Events: lift off 2×, grip limit 14×.` in the order in which each kind first happened. */
function eventSentence(events: Report['events']): string {
  const counts = new Map<string, number>();
  for (const { kind } of events) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const said = [...counts].map(([kind, number]) => `${kind.replace('-', ' ')} ${number}×`);
  return said.length === 0 ? '' : `Events: ${said.join(', ')}.`;
}

/** How a run ended, as a sentence. */
export function endSentence(end: RunEnd): string {
  const where = `at station ${figure(end.station, 'm')} after ${figure(end.time, 's')}`;
  switch (end.kind) {
    case 'arrived':
      return `Arrived ${where}.`;
    case 'time-up':
      return `The time was up ${where}.`;
    case 'stuck':
      return `Stuck ${where}: ${end.cause}.`;
    case 'tipped':
      return `Tipped over ${where}.`;
    case 'diverged':
      return `The run could not be finished: ${end.quantity} of ${end.body} ran away ${where}. Likely cause: ${end.cause}.`;
  }
}

/** One line that counts the verdicts. */
function summary({ verdicts }: Report, style: Style): string {
  if (verdicts.length === 0) return 'No criteria were asked.';
  const failed = verdicts.filter((verdict) => !verdict.pass).length;
  if (failed === 0)
    return style.good(
      verdicts.length === 1 ? 'The criterion held.' : `All ${verdicts.length} criteria held.`,
    );
  return style.bad(`${failed} of ${count(verdicts.length, 'criterion', 'criteria')} failed.`);
}

/** What `--quiet` leaves of a report: one line for each thing that failed, nothing when all held. */
export function quietText(report: Report): string {
  const failed = report.verdicts
    .filter((verdict) => !verdict.pass)
    .map((verdict) => `FAIL  ${verdict.asks}: ${verdict.says}`);
  const unfinished = report.end !== undefined && ['diverged', 'stuck', 'tipped'].includes(report.end.kind);
  const lines = [...failed, ...(unfinished && report.end !== undefined ? [endSentence(report.end)] : [])];
  return lines.map((line) => `${clean(line)}\n`).join('');
}
