import { type Path, pathText } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { partKinds } from '../../sim/driveline/registry.ts';
import { elementKinds } from '../../sim/elements/registry.ts';
import { groundKinds } from '../../sim/ground/registry.ts';
import { memberKinds } from '../../sim/members/registry.ts';
import { criterionKinds } from '../../sim/report/criteria/registry.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { strengthKinds } from '../../sim/strength/registry.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { readFigure, roundFigure } from './figures.ts';
import { growthOf, type Proportions } from './proportions.ts';
import { appended } from './put.ts';

/** What can be added to a list: its kinds with title and worked instance, as the registries have them. */
export interface Addable {
  readonly kind: string;
  readonly title: string;
  readonly sample: Json;
}

/** Kinds of the lists whose entries have one, by the written path of the list. A new list with kinds is one line here. */
const kindsByList: Readonly<Record<string, readonly Addable[]>> = {
  'vehicle.members': memberKinds as readonly unknown[] as readonly Addable[],
  'vehicle.elements': elementKinds as readonly unknown[] as readonly Addable[],
  'vehicle.driveline.parts': partKinds as readonly unknown[] as readonly Addable[],
  'vehicle.strength.parts': strengthKinds as readonly unknown[] as readonly Addable[],
  ground: groundKinds as readonly unknown[] as readonly Addable[],
  criteria: criterionKinds as readonly unknown[] as readonly Addable[],
};

/** Kinds that can be added to a list; empty for a list whose entries are all of one sort. */
export function kindsFor(list: Path): readonly Addable[] {
  const at = pathText(list);
  return Object.hasOwn(kindsByList, at) ? (kindsByList[at] ?? []) : [];
}

/** The figures of a sample that is to stand at `path`, as large as suits the vehicle. */
export function grown(document: Json, path: Path, value: Json, to: Proportions): Json {
  if (isList(value)) return value.map((item, i) => grown(document, [...path, i], item, to));
  if (isObject(value))
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [key, grown(document, [...path, key], inner, to)]),
    );
  const { dimension, range = {} } = describeField(scenarioDocument, document, path) ?? {};
  if (dimension === undefined) return value;
  const si = readFigure(value, dimension);
  const growth = growthOf(to, dimension);
  // Within a tenth of the sample's own size its round figures suit as they are.
  const suits = growth > 0.9 && growth < 1.1;
  if (si === undefined || (suits && typeof value === 'string')) return value;
  const size = suits ? si : si * growth;
  const { above = -Infinity, least = above, below = Infinity, most = below } = range;
  return roundFigure(size >= least && size <= most ? size : si, dimension);
}

/** The worked instance of a kind as an entry of this document, its figures as large as suits the vehicle. */
export function sampleFor(document: Json, list: Path, addable: Addable, to: Proportions): Json {
  const entry: Json = { kind: addable.kind, ...(isObject(addable.sample) ? addable.sample : {}) };
  const trial = appended(document, list, [entry]);
  const items = valueAt(trial, list);
  const path = [...list, isList(items) ? items.length - 1 : 0];
  return grown(trial, path, entry, to);
}
