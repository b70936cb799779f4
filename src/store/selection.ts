import { createStore } from 'zustand/vanilla';
import { type Path, pathText } from '../../shared/path.ts';

/** What is looked at in the document: an entry of one of its lists, and perhaps one point of it. */
export interface Selection {
  /** The entry that is selected, `vehicle.members[2]`; undefined when none is. */
  readonly entry: Path | undefined;
  /** The point or angle of it that was taken up last. */
  readonly point: Path | undefined;
  /** The entry under the pointer. */
  readonly under: Path | undefined;
}

/** Makes the store of the selection: canvas, tree and inspector all read and write it. */
export const createSelectionStore = () =>
  createStore<Selection>(() => ({ entry: undefined, point: undefined, under: undefined }));

export type SelectionStore = ReturnType<typeof createSelectionStore>;

/** Whether two paths name the same place; also true of two that are left out. */
export function samePath(a: Path | undefined, b: Path | undefined): boolean {
  return a === b || (a !== undefined && b !== undefined && pathText(a) === pathText(b));
}

/** Whether `path` is `above` or lies in it. */
export function liesIn(path: Path, above: Path): boolean {
  return path.length >= above.length && above.every((step, i) => step === path[i]);
}

/** Selects an entry, or a point of it, or nothing. */
export function select(store: SelectionStore, entry: Path | undefined, point?: Path): void {
  const now = store.getState();
  if (samePath(now.entry, entry) && samePath(now.point, point)) return;
  store.setState({ entry, point });
}
