import { type Path, pathText } from '../../shared/path.ts';
import type { Problem } from '../../shared/problem.ts';
import type { Workbench } from '../app/workbench.ts';
import { isObject, type Json, valueAt } from '../documents/json.ts';
import { addEntry } from '../edits/add.ts';
import { alikeWheels } from '../edits/alike.ts';
import { setValue } from '../edits/change.ts';
import { addCompound } from '../edits/compounds/add.ts';
import { driveLineLayouts, isDrivePart, layOutDriveline, removePart } from '../edits/driveline.ts';
import { duplicateEntry } from '../edits/duplicate.ts';
import type { Edit, Remark } from '../edits/edit.ts';
import { readPoint } from '../edits/figures.ts';
import { handlesOf } from '../edits/handles.ts';
import { mirrorEntry } from '../edits/mirror.ts';
import { moveEntry, movePoint } from '../edits/move.ts';
import { removeEntry } from '../edits/remove.ts';
import type { Write } from '../panels/fields/writer.ts';
import { commit } from '../store/document.ts';
import { type Selection, samePath, select } from '../store/selection.ts';
import type { Building } from './build.ts';

/** What there is to tell about an edit, besides what the document's own check tells. */
export type Tell = (remarks: readonly Remark[]) => void;

/** Remarks that the list of the document's problems does not tell already. */
const untold = (remarks: readonly Remark[], problems: readonly Problem[]): readonly Remark[] =>
  remarks.filter(
    (remark) =>
      !problems.some(({ path, message }) => path === remark.path && remark.message.startsWith(message)),
  );

/** Everything that can be done by hand, as edits that go into the document. */
export function buildingOn({ documents, selection, desk }: Workbench, tell: Tell): Building {
  const raw = (): Json => documents.getState().raw;
  const apply = (edit: Edit, gesture?: string): void => {
    commit(documents, edit, gesture);
    if (edit.select !== undefined) select(selection, edit.select);
    // Remarks take reading the document twice: too long for every frame of a drag.
    if (gesture === undefined) about(edit);
  };
  const about = (edit: Edit): void => tell(untold(edit.remarks, desk.state().problems));
  return {
    apply,
    tell: about,
    rename: (entry, name) => apply(setValue(raw(), [...entry, 'name'], name)),
    duplicate: (entry) => apply(duplicateEntry(raw(), entry)),
    mirror: (entry) => apply(mirrorEntry(raw(), entry)),
    alike: (entry) => apply(alikeWheels(raw(), entry)),
    remove(entry) {
      const part = isDrivePart(entry) ? Number(entry.at(-1)) : undefined;
      apply(part === undefined ? removeEntry(raw(), entry) : removePart(raw(), part));
      select(selection, undefined);
    },
    carry: (entry, by) => apply(moveEntry(raw(), entry, by), `${pathText(entry)} carried by keys`),
    add(list, kind, at) {
      const near = at ?? placeOf(raw(), selection.getState());
      apply(addEntry(raw(), list, kind, near));
    },
    addWhole(id) {
      const line = driveLineLayouts.some(({ kind }) => kind === id);
      apply(line ? layOutDriveline(raw(), id) : addCompound(raw(), id));
    },
  };
}

/** Where something new belongs: at the point that is selected, or at the free end of the selected entry. */
function placeOf(document: Json, { entry, point }: Selection) {
  if (entry === undefined) return undefined;
  const own = handlesOf(document).filter((each) => samePath(each.entry, entry) && each.kind === 'point');
  return (own.find(({ path }) => samePath(path, point)) ?? own.at(-1))?.at;
}

/**
 * How fields write while building: a coordinate of a point takes along what hangs there, everything else is set as it was
 * typed.
 */
export function writerOn({ documents }: Workbench, { apply }: Building): Write {
  return (path, value, gesture) => {
    const { raw } = documents.getState();
    const set = setValue(raw, path, value);
    const moved = value === undefined ? undefined : movedPoint(raw, set, path);
    apply(moved ?? set, gesture);
  };
}

/** The move that a typed coordinate makes: what hangs on the point goes along, and the figure stays as it was typed. */
function movedPoint(document: Json, set: Edit, path: Path): Edit | undefined {
  const above = path.slice(0, -1);
  const point = valueAt(set.document, above);
  if (path[0] !== 'vehicle' || !isObject(point) || !['x', 'z'].includes(String(path.at(-1))))
    return undefined;
  const to = readPoint(point);
  if (to === undefined || !handlesOf(document).some((each) => pathText(each.path) === pathText(above)))
    return undefined;
  const moved = movePoint(document, above, to);
  const typed = valueAt(set.document, path);
  return typed === undefined ? moved : { ...setValue(moved.document, path, typed), says: moved.says };
}
