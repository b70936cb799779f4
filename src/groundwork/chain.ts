import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import { describeField, type FieldAbout, keysAt } from '../../shared/schema/describe.ts';
import { evaluateField, formatQuantity } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { type Edit, edited } from '../edits/edit.ts';
import { chainObstacles, type Obstacle } from '../edits/ground.ts';
import { wordsOf } from '../edits/lists.ts';
import { proportionsOf } from '../edits/proportions.ts';
import { kindsFor, sampleFor } from '../edits/sample.ts';
import { enter, textOfValue } from '../panels/fields/figure.ts';

/** One obstacle of a list: its kind, its sizes as they are typed, and the level ground behind it. */
export interface ChainRow {
  readonly id: number;
  readonly kind: string;
  readonly typed: { readonly [key: string]: string };
  /** As it is typed; empty for a vehicle's length. */
  readonly gap: string;
}

/** A size that a kind of obstacle has. */
export interface ChainSize {
  readonly key: string;
  readonly label: string;
  readonly about: FieldAbout;
  /** What suits the vehicle, as text. */
  readonly usual: string;
}

/** A kind of obstacle that can stand in a chain. */
export interface ChainKind {
  readonly kind: string;
  readonly title: string;
  readonly sizes: readonly ChainSize[];
}

const trial: Path = ['ground', 0];

/** The figures of a kind that its sample has, with what suits the vehicle. */
function sizesOf(sample: Json): readonly ChainSize[] {
  const there: Json = { ground: [sample] };
  return keysAt(scenarioDocument, there, trial).flatMap((key): ChainSize[] => {
    const value = isObject(sample) ? sample[key] : undefined;
    const about = describeField(scenarioDocument, there, [...trial, key]);
    if (value === undefined || about === undefined) return [];
    const takes = about.dimension !== undefined || about.takes === 'number';
    if (!takes) return [];
    return [{ key, label: wordsOf(key), about, usual: textOfValue(value, about) }];
  });
}

/** Kinds that a chain may be made of: all that are made from figures. Tables and files are pieces of their own. */
export function chainKinds(document: Json): readonly ChainKind[] {
  const proportions = proportionsOf(document);
  return kindsFor(['ground']).flatMap((addable): ChainKind[] => {
    const sizes = sizesOf(sampleFor(document, ['ground'], addable, proportions));
    return sizes.length === 0 ? [] : [{ kind: addable.kind, title: addable.title, sizes }];
  });
}

/** A row with what is to be said against it, by the key of the field; '' when nothing is. */
export interface ReadRow {
  readonly obstacle: Obstacle;
  readonly gap: number | undefined;
  readonly wrong: { readonly [key: string]: string };
}

/** Reads one row; sizes that are left empty suit the vehicle. */
export function readRow(row: ChainRow, kinds: readonly ChainKind[]): ReadRow {
  const kind = kinds.find((each) => each.kind === row.kind);
  const wrong: Record<string, string> = {};
  const figures: Record<string, Json> = {};
  for (const size of kind?.sizes ?? []) {
    const typed = row.typed[size.key]?.trim() ?? '';
    if (typed === '') continue;
    const read = enter(typed, size.usual, size.about);
    if (!read.ok) wrong[size.key] = read.message;
    else if (read.value !== undefined) figures[size.key] = read.value;
  }
  let gap: number | undefined;
  if (row.gap.trim() !== '') {
    const read = evaluateField(row.gap, 'length', 'mm');
    if (!read.ok) wrong.gap = read.message;
    else if (read.value < 0) wrong.gap = 'a gap cannot be shorter than nothing';
    else gap = read.value;
  }
  return { obstacle: { kind: row.kind, figures }, gap, wrong };
}

/** Where a chain goes: in place of the whole ground, or behind it. */
export type ChainPlace = 'instead' | 'behind';

/**
 * The ground from a list of obstacles, as one edit. A gap is level ground of its own; where none is typed it is a
 * vehicle's length.
 */
export function layChain(document: Json, rows: readonly ReadRow[], place: ChainPlace): Edit {
  const usual = usualGap(document);
  const spread = rows.flatMap(({ obstacle, gap = usual }, i): Obstacle[] =>
    i === rows.length - 1 || gap === 0
      ? [obstacle]
      : [obstacle, { kind: 'flat', figures: { length: `${Number((gap * 1000).toPrecision(6))} mm` } }],
  );
  const last = rows.at(-1)?.gap;
  const chain = chainObstacles(document, spread, 0);
  const made = valueAt(chain.document, ['ground']);
  if (chain.document === document || !isList(made)) return chain;
  const was = valueAt(document, ['ground']);
  const pieces = last === undefined ? made : [...made.slice(0, -1), longer(made.at(-1) ?? null, last)];
  const ground = place === 'behind' && isList(was) ? [...was, ...pieces.slice(1)] : pieces;
  const select = ['ground', place === 'behind' && isList(was) ? was.length : 1];
  return edited(document, withValue(document, ['ground'], ground), chain.says, { select });
}

/** Level ground at least as long as is asked for: there must be room to drive off. */
function longer(piece: Json, least: number): Json {
  if (!isObject(piece)) return piece;
  const read = evaluateField(String(piece.length), 'length', 'm');
  return read.ok && read.value < least
    ? { ...piece, length: `${Number((least * 1000).toPrecision(6))} mm` }
    : piece;
}

/** The gap that is left where none is typed, as text. */
export const usualGapText = (document: Json): string => formatQuantity(usualGap(document), 'length', 2);

/** A vehicle's length, m, as `chainObstacles` leaves it between obstacles. */
function usualGap(document: Json): number {
  const made = valueAt(chainObstacles(document, [{ kind: 'step' }, { kind: 'step' }]).document, [
    'ground',
    2,
    'length',
  ]);
  const read = evaluateField(String(made), 'length', 'm');
  return read.ok ? read.value : 1;
}

/** A first row, and one after another: steps of growing height are what most courses are made of. */
export const freshRow = (id: number, kind = 'step'): ChainRow => ({ id, kind, typed: {}, gap: '' });

/** Points of a line at most, for a small picture of it: the highest and the lowest in each of `columns` stretches. */
export function outlined(points: readonly Vec2[], columns: number): readonly Vec2[] {
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined || points.length <= 2 * columns) return points;
  const width = (last.x - first.x) / columns || 1;
  const line: Vec2[] = [first];
  let column = 0;
  let [low, high] = [first, first];
  const close = (): void => {
    const pair = low.x <= high.x ? [low, high] : [high, low];
    for (const p of pair) if (p !== line.at(-1)) line.push(p);
  };
  for (const p of points) {
    const here = Math.min(columns - 1, Math.floor((p.x - first.x) / width));
    if (here !== column) {
      close();
      column = here;
      [low, high] = [p, p];
    }
    if (p.z < low.z) low = p;
    if (p.z > high.z) high = p;
  }
  close();
  line.push(last);
  return line;
}
