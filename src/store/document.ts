import { createStore } from 'zustand/vanilla';
import type { Path } from '../../shared/path.ts';
import { type Json, valueAt, withoutValue, withValue } from '../documents/json.ts';
import { patchText } from '../documents/patch.ts';

/** How many edits can be taken back. Documents share what did not change, so a step costs a few hundred bytes. */
const UNDO_STEPS = 200;

/** The open document, as the user wrote it. */
export interface DocumentState {
  /** File name with its ending, `corrie-6x6.json`; empty until something is open. */
  readonly name: string;
  /** Counts up with every document that is opened, so that others see a new one even under the same name. */
  readonly opening: number;
  /** Text of the file, and what it parses to. */
  readonly text: string;
  readonly written: Json;
  /** The document as it now stands: `written` with all edits. */
  readonly raw: Json;
  readonly past: readonly Json[];
  readonly future: readonly Json[];
  /** Which gesture the newest edit belongs to; edits of one gesture are taken back together. */
  readonly gesture: string | undefined;
}

const EMPTY: DocumentState = {
  name: '',
  opening: 0,
  text: 'null',
  written: null,
  raw: null,
  past: [],
  future: [],
  gesture: undefined,
};

/** Makes the store of the open document. */
export const createDocumentStore = () => createStore<DocumentState>(() => EMPTY);

export type DocumentStore = ReturnType<typeof createDocumentStore>;

/** Puts another document in place of the open one. `raw` is what `text` parses to. */
export function openDocument(store: DocumentStore, name: string, text: string, raw: Json): void {
  store.setState((state) => ({ ...EMPTY, name, text, written: raw, raw, opening: state.opening + 1 }));
}

/**
 * Sets one figure, or leaves it out when `value` is undefined.
 * @param gesture name of the drag or key burst that the edit belongs to: all its edits are one step to take back
 */
export function edit(store: DocumentStore, path: Path, value: Json | undefined, gesture?: string): void {
  const { raw, past, gesture: last } = store.getState();
  if (valueAt(raw, path) === value) return;
  const joins = gesture !== undefined && gesture === last;
  store.setState({
    raw: value === undefined ? withoutValue(raw, path) : withValue(raw, path, value),
    past: joins ? past : [...past, raw].slice(-UNDO_STEPS),
    future: [],
    gesture,
  });
}

/** A figure to be set, or to be left out when `value` is undefined. */
export interface Change {
  readonly path: Path;
  readonly value: Json | undefined;
}

/** Sets several figures that belong together: one step to take back. */
export function editAll(store: DocumentStore, changes: readonly Change[]): void {
  const { raw, past } = store.getState();
  const next = changes.reduce<Json>(
    (document, { path, value }) =>
      valueAt(document, path) === value
        ? document
        : value === undefined
          ? withoutValue(document, path)
          : withValue(document, path, value),
    raw,
  );
  if (next === raw) return;
  store.setState({ raw: next, past: [...past, raw].slice(-UNDO_STEPS), future: [], gesture: undefined });
}

/** Takes the newest edit back. */
export function undo(store: DocumentStore): void {
  const { raw, past, future } = store.getState();
  const before = past.at(-1);
  if (before === undefined) return;
  store.setState({ raw: before, past: past.slice(0, -1), future: [raw, ...future], gesture: undefined });
}

/** Brings back what was taken back last. */
export function redo(store: DocumentStore): void {
  const { raw, past, future } = store.getState();
  const [next] = future;
  if (next === undefined) return;
  store.setState({ raw: next, past: [...past, raw], future: future.slice(1), gesture: undefined });
}

/** Whether there is anything that a save would change. */
export const isEdited = (state: DocumentState): boolean => state.raw !== state.written;

/** The document as text: the author's own, with only the edited figures replaced. */
export function textOf(state: DocumentState): string {
  return patchText(state.text, state.written, state.raw);
}

/** Notes that the document was saved under this name with this text. Edits can still be taken back. */
export function markSaved(store: DocumentStore, name: string, text: string): void {
  store.setState((state) => ({ name, text, written: state.raw, gesture: undefined }));
}
