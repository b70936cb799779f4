import { createStore } from 'zustand/vanilla';
import { type Path, pathText } from '../../shared/path.ts';
import { forFiles } from '../documents/carried.ts';
import type { FileHandle } from '../documents/files.ts';
import { type Json, valueAt, withoutValue, withValue } from '../documents/json.ts';
import { patchText } from '../documents/patch.ts';
import { weightOf } from './weight.ts';

/**
 * How much memory the steps that can be taken back may hold, bytes by `weightOf`. Documents share what did not change,
 * so a figure costs about a kilobyte and the bound is some fifty thousand of them; only then the oldest steps go.
 */
export const HISTORY_BYTES = 64e6;

/** One thing that was done to the document: its name, what was before and what after. Never written to. */
export interface Step {
  /** What was done, in the words of a command: 'move rear pivot'. */
  readonly says: string;
  readonly before: Json;
  readonly after: Json;
  /** What the step holds in memory besides what it shares, bytes. */
  readonly weight: number;
}

/** The open document, as the user wrote it. */
export interface DocumentState {
  /** File name with its ending, `corrie-6x6.json`; empty until something is open. */
  readonly name: string;
  /** Its id in the browser's database; undefined while it is not kept there. */
  readonly id: string | undefined;
  /** It is a demo that ships with the app: not worth keeping until it is changed. */
  readonly demo: boolean;
  /** The file on the disk that saving writes to, where the browser lets a page do so. */
  readonly handle: FileHandle | undefined;
  /** Counts up with every document that is opened, so that others see a new one even under the same name. */
  readonly opening: number;
  /** Text of the file, and what it parses to. */
  readonly text: string;
  readonly written: Json;
  /** The document as it now stands: `written` with all edits. */
  readonly raw: Json;
  /** What was done, oldest first, and what was taken back, in the order in which it would be done again. */
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Which gesture the newest edit belongs to; edits of one gesture are taken back together. */
  readonly gesture: string | undefined;
  /** Why nothing may be changed here: the document is open in another tab. */
  readonly readOnly: string | undefined;
  /** Counts the changes that were refused because of it. */
  readonly refusals: number;
}

const EMPTY: DocumentState = {
  name: '',
  id: undefined,
  demo: false,
  handle: undefined,
  opening: 0,
  text: 'null',
  written: null,
  raw: null,
  past: [],
  future: [],
  gesture: undefined,
  readOnly: undefined,
  refusals: 0,
};

/** Makes the store of the open document. */
export const createDocumentStore = () => createStore<DocumentState>(() => EMPTY);

export type DocumentStore = ReturnType<typeof createDocumentStore>;

/** What is known of a document that is opened besides its file. */
export type Known = Partial<Pick<DocumentState, 'id' | 'demo' | 'handle' | 'raw' | 'past' | 'future'>>;

/**
 * Puts another document in place of the open one.
 * @param written what `text` parses to
 */
export function openDocument(
  store: DocumentStore,
  name: string,
  text: string,
  written: Json,
  known: Known = {},
): void {
  const { opening } = store.getState();
  store.setState({ ...EMPTY, name, text, written, raw: written, ...known, opening: opening + 1 });
}

/** A changed document with the name of what was done to it. */
export interface Done {
  readonly says: string;
  readonly document: Json;
}

/** The steps that fit into the memory that is allowed, newest first served. */
function withinBound(past: readonly Step[]): readonly Step[] {
  let left = HISTORY_BYTES;
  let from = past.length;
  while (from > 0 && left >= 0) {
    from -= 1;
    left -= past[from]?.weight ?? 0;
  }
  // The newest step can always be taken back, however large it is.
  return left >= 0 ? past : past.slice(Math.min(from + 1, past.length - 1));
}

/**
 * The one way to change the document. What is done makes one step with its name; a document that is the same object as
 * the present one makes none.
 * @param gesture name of the drag or key burst that the change belongs to: all its changes are one step to take back
 * @returns false when the document is read only here, and was not changed
 */
