import { type Path, pathText } from '../../shared/path.ts';
import { isObject, type Json, valueAt } from '../documents/json.ts';
import { declined, type Edit, edited } from './edit.ts';
import { entriesAt, titleOf } from './lists.ts';
import { put } from './put.ts';

const WHEELS: Path = ['vehicle', 'wheels'];

/** What makes a wheel the same as another; where it sits, what carries it and how many there are is its own. */
const OF_WHEEL = ['radius', 'width', 'massPerWheel', 'inertiaPerWheel', 'tyre'] as const;

/** Whether an entry is one of several axle lines. */
export const isOneOfWheels = (document: Json, path: Path): boolean =>
  path.length === 3 &&
  pathText(path.slice(0, 2)) === pathText(WHEELS) &&
  entriesAt(document, WHEELS).length > 1;

/** Gives every axle line the wheels of the one at `path`, tyres included. What the others had of their own goes. */
export function alikeWheels(document: Json, path: Path): Edit {
  const says = `give all axles the wheels of ${titleOf(document, path)}`;
  const from = valueAt(document, path);
  if (!isObject(from) || !isOneOfWheels(document, path))
    return declined(document, says, pathText(path), 'is no axle line beside others');
  const given = OF_WHEEL.flatMap((key) => (from[key] === undefined ? [] : [[key, from[key]] as const]));
  const all = entriesAt(document, WHEELS).map(({ value }) => ({
    ...Object.fromEntries(
      Object.entries(value).filter(([key]) => !(OF_WHEEL as readonly string[]).includes(key)),
    ),
    ...Object.fromEntries(given),
  }));
  return edited(document, put(document, WHEELS, all) ?? document, says);
}
