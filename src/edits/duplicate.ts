import { add, type Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { type Carriage, carriageOf, type Placed } from './carriage.ts';
import { copied, groupOf } from './copy.ts';
import { declined, type Edit, edited } from './edit.ts';
import { readFigure, readPoint } from './figures.ts';
import { entriesAt, entryOf, titleOf } from './lists.ts';

/** How much of a wheel's diameter lies between two wheels behind each other, at least. */
const APART = 1.15;
/** Way of a copy without wheels, as a share of the vehicle's size. */
const ASIDE = 0.05;

/** Hubs and radii of all wheels, m. */
function wheelsOf(
  document: Json,
): readonly { readonly path: Path; readonly at: Vec2; readonly radius: number }[] {
  return entriesAt(document, ['vehicle', 'wheels']).flatMap(({ path, value }) => {
    const at = readPoint(value.at);
    const radius = readFigure(value.radius, 'length');
    return at === undefined || radius === undefined ? [] : [{ path, at, radius }];
  });
}

/** The shortest way rearward, m, on which a group's wheels meet no other wheel; a small one for parts without wheels. */
export function freeWay(document: Json, carriage: Carriage, entries: readonly Path[]): Vec2 {
  const group = new Set(entries.map(pathText));
  const wheels = wheelsOf(document);
  const own = wheels.filter(({ path }) => group.has(pathText(path)));
  const round = (way: number) => -Math.ceil(way / carriage.grid / 100) * carriage.grid * 100;
  if (own.length === 0) return { x: round(ASIDE * carriage.size), z: 0 };
  const blocked = own.flatMap((wheel) =>
    wheels.map((other) => {
      const gap = APART * (wheel.radius + other.radius);
      return { from: wheel.at.x - other.at.x - gap, to: wheel.at.x - other.at.x + gap };
    }),
  );
  let way = 0;
  // The way grows at each blocked stretch to its end, so no stretch is met twice.
  for (let met = blocked[0]; met !== undefined; way = met?.to ?? way)
    met = blocked.find(({ from, to }) => way > from && way < to);
  return { x: round(way), z: 0 };
}

/** Points of a carriage that belong to these entries. */
export const pointsIn = (carriage: Carriage, entries: readonly Path[]): readonly Placed[] => {
  const group = new Set(entries.map(pathText));
  return carriage.points.filter(({ entry }) => group.has(pathText(entry)));
};

/**
 * Doubles an entry with all that it carries (an axle with its wheel, springs and masses), behind the original where there
 * is room, or moved by `by`, m. Names are new ones; references inside the copy follow; driven wheels, sharing tree and
 * ride height take the copies in.
 */
export function duplicateEntry(document: Json, path: Path, by?: Vec2): Edit {
  const entry = entryOf(path);
  const says = `duplicate ${titleOf(document, entry)}`;
  if (typeof entry.at(-1) !== 'number' || valueAt(document, entry) === undefined)
    return declined(document, says, pathText(entry), 'is nothing that can stand twice');
  const carriage = carriageOf(document);
  const entries = groupOf(document, carriage, entry);
  const way = by ?? freeWay(document, carriage, entries);
  const copy = copied(document, carriage, entries, {
    place: (at) => add(at, way),
    name: (original) => original,
  });
  return edited(document, copy.document, says, { select: copy.paths[0] });
}
