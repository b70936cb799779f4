import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { PartSort } from '../../sim/driveline/part.ts';
import { partKinds } from '../../sim/driveline/registry.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { readPoint } from '../edits/figures.ts';

/** A drawn point on a body that goes by a name: a member's, or 'chassis'. */
export interface NamedPoint {
  readonly on: string;
  readonly at: Vec2;
}

/** A part of the drive line as the document has it, whether or not it can be built. */
export interface TreePart {
  /** Index in vehicle.driveline.parts. */
  readonly index: number;
  readonly path: Path;
  readonly name: string;
  readonly kind: string;
  /** What kind of thing it is, for people. */
  readonly title: string;
  readonly sort: PartSort;
  /** Parts that turn it and parts that it turns, by index; a way that closes a circle is left out. */
  readonly inputs: readonly number[];
  readonly outputs: readonly number[];
  /** It names something that turns it which is not there, or which it turns itself. */
  readonly cut: boolean;
  /** Axle lines that it turns, by their index in vehicle.wheels. */
  readonly wheels: readonly number[];
  /** Body that holds it, by name; undefined where the document does not say. */
  readonly on: string | undefined;
  readonly at: Vec2 | undefined;
  readonly ends: readonly [NamedPoint, NamedPoint] | undefined;
  readonly count: number;
}

/** An axle line at its place. */
export interface TreeWheel {
  readonly index: number;
  readonly name: string;
  readonly hub: NamedPoint;
}

export interface Tree {
  readonly parts: readonly TreePart[];
  readonly wheels: readonly TreeWheel[];
}

/** Where the parts of a drive line stand in a document. */
export const PARTS = ['vehicle', 'driveline', 'parts'] as const;

const text = (value: Json | undefined): string | undefined => (typeof value === 'string' ? value : undefined);

const texts = (value: Json | undefined): readonly string[] =>
  typeof value === 'string' ? [value] : isList(value) ? value.flatMap((each) => text(each) ?? []) : [];

/** Names of the parts that turn a part. */
export const inputNames = (entry: Json | undefined): readonly string[] =>
  isObject(entry) ? texts(entry.from) : [];

function endOf(value: Json | undefined): NamedPoint | undefined {
  const at = readPoint(value);
  return at === undefined || !isObject(value) ? undefined : { on: text(value.on) ?? 'chassis', at };
}

function endsOf(value: Json | undefined): TreePart['ends'] {
  if (!isList(value)) return undefined;
  const [a, b] = [endOf(value[0]), endOf(value[1])];
  return a !== undefined && b !== undefined ? [a, b] : undefined;
}

type Draft = Omit<TreePart, 'inputs' | 'outputs' | 'cut'> & { readonly from: readonly string[] };

function draftOf(value: Json, index: number, wheels: readonly TreeWheel[]): Draft {
  const entry = isObject(value) ? value : {};
  const kind = text(entry.kind) ?? '';
  const known = partKinds.find((each) => each.kind === kind);
  return {
    index,
    path: [...PARTS, index],
    name: text(entry.name) ?? `part ${index + 1}`,
    kind,
    title: known?.title ?? kind,
    sort: known?.sort ?? 'shaft',
    from: texts(entry.from),
    wheels: texts(entry.wheels).flatMap((name) => wheels.find((wheel) => wheel.name === name)?.index ?? []),
    on: text(entry.on),
    at: readPoint(entry.at),
    ends: endsOf(entry.ends),
    count: typeof entry.count === 'number' && entry.count >= 1 ? entry.count : 1,
  };
}

/** The axle lines of a document, those without a readable place left out. */
export function wheelsOf(document: Json): readonly TreeWheel[] {
  const list = valueAt(document, ['vehicle', 'wheels']);
  return (isList(list) ? list : []).flatMap((value, index): TreeWheel[] => {
    if (!isObject(value)) return [];
    const at = readPoint(value.at);
    const on = text(value.on) ?? 'chassis';
    return at === undefined ? [] : [{ index, name: text(value.name) ?? '', hub: { on, at } }];
  });
}

/** Whether `part` is turned, over any number of others, by `by`. */
function isTurnedBy(inputs: readonly (readonly number[])[], part: number, by: number): boolean {
  const seen = new Set<number>();
  const queue = [part];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (at === by) return true;
    if (seen.has(at)) continue;
    seen.add(at);
    queue.push(...(inputs[at] ?? []));
  }
  return false;
}

/**
 * The drive line of a document as a tree, as far as it is one: unknown names and ways that close a circle are left out, and
 * the part that has them is marked as cut. Never throws; empty without a drive line.
 */
export function treeOf(document: Json): Tree {
  const wheels = wheelsOf(document);
  const list = valueAt(document, PARTS);
  const drafts = (isList(list) ? list : []).map((value, index) => draftOf(value, index, wheels));
  const inputs: number[][] = drafts.map(() => []);
  const cut = drafts.map(() => false);
  for (const { index, from } of drafts)
    for (const name of from) {
      const source = drafts.findIndex((each) => each.name === name);
      if (source < 0 || isTurnedBy(inputs, source, index)) cut[index] = true;
      else inputs[index]?.push(source);
    }
  const parts = drafts.map(({ from: _from, ...draft }) => ({
    ...draft,
    inputs: inputs[draft.index] ?? [],
    outputs: drafts.flatMap(({ index }) => (inputs[index]?.includes(draft.index) ? [index] : [])),
    cut: cut[draft.index] ?? false,
  }));
  return { parts, wheels };
}