export function commit(store: DocumentStore, { says, document }: Done, gesture?: string): boolean {
  const { raw, past, gesture: last, readOnly, refusals } = store.getState();
  if (document === raw) return true;
  if (readOnly !== undefined) {
    store.setState({ refusals: refusals + 1 });
    return false;
  }
  const joined = gesture !== undefined && gesture === last ? past.at(-1) : undefined;
  const before = joined?.before ?? raw;
  const step: Step = { says, before, after: document, weight: weightOf(before, document) };
  store.setState({
    raw: document,
    past: withinBound([...(joined === undefined ? past : past.slice(0, -1)), step]),
    future: [],
    gesture,
  });
  return true;
}

/** A figure to be set, or to be left out when `value` is undefined. */
export interface Change {
  readonly path: Path;
  readonly value: Json | undefined;
}

function changed(document: Json, { path, value }: Change): Json {
  if (valueAt(document, path) === value) return document;
  return value === undefined ? withoutValue(document, path) : withValue(document, path, value);
}

/** 'change middle-arm pivot x': the figure with the name of the entry that it belongs to. */
function sayChange(document: Json, { path }: Change): string {
  const from = path.findLastIndex((step) => typeof step === 'number');
  const name = valueAt(document, [...path.slice(0, from + 1), 'name']);
  const figure = path.slice(from + 1).join(' ') || pathText(path);
  return `change ${from >= 0 && typeof name === 'string' ? `${name} ` : ''}${figure}`;
}

/** Sets one figure, or leaves it out when `value` is undefined, as a step named after it. */
export function edit(store: DocumentStore, path: Path, value: Json | undefined, gesture?: string): void {
  editAll(store, [{ path, value }], undefined, gesture);
}

/** Sets several figures that belong together: one step to take back, named after the first unless `says` is given. */
export function editAll(
  store: DocumentStore,
  changes: readonly Change[],
  says?: string,
  gesture?: string,
): void {
  const { raw } = store.getState();
  const [first] = changes;
  if (first === undefined) return;
  commit(store, { says: says ?? sayChange(raw, first), document: changes.reduce(changed, raw) }, gesture);
}

/** Takes the newest step back. */
export function undo(store: DocumentStore): void {
  stepTo(store, store.getState().past.length - 1);
}

/** Does again what was taken back last. */
export function redo(store: DocumentStore): void {
  stepTo(store, store.getState().past.length + 1);
}

/** Takes a gesture back that is given up, as if it had not been: there is nothing to do again. */
export function giveUp(store: DocumentStore, gesture: string): void {
  const { past, gesture: last } = store.getState();
  const step = past.at(-1);
  if (step === undefined || last !== gesture) return;
  store.setState({ raw: step.before, past: past.slice(0, -1), gesture: undefined });
}

/** Goes to the state of the document after the first `count` steps: takes back or does again whatever lies between. */
export function stepTo(store: DocumentStore, count: number): void {
  const { past, future, readOnly, refusals } = store.getState();
  const steps = [...past, ...future];
  if (count < 0 || count > steps.length || count === past.length) return;
  if (readOnly !== undefined) {
    store.setState({ refusals: refusals + 1 });
    return;
  }
  const raw = count === 0 ? steps[0]?.before : steps[count - 1]?.after;
  if (raw === undefined) return;
  store.setState({ raw, past: steps.slice(0, count), future: steps.slice(count), gesture: undefined });
}

/** Whether the file has not what is open here. */
export const isEdited = (state: DocumentState): boolean => state.raw !== state.written;

/** The document as text: the author's own, with only the edited figures replaced. */
export function textOf(state: Pick<DocumentState, 'text' | 'written' | 'raw'>): string {
  return patchText(state.text, forFiles(state.written), forFiles(state.raw));
}

/**
 * Notes that a state of the document was saved under this name with this text. Edits can still be taken back.
 * @param where the state that was saved, the present one when left out, and the way back to the file
 */
export function markSaved(
  store: DocumentStore,
  name: string,
  text: string,
  { raw, handle }: { readonly raw?: Json; readonly handle?: FileHandle | undefined } = {},
): void {
  store.setState((state) => ({ name, text, written: raw ?? state.raw, handle, gesture: undefined }));
}
