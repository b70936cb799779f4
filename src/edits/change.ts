import { type Path, pathText } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { declined, type Edit, edited, type Remark } from './edit.ts';
import { entryOf, listOf, nameAt, titleOf } from './lists.ts';
import { freeName, takenIn } from './names.ts';
import { labelOf } from './points.ts';
import { leaveOut, put } from './put.ts';
import { namedIn, renamed } from './references.ts';

/** Sets a field to a value as the user wrote it ('45 mm', 4, true); undefined leaves it out. Reading checks it. */
export function setValue(document: Json, path: Path, value: Json | undefined): Edit {
  const says = value === undefined ? `clear ${labelOf(document, path)}` : `set ${labelOf(document, path)}`;
  if (path.at(-1) === 'name' && typeof value === 'string' && namedIn(path.slice(0, -2)) !== undefined)
    return renameEntry(document, path.slice(0, -1), value);
  const after = value === undefined ? leaveOut(document, path) : put(document, path, value);
  return after === undefined
    ? declined(document, says, pathText(path), 'there is no such place in this document')
    : edited(document, after, says);
}

/**
 * Gives an entry another name; everything that names it follows. A name that is taken gets a number behind it, and a
 * remark says so; an empty one changes nothing.
 */
export function renameEntry(document: Json, path: Path, name: string): Edit {
  const entry = entryOf(path);
  const list = listOf(entry);
  const key = list?.names;
  const was = nameAt(document, entry);
  const says = `rename ${titleOf(document, entry)}`;
  const wanted = name.trim();
  if (list === undefined || key === undefined || valueAt(document, entry) === undefined)
    return declined(document, says, pathText(entry), 'has no name');
  if (wanted === '')
    return declined(document, says, pathText([...entry, key]), 'a name needs at least one letter');
  if (wanted === was) return edited(document, document, says);
  const free = key === 'title' ? wanted.slice(0, 60) : freeName(wanted, takenIn(document, list.path));
  const remarks: Remark[] = free === wanted ? [] : [changedName(pathText([...entry, key]), wanted, free)];
  const to = namedIn(list.path);
  const followed = was === undefined || to === undefined ? document : renamed(document, to, was, free);
  const after = put(followed, [...entry, key], free) ?? document;
  return edited(document, after, `${says} to ${free}`, { remarks });
}

/** Tells that a name is not the one that was asked for. */
export const changedName = (path: string, wanted: string, free: string): Remark => ({
  path,
  message: `is '${free}', since '${wanted.slice(0, 60)}' is ${wanted.length > 60 ? 'too long or taken' : 'taken'}`,
  severity: 'warning',
});

/** Whether the schema lets a field be left out. */
export const mayBeLeftOut = (document: Json, path: Path): boolean =>
  describeField(scenarioDocument, document, path)?.optional === true;
