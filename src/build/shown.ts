import { pathText } from '../../shared/path.ts';
import type { Handle } from '../edits/edit.ts';
import { samePath } from '../store/selection.ts';

/** Handles that are shown: all of what carries load, and those of drawn lines when their entry is selected or pointed at. */
export function shownOf(
  handles: readonly Handle[],
  ...wanted: readonly (Handle['entry'] | undefined)[]
): readonly Handle[] {
  return handles.filter(
    ({ entry }) => !isLine(entry) || wanted.some((each) => each !== undefined && samePath(each, entry)),
  );
}

/** Outlines and the belly have many points, which would hide what matters. */
export const isLine = (entry: Handle['entry']): boolean => entry[1] === 'bodywork';

/** The one handle that Tab comes to: the one taken up last, else the first of the selected entry, else the first. */
export function stopOf(
  shown: readonly Handle[],
  entry: Handle['entry'] | undefined,
  point: Handle['path'] | undefined,
): string | undefined {
  const last = point === undefined ? undefined : shown.find(({ path }) => samePath(path, point));
  const first = entry === undefined ? undefined : shown.find((each) => samePath(each.entry, entry));
  const found = last ?? first ?? shown[0];
  return found === undefined ? undefined : pathText(found.path);
}
