import type { Json } from '../documents/json.ts';
import type { DocumentState, Step } from '../store/document.ts';
import { type Change, changesBetween, sharing, withChanges } from './changes.ts';

/** A document small enough to be drawn in a list: lengths in m, x forward, z up. */
export interface Picture {
  /** Least x, least z, width, height. */
  readonly box: readonly [number, number, number, number];
  readonly wheels: readonly (readonly [x: number, z: number, radius: number])[];
  /** Polylines as x, z, x, z …: the bodywork, and what carries the wheels. */
  readonly covers: readonly (readonly number[])[];
  readonly lines: readonly (readonly number[])[];
}

/** What lists show of a document, and where in its history it stands. One small row, written with every change. */
export interface Head {
  readonly id: string;
  /** File name with its ending. */
  readonly name: string;
  readonly title: string;
  /** ms since 1970. */
  readonly created: number;
  readonly changed: number;
  /** When it was put among the deleted ones; they can be brought back for a while. */
  readonly deleted?: number;
  readonly picture?: Picture;
  /** Which window may write it: another one that finds a stranger's name here has lost it, and leaves it alone. */
  readonly owner: string;
  /** Number of the oldest step that is kept; how many of those from there on are done, and how many there are. */
  readonly first: number;
  readonly done: number;
  readonly steps: number;
}

/** The file, and one state of the document from which all others follow by the steps. Written seldom. */
export interface Body {
  readonly id: string;
  readonly text: string;
  /** Number of the steps that lie before that state; without a document of its own it is the file's. */
  readonly anchor: { readonly at: number; readonly document?: Json };
}

/** One step of a document's history. */
export interface StepRow {
  readonly doc: string;
  readonly n: number;
  readonly says: string;
  /** What it holds in memory, bytes. */
  readonly weight: number;
  readonly forth: readonly Change[];
  readonly back: readonly Change[];
}

/** What is known to be in the database of the open document. */
export interface Kept {
  readonly id: string;
  readonly first: number;
  readonly timeline: readonly Step[];
  readonly text: string;
  readonly anchor: Body['anchor'];
}

/** The part of the open document's state that is kept. */
export type Keepable = Pick<DocumentState, 'text' | 'written' | 'raw' | 'past' | 'future'>;

/** What has to be written so that the database has the document as it is. */
export interface Plan {
  readonly kept: Kept;
  /** Left out where the one in the database still holds. */
  readonly body?: Body;
  readonly rows: readonly StepRow[];
  /** Steps with numbers below `first`, and those from `from` on, are no longer in the history. */
  readonly from: number;
}

const timelineOf = ({ past, future }: Pick<Keepable, 'past' | 'future'>): readonly Step[] => [
  ...past,
  ...future,
];

/** The document when the first `n` steps are done. */
function stateAt(timeline: readonly Step[], n: number, raw: Json): Json {
  return n === 0 ? (timeline[0]?.before ?? raw) : (timeline[n - 1]?.after ?? raw);
}

/** The state to start from: the file's where the history has it, else the present one. */
function anchorOf({ written, raw, past, future }: Keepable, first: number): Body['anchor'] {
  const timeline = timelineOf({ past, future });
  for (let n = timeline.length; n >= 0; n -= 1) {
    if (stateAt(timeline, n, raw) === written) return { at: first + n };
  }
  return { at: first + past.length, document: raw };
}

function rowOf(doc: string, n: number, { says, before, after, weight }: Step): StepRow {
  return { doc, n, says, weight, forth: changesBetween(before, after), back: changesBetween(after, before) };
}

/**
 * What to write so that the database has the document as it now is. Steps that are there already are left alone, so an
 * autosave costs what was changed, not what the document or its history weighs.
 * @param kept what is in the database; undefined when nothing is
 */
export function planOf(id: string, state: Keepable, kept: Kept | undefined): Plan {
  const timeline = timelineOf(state);
  const old = kept?.timeline ?? [];
  const begin = timeline[0]?.before;
  const start = begin === undefined || old.length === 0 ? 0 : old.findIndex(({ before }) => before === begin);
  // Nothing of the old history is left: numbers go on, so that no old row can be taken for a new one.
  const dropped = start < 0 ? old.length : start;
  const first = (kept?.first ?? 0) + dropped;
  let same = 0;
  while (same < timeline.length && timeline[same] === old[dropped + same]) same += 1;
  const from = first + same;
  const rows = timeline.slice(same).map((step, i) => rowOf(id, from + i, step));
  const holds =
    kept !== undefined &&
    kept.text === state.text &&
    kept.anchor.at >= first &&
    kept.anchor.at <= from &&
    start >= 0 &&
    !(timeline.length === 0 && old.length > 0);
  const anchor = holds ? kept.anchor : anchorOf(state, first);
  return {
    kept: { id, first, timeline, text: state.text, anchor },
    ...(holds ? {} : { body: { id, text: state.text, anchor } }),
    rows,
    from,
  };
}

const withoutMark = (text: string): string => (text.startsWith('\uFEFF') ? text.slice(1) : text);

const stepOf = ({ says, weight }: StepRow, before: Json, after: Json): Step => ({
  says,
  before,
  after,
  weight,
});

/**
 * A kept document as it was, its whole history with it.
 * @param rows its steps in order
 * @throws SyntaxError or RangeError when what was kept makes no sense
 */
export function restored(
  head: Pick<Head, 'first' | 'done' | 'steps'>,
  { text, anchor }: Pick<Body, 'text' | 'anchor'>,
  rows: readonly StepRow[],
): Keepable {
  const written = JSON.parse(withoutMark(text)) as Json;
  const wrong = rows.length !== head.steps || rows.some(({ n }, i) => n !== head.first + i);
  const at = anchor.at - head.first;
  if (wrong || at < 0 || at > rows.length || head.done > rows.length) {
    throw new RangeError('the steps of its history do not follow each other');
  }
  const states: Json[] = [];
  states[at] = anchor.document === undefined ? written : sharing(written, anchor.document);
  rows.slice(at).forEach(({ forth }, i) => {
    states[at + i + 1] = withChanges(states[at + i] as Json, forth);
  });
  for (let n = at; n > 0; n -= 1) {
    states[n - 1] = withChanges(states[n] as Json, (rows[n - 1] as StepRow).back);
  }
  const steps = rows.map((row, i) => stepOf(row, states[i] as Json, states[i + 1] as Json));
  return {
    text,
    written,
    raw: states[head.done] as Json,
    past: steps.slice(0, head.done),
    future: steps.slice(head.done),
  };
}
