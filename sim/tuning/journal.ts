import type { BoundStudy } from './bound.ts';
import type { Outcome } from './sample.ts';

/**
 * What a line of a journal is about: a sample of the plan, today's design, a design that was driven, a sample of the
 * search without chance beside a robust one ('plain') or of parts to buy ('free'), or a vehicle drawn of design number x
 * by chance ('drawn:x', 'spread:x').
 */
export type EntryOf =
  | 'sample'
  | 'today'
  | 'driven'
  | 'plain'
  | 'free'
  | `drawn:${number}`
  | `spread:${number}`;

/** One line of a journal. */
export interface Entry {
  readonly of: EntryOf;
  /** Number in the plan, or of the draw; −1 for today's. */
  readonly n: number;
  readonly design: readonly number[] | null;
  readonly outcome: Outcome;
}

/** The first line of a journal: what was studied, so that nothing else goes on with it. */
export interface Head {
  readonly journal: 'axlewright-study';
  readonly version: 1;
  readonly program: string;
  /** All that decides the numbers: study without its words, scenario, grounds with the texts of their files. */
  readonly decides: unknown;
}

/** The head of a study's journal. `program`: the version of the program. */
export function headOf({ document, scenario, grounds, stock, rough }: BoundStudy, program: string): Head {
  const { $schema: _schema, title: _title, notes: _notes, ...study } = document;
  const ground = grounds.map(({ name, weight, scenario: { ground: pieces, run, vehicle }, files }) => ({
    name,
    weight,
    ground: pieces,
    run,
    speed: vehicle.drive.speed,
    files,
  }));
  const { vehicle, gravity, criteria } = scenario;
  return {
    journal: 'axlewright-study',
    version: 1,
    program,
    // Through JSON, so that a head compares with one that was read: no fields that are undefined.
    decides: JSON.parse(
      JSON.stringify({
        study,
        scenario: { vehicle, gravity, criteria },
        grounds: ground,
        stock: stock?.lists,
        spreads: rough,
      }),
    ),
  };
}

/** A line of a journal, with its end. Numbers keep all their digits. */
export const lineOf = (entry: Entry | Head): string => `${JSON.stringify(entry)}\n`;

/** Reads a line; undefined when it is none, such as one that was cut off. */
export function entryOf(line: string): Entry | undefined {
  try {
    const read = JSON.parse(line) as Entry;
    return typeof read.n === 'number' && typeof read.of === 'string' && Array.isArray(read.outcome?.short)
      ? read
      : undefined;
  } catch {
    return undefined;
  }
}

/** Reads the first line; undefined when it is none of this version. */
export function readHead(line: string): Head | undefined {
  try {
    const read = JSON.parse(line) as Head;
    return read.journal === 'axlewright-study' && read.version === 1 ? read : undefined;
  } catch {
    return undefined;
  }
}

/**
 * What changed between two heads, place by place, at most `most` of them: 'scenario.vehicle.masses[0].mass was 2.2, is
 * 2.4'. Empty when the one may go on with the other's numbers.
 */
export function changesBetween(before: Head, now: Head, most = 5): readonly string[] {
  const found: string[] = [];
  if (before.program !== now.program) found.push(`the program was ${before.program}, is ${now.program}`);
  compare(before.decides, now.decides, '', found, most);
  return found;
}

function compare(before: unknown, now: unknown, at: string, found: string[], most: number): void {
  if (found.length >= most || Object.is(before, now)) return;
  const [a, b] = [entriesOf(before), entriesOf(now)];
  if (a === undefined || b === undefined || Array.isArray(before) !== Array.isArray(now)) {
    found.push(`${at} was ${said(before)}, is ${said(now)}`);
    return;
  }
  for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
    const path = Array.isArray(now) ? `${at}[${key}]` : at === '' ? key : `${at}.${key}`;
    compare(a[key], b[key], path, found, most);
  }
}

const entriesOf = (value: unknown): Readonly<Record<string, unknown>> | undefined =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : undefined;

function said(value: unknown): string {
  if (value === undefined) return 'not there';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}
