import type { Path } from '../../shared/path.ts';
import { childOf, describeField } from '../../shared/schema/describe.ts';
import { type Dimension, type Spread as Form, parseFigure, unitOf } from '../../shared/units.ts';
import { type Scenario, scenarioDocument } from '../scenario/schema.ts';
import { namedPath, type Setting } from '../studies/knob.ts';
import { numbersOf } from '../studies/numbers.ts';
import { normalQuantile, normalShare } from './special.ts';

/** A figure of a document that is known only roughly; all in SI. */
export interface Spread {
  readonly path: Path;
  /** Its place with names: 'wheels[front].tyre.grip'. */
  readonly name: string;
  readonly dimension: Dimension;
  readonly unit: string;
  readonly middle: number;
  readonly kind: Form['kind'];
  /** Standard deviation. */
  readonly size: number;
  readonly form: Form;
}

/** Something that chance draws: one figure, or a factor that many figures have in common. */
export interface Uncertain {
  readonly name: string;
  readonly middle: number;
  readonly form: Form;
  /** What it moves. A factor multiplies `now`, or what was drawn for that place by itself. */
  readonly moves:
    | { readonly kind: 'figure'; readonly path: Path }
    | { readonly kind: 'factor'; readonly of: readonly { readonly path: Path; readonly now: number }[] };
}

/**
 * All figures with a spread in a document (as it is written, before it is read), in its order. Texts that cannot be read
 * are left out: reading the document tells them.
 */
export function spreadsOf(document: unknown): readonly Spread[] {
  const found: Spread[] = [];
  const walk = (value: unknown, path: Path): void => {
    if (typeof value === 'string') found.push(...spreadAt(document, value, path));
    else if (typeof value === 'object' && value !== null)
      for (const key of Object.keys(value)) {
        const step = Array.isArray(value) ? Number(key) : key;
        walk(childOf(value, step), [...path, step]);
      }
  };
  walk(document, []);
  return found;
}

/** The spread of one text, if it is a figure and has one. */
function spreadAt(document: unknown, text: string, path: Path): readonly Spread[] {
  if (!/[±;]|\+\/?[-−]|\.\./.test(text) || !/^[\s+\-−\d.]/.test(text)) return [];
  const dimension = describeField(scenarioDocument, document, path)?.dimension;
  const read = dimension === undefined ? undefined : parseFigure(text, dimension);
  if (dimension === undefined || read?.ok !== true || read.value.spread === undefined) return [];
  const { value: middle, spread: form } = read.value;
  const name = namedPath(document as Scenario, path);
  const unit = unitOf(dimension);
  return [{ path, name, dimension, unit, middle, kind: form.kind, size: form.deviation, form }];
}

/** Spreads as what chance draws. */
export const uncertainOf = (spreads: readonly Spread[]): readonly Uncertain[] =>
  spreads.map(({ path, name, middle, form }) => ({ name, middle, form, moves: { kind: 'figure', path } }));

/** Whether a figure of the scenario says how much grips, or how much rubs dry. */
const isCommon = {
  grip: (_scenario: Scenario, path: Path): boolean => path.at(-1) === 'grip',
  friction: ({ vehicle }: Scenario, path: Path): boolean => {
    const [, list, index, key] = path;
    if (list !== 'elements' || path.length !== 4) return false;
    const kind = vehicle.elements[index as number]?.kind ?? '';
    return (
      key === 'friction' ||
      key === 'hysteresis' ||
      (/-friction$/.test(kind) && /^(force|torque)$/.test(String(key)))
    );
  },
} as const;

/**
 * One factor about 1 for the grip of all tyres, or for all dry friction in springs, guides and pins: the ground is
 * slippery for all wheels at once. `share` is what would stand behind ±: two standard deviations.
 * @returns undefined where the scenario has no such figure
 */
export function commonSpread(
  scenario: Scenario,
  what: keyof typeof isCommon,
  share: number,
): Uncertain | undefined {
  const of = numbersOf(scenario)
    .flatMap(({ moves }) => moves)
    .filter(({ path }) => isCommon[what](scenario, path))
    .map(({ path, now }) => ({ path, now }));
  if (of.length === 0 || !(share > 0)) return undefined;
  // nothing grips less than nothing
  const reach = Math.min(1, 2 * share);
  const form: Form = { kind: 'normal', deviation: share / 2, least: 1 - reach, most: 1 + reach, values: [] };
  return {
    name: what === 'grip' ? 'grip of all tyres' : 'all dry friction',
    middle: 1,
    form,
    moves: { kind: 'factor', of },
  };
}

/**
 * The value of a spread at a share of its probability, 0 < share < 1: the inverse of its distribution. A normal one is
 * cut off at its ends and keeps its shape between them.
 */
export function valueAt({ middle, form }: Pick<Uncertain, 'middle' | 'form'>, share: number): number {
  const { kind, deviation, least, most, values } = form;
  if (kind === 'uniform') return least + share * (most - least);
  if (kind === 'samples')
    return values[Math.min(values.length - 1, Math.floor(share * values.length))] as number;
  const low = normalShare((least - middle) / deviation);
  const high = normalShare((most - middle) / deviation);
  return Math.min(most, Math.max(least, middle + deviation * normalQuantile(low + share * (high - low))));
}

/** The figures of one drawn vehicle, as settings of the scenario. `shares`: one per uncertain thing, 0 < share < 1. */
export function settingsAt(uncertain: readonly Uncertain[], shares: readonly number[]): readonly Setting[] {
  const settings = new Map<string, Setting>();
  const drawn = uncertain.map((each, i) => ({
    moves: each.moves,
    value: valueAt(each, shares[i] as number),
  }));
  for (const { moves, value } of drawn)
    if (moves.kind === 'figure') settings.set(moves.path.join('/'), { path: moves.path, value });
  for (const { moves, value } of drawn)
    if (moves.kind === 'factor')
      for (const { path, now } of moves.of) {
        const key = path.join('/');
        settings.set(key, { path, value: (settings.get(key)?.value ?? now) * value });
      }
  return [...settings.values()];
}
