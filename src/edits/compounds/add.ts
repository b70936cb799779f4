import type { Vec2 } from '../../../shared/geometry/vec.ts';
import type { Path } from '../../../shared/path.ts';
import { isList, isObject, type Json, valueAt } from '../../documents/json.ts';
import { declined, type Edit, edited } from '../edit.ts';
import { readPoint } from '../figures.ts';
import { joinedRideHeight, joinedTree } from '../join.ts';
import { entriesAt } from '../lists.ts';
import { takenIn } from '../names.ts';
import { proportionsOf } from '../proportions.ts';
import { appended } from '../put.ts';
import { AXLES_APART, roomForAxle } from '../room.ts';
import { type Berth, type Compound, gravity, type Parts } from './compound.ts';
import { compounds } from './registry.ts';

const lists = ['members', 'wheels', 'elements', 'masses'] as const;

/** Stations of all hubs, m. */
const stationsOf = (document: Json): readonly number[] =>
  entriesAt(document, ['vehicle', 'wheels']).flatMap(({ value }) => readPoint(value.at)?.x ?? []);

/** The middle of its hubs, m: in a gap that is wide enough, else behind the rearmost wheel. */
function berthFor(document: Json, { reach }: Compound, radius: number): Vec2 {
  const stations = stationsOf(document);
  const rearmost = Math.min(...stations);
  const room = roomForAxle(document, proportionsOf(document));
  if (reach === 0 || stations.length === 0) return room;
  return { x: rearmost - (AXLES_APART + reach) * radius, z: room.z };
}

/** 'front' ahead of all wheels, 'rear' behind all, else 'middle'. */
function whereabouts(document: Json, x: number): string {
  const stations = stationsOf(document);
  if (x > Math.max(...stations)) return 'front';
  return x < Math.min(...stations) ? 'rear' : 'middle';
}

/** Whether no name of these parts is taken. */
function areFree(document: Json, parts: Parts): boolean {
  return lists.every((list) => {
    const taken = takenIn(document, ['vehicle', list]);
    return parts[list].every(
      (entry) => !isObject(entry) || typeof entry.name !== 'string' || !taken.has(entry.name),
    );
  });
}

/** The parts under the first label that leaves all their names free: 'rear', 'rear 2', … */
function made(document: Json, compound: Compound, berth: Omit<Berth, 'label'>, word: string): Parts {
  for (let n = 1; ; n++) {
    const parts = compound.make({ ...berth, label: n === 1 ? word : `${word} ${n}` });
    if (areFree(document, parts)) return parts;
  }
}

/** The document with parts at the ends of their lists; new wheels and springs join sharing tree and ride height. */
function withParts(document: Json, parts: Parts): Json {
  const longer = lists.reduce<Json>((now, list) => appended(now, ['vehicle', list], parts[list]), document);
  const driven = parts.wheels.reduce<Json>((now, wheel) => joinedTree(now, wheel), longer);
  return parts.elements.reduce<Json>((now, element) => joinedRideHeight(now, element), driven);
}

/**
 * Adds several entries as one thing: an axle on springs, a bogie with two axles, … (ids in compounds/registry.ts), its
 * springs set for an even share of the weight. `at`: middle of its hubs, m; where there is room when left out.
 */
export function addCompound(document: Json, id: string, at?: Vec2): Edit {
  const compound = (compounds as readonly Compound[]).find((c) => c.id === id);
  const says = `add ${compound?.title.toLowerCase() ?? id}`;
  if (compound === undefined || !isObject(document))
    return declined(document, says, 'vehicle.members', `there is nothing called '${id}' to add`);
  const { radius, mass, axles } = proportionsOf(document);
  const place = at ?? berthFor(document, compound, radius);
  const stations = stationsOf(document);
  const middle = stations.length === 0 ? 0 : (Math.min(...stations) + Math.max(...stations)) / 2;
  const berth = {
    at: place,
    radius,
    axleLoad: (mass * gravity) / (stations.length === 0 ? axles : axles + compound.axles),
    inward: place.x < middle ? 1 : -1,
    wheels: [],
  } as const;
  const parts = made(document, compound, berth, whereabouts(document, place.x));
  const was = valueAt(document, ['vehicle', 'members']);
  const select: Path = ['vehicle', 'members', isList(was) ? was.length : 0];
  return edited(document, withParts(document, parts), says, { select });
}
