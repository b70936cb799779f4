import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { placeElement } from './add-element.ts';
import { loose } from './add-loose.ts';
import { placeMember } from './add-member.ts';
import { placePart, placeStrength } from './add-part.ts';
import { carriageOf, jointOf } from './carriage.ts';
import { declined, type Edit, edited } from './edit.ts';
import { roundFigure, writePoint } from './figures.ts';
import { joinedTree } from './join.ts';
import { entryLists } from './lists.ts';
import { freeName, takenIn } from './names.ts';
import { proportionsOf } from './proportions.ts';
import { appended } from './put.ts';
import { exists, referencesIn } from './references.ts';
import { kindsFor, sampleFor } from './sample.ts';
import type { Site } from './site.ts';
import { without } from './strip.ts';

/** Mass of a new member over that of the vehicle. Common practice, no source. */
const MEMBER_SHARE = 0.03;

/** How each list's new entry finds its place; lists that are not here take the sample as it is. */
const placing: Readonly<Record<string, (site: Site, entry: Json) => Json>> = {
  'vehicle.members': placeMember,
  'vehicle.elements': placeElement,
  'vehicle.driveline.parts': placePart,
  'vehicle.strength.parts': placeStrength,
};

/** The new entry before it has a name. */
function fresh(site: Site, list: Path, kind: string | undefined): Json | undefined {
  const kinds = kindsFor(list);
  const at = pathText(list);
  if (kinds.length === 0) return loose(site, at);
  const addable = kinds.find((k) => k.kind === kind) ?? (kind === undefined ? kinds[0] : undefined);
  if (addable === undefined) return undefined;
  const sample = sampleFor(site.document, list, addable, site.proportions);
  return Object.hasOwn(placing, at) ? (placing[at]?.(site, sample) ?? sample) : sample;
}

/** What a new entry is called before a number is put behind it. */
const nameFor = (noun: string, kind: string | undefined): string =>
  kind === undefined ? noun : noun === 'member' ? kind : kind.replaceAll('-', ' ');

/** An entry with its name first, as people write it. */
function named(
  document: Json,
  list: Path,
  noun: string,
  names: 'name' | 'title' | undefined,
  entry: Json,
): Json {
  if (names !== 'name' || !isObject(entry)) return entry;
  const wanted =
    typeof entry.name === 'string'
      ? entry.name
      : nameFor(noun, typeof entry.kind === 'string' ? entry.kind : undefined);
  return { ...{ name: freeName(wanted, takenIn(document, list)) }, ...withoutName(entry) };
}

function withoutName(entry: { readonly [key: string]: Json }): { readonly [key: string]: Json } {
  const { name: _name, ...rest } = entry;
  return rest;
}

/** A new member with a body of its own brings a mass item: a body without mass cannot be moved. */
function withMass(document: Json, { proportions: { mass } }: Site, entry: Json): Json {
  if (!isObject(entry) || typeof entry.name !== 'string') return document;
  const { name } = entry;
  const { tree, points, grid } = carriageOf(document);
  if (jointOf(tree, name) === undefined) return document;
  const own = points.filter(({ member, role }) => member === name && role !== 'mount').map(({ at }) => at);
  const middle = (key: 'x' | 'z') => own.reduce((sum, at) => sum + at[key], 0) / own.length;
  const list = ['vehicle', 'masses'];
  const item: Json = {
    name: freeName(name, takenIn(document, list)),
    on: name,
    mass: roundFigure(MEMBER_SHARE * mass, 'mass'),
    at: writePoint({ x: middle('x'), z: middle('z') }, { x: '0 mm', z: '0 mm' }, grid),
  };
  return own.length === 0 ? document : appended(document, list, [item]);
}

/** The document without names that nothing has in an entry of criteria: a sample may name wheels of another vehicle. */
function withKnownNames(document: Json, path: Path): Json {
  if (path[0] !== 'criteria') return document;
  const unknown = referencesIn(document, path).filter(({ to, name }) => !exists(document, to, name));
  return without(
    document,
    unknown.map((reference) => reference.path.slice(0, -1)),
  );
}

/**
 * Adds an entry to a list: the kind's worked instance, its figures as large as suits the vehicle, hung on what fits, under
 * a name of its own. It lies at `at` (m, drawing), or where there is room. Remarks tell what it still lacks.
 */
export function addEntry(document: Json, list: Path, kind?: string, at?: Vec2): Edit {
  const known = entryLists.find(({ path }) => pathText(path) === pathText(list));
  const says = `add ${kind === undefined ? (known?.noun ?? 'entry') : kind.replaceAll('-', ' ')}`;
  if (known === undefined || !isObject(document))
    return declined(document, says, pathText(list), 'is no list that takes entries');
  const site: Site = {
    document,
    carriage: carriageOf(document),
    proportions: proportionsOf(document),
    ...(at === undefined ? {} : { at }),
  };
  const made = fresh(site, list, kind);
  if (made === undefined)
    return declined(document, says, pathText(list), `there is no kind called '${kind}'`);
  const entry = named(document, list, known.noun, known.names, made);
  const was = valueAt(document, list);
  const path = [...list, isList(was) ? was.length : 0];
  const added = appended(document, list, [entry]);
  const last = list.at(-1);
  const after =
    last === 'members'
      ? withMass(added, site, entry)
      : last === 'wheels'
        ? joinedTree(added, entry)
        : withKnownNames(added, path);
  return edited(document, after, says, { select: path });
}
