import type { Path } from '../../../shared/path.ts';
import type { LedgerLine } from '../../../shared/report.ts';
import { jumpTo } from '../../app/actions.ts';
import type { Workbench } from '../../app/workbench.ts';
import { isObject, type Json, valueAt } from '../../documents/json.ts';
import { entryOf } from '../../edits/lists.ts';
import { stepsOf } from '../../edits/take.ts';
import { select } from '../../store/selection.ts';

/** The entry of the document that a line is about: an item of a list, or the object that holds the figure. */
export function entryFor(document: Json, { path }: Pick<LedgerLine, 'path'>): Path | undefined {
  const steps = path === undefined ? undefined : stepsOf(path);
  if (steps === undefined) return undefined;
  let entry = entryOf(steps);
  while (entry.length > 0 && !isObject(valueAt(document, entry))) entry = entry.slice(0, -1);
  return entry.length > 1 ? entry : undefined;
}

/** Selects what a line is about, in the diagram and on the picture. */
export function selectLine({ documents, selection }: Workbench, line: LedgerLine): void {
  const entry = entryFor(documents.getState().raw, line);
  if (entry !== undefined) select(selection, entry);
}

/** The same, and shows the moment of its worst. */
export function goToLine(bench: Workbench, line: LedgerLine): void {
  selectLine(bench, line);
  if (line.moment !== undefined) jumpTo(bench, line.moment);
}
