import { type Path, pathText } from '../../shared/path.ts';
import { describeField, keysAt } from '../../shared/schema/describe.ts';
import type { Dimension } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { type Carriage, carriageOf, jointOf } from './carriage.ts';
import { renameEntry } from './change.ts';
import { type Copying, copied, groupOf, reshaped } from './copy.ts';
import { declined, type Edit, edited } from './edit.ts';
import { readFigure, readPoint, writeFigure } from './figures.ts';
import { entriesAt, entryOf, listOf, nameAt, titleOf } from './lists.ts';
import { takenIn } from './names.ts';

/** How an entry is mirrored. */
export interface MirrorOptions {
  /** Station of the mirror in the drawing, m; the middle between the foremost and the rearmost hub when left out. */
  readonly about?: number;
  /** Whether the original goes: the part itself is turned round instead of a copy. */
  readonly move?: boolean;
}

/** Words that swap when front and rear do. */
const opposites: Readonly<Record<string, string>> = {
  front: 'rear',
  rear: 'front',
  fore: 'aft',
  aft: 'fore',
  foremost: 'rearmost',
  rearmost: 'foremost',
  leading: 'trailing',
  trailing: 'leading',
  forward: 'rearward',
  rearward: 'forward',
};

/** 'Front-axle' → 'Rear-axle': words that say which end of the vehicle are swapped, with their capitals. */
export function otherEnd(name: string): string {
  return name.replace(/\p{L}+/gu, (word) => {
    const lower = word.toLowerCase();
    const other = Object.hasOwn(opposites, lower) ? (opposites[lower] ?? word) : word;
    if (other === word || word === lower) return other;
    if (word === word.toUpperCase()) return other.toUpperCase();
    return other.slice(0, 1).toUpperCase() + other.slice(1);
  });
}

/** Keys whose values change places, where an object has both. */
const pairs = [
  ['front', 'rear'],
  ['bump', 'droop'],
] as const;

/** An object with the values of two keys swapped; a key that is missing stays missing on the other side. */
function swapped(value: Json, [one, other]: readonly [string, string]): Json {
  if (!isObject(value)) return value;
  const { [one]: a, [other]: b } = value;
  if (a === undefined || b === undefined)
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [key === one ? other : key === other ? one : key, inner]),
    );
  return { ...value, [one]: b, [other]: a };
}

/** The same figure with the other sign, in its unit. */
function negated(value: Json, path: Path, key: string, document: Json): Json {
  if (!isObject(value) || value[key] === undefined) return value;
  const dimension = describeField(scenarioDocument, document, [...path, key])?.dimension as
    | Dimension
    | undefined;
  const si = dimension === undefined ? undefined : readFigure(value[key], dimension);
  if (dimension === undefined || si === undefined) return value;
  return { ...value, [key]: writeFigure(si === 0 ? 0 : -si, value[key], dimension, 1e-9) };
}

/** Figures of an element on a turn that change their sign when the turn does; after the words of the element kinds. */
const signed = ['preload', 'freeAt'] as const;

/**
 * Whether a member's turn counts nose-up on either side of the mirror, so that what was up is down in the mirror. An arm's
 * turn follows its end and stays as it is.
 */
function turnsOver(carriage: Carriage, name: string): boolean {
  const joint = jointOf(carriage.tree, name);
  if (joint?.kind !== 'hinge') return false;
  const ends = carriage.points.filter(({ member, role }) => member === name && role === 'own');
  return ends.length !== 1;
}

/** What is turned round in an entry besides its points. */
function turnedRound(document: Json, carriage: Carriage, entry: Json, path: Path): Json {
  if (!isObject(entry)) return entry;
  const list = path.at(-2);
  if (list === 'members') {
    const ends = keysAt(scenarioDocument, document, path).includes('front')
      ? swapped(entry, pairs[0])
      : entry;
    const over = turnsOver(carriage, nameAt(document, path) ?? '');
    return negated(over ? swapped(ends, pairs[1]) : ends, path, 'lean', document);
  }
  if (list === 'elements') {
    const on = valueAt(document, [...path, 'on', 'member']);
    const over = typeof on === 'string' && turnsOver(carriage, on);
    return over ? signed.reduce<Json>((now, key) => negated(now, path, key, document), entry) : entry;
  }
  if (list === 'pulls') {
    const angle = readFigure(entry.angle, 'angle') ?? 0;
    return { ...entry, angle: writeFigure(Math.PI - angle, entry.angle, 'angle', Math.PI / 18_000) };
  }
  return entry;
}

/** The middle between the foremost and the rearmost hub, m; 0 without wheels. */
function middleOf(document: Json): number {
  const stations = entriesAt(document, ['vehicle', 'wheels']).flatMap(
    ({ value }) => readPoint(value.at)?.x ?? [],
  );
  return stations.length === 0 ? 0 : (Math.min(...stations) + Math.max(...stations)) / 2;
}

/** The belly line in the mirror, from rear to front again. */
function mirroredLine(document: Json, carriage: Carriage, path: Path, about: number): Json {
  const line = valueAt(document, path);
  if (!isList(line)) return document;
  const points = line.map((point, i): Json => {
    const placed = carriage.points.find((p) => pathText(p.path) === pathText([...path, i]));
    if (placed === undefined || !isObject(point)) return point;
    return { ...point, x: writeFigure(2 * about - placed.at.x, point.x, 'length', carriage.grid) };
  });
  return withValue(document, path, points.reverse());
}

/**
 * Mirrors an entry, with all that it carries, fore and aft: points, front and rear ends, angles and names ('front-axle'
 * → 'rear-axle'). A copy, unless `move` turns the part itself round.
 */
export function mirrorEntry(document: Json, path: Path, options: MirrorOptions = {}): Edit {
  const entry = entryOf(path);
  const says = `mirror ${titleOf(document, entry)}`;
  const about = options.about ?? middleOf(document);
  const carriage = carriageOf(document);
  if (typeof entry.at(-1) !== 'number') {
    const line = mirroredLine(document, carriage, entry, about);
    return line === document
      ? declined(document, says, pathText(entry), 'is nothing that can be mirrored')
      : edited(document, line, says);
  }
  if (entry[0] === 'ground' || entry[0] === 'criteria' || valueAt(document, entry) === undefined)
    return declined(document, says, pathText(entry), 'is nothing that can be mirrored');
  const entries = groupOf(document, carriage, entry);
  const how: Copying = {
    place: (at) => ({ x: 2 * about - at.x, z: at.z }),
    name: otherEnd,
    retouch: (value, at) => turnedRound(document, carriage, value, at),
  };
  if (options.move === true)
    return edited(document, inPlace(document, carriage, entries, how), says, { select: entry });
  const copy = copied(document, carriage, entries, how);
  return edited(document, copy.document, says, { select: copy.paths[0] });
}

/** The entries turned round where they stand; those whose other name is free get it. */
function inPlace(document: Json, carriage: Carriage, entries: readonly Path[], how: Copying): Json {
  return entries.reduce<Json>(
    (now, entry) => {
      const name = nameAt(now, entry);
      const list = listOf(entry);
      if (name === undefined || list?.names !== 'name') return now;
      const other = otherEnd(name);
      return takenIn(now, list.path).has(other) ? now : renameEntry(now, entry, other).document;
    },
    reshaped(document, carriage, entries, how),
  );
}
