import type { Path } from '../../shared/path.ts';
import { putAt } from '../scenario/path.ts';
import type { Scenario } from '../scenario/schema.ts';
import { type Axis, middleOf, type Point, type Space } from '../searching/space.ts';
import type { StockKnob } from '../stock/knob.ts';
import { type Knob, type Setting, settingsFor, withSettings } from '../studies/knob.ts';

/** A value that takes a place in the scenario, SI. */
export interface Put {
  readonly path: Path;
  readonly value: unknown;
}

/** One choice of a list whose entries are no figures: a word, a part from stock. */
export interface Option {
  readonly label: string;
  readonly puts: readonly Put[];
}

/** The values that a number may take: any of a stretch, whole ones of a stretch, or those of a list. SI. */
export type Values =
  | { readonly kind: 'range' | 'integer'; readonly from: number; readonly to: number }
  | {
      readonly kind: 'list';
      readonly values: readonly (number | string)[];
      /** A figure for each value by which they are near each other, where the values are none. */
      readonly along?: readonly number[];
    };

/** A number of a study, found in its scenario. Plain data, so that it can be sent to a worker. */
export interface Dial {
  readonly name: string;
  /** SI unit of a figure; '1' for counts and ratios, '' for choices. */
  readonly unit: string;
  /** Today's: SI value of a figure; index of a choice, null where today's is none of the choices. */
  readonly now: number | null;
  readonly values: Values;
  readonly turns:
    | {
        readonly kind: 'places';
        readonly paths: readonly Path[];
        /** Fields that say the same in another way and are taken out. */
        readonly without?: readonly Path[];
      }
    | { readonly kind: 'knob'; readonly knob: Knob }
    | { readonly kind: 'options'; readonly options: readonly Option[] };
  /** What it takes from stock, where it chooses from there: option by option as in `turns`. */
  readonly stock?: StockKnob;
}

/** A place in the space of a study, one entry per dial: SI value of a stretch, index of a list. */
export type Design = Point;

/** The SI value that an entry of a design stands for; of a choice its index. */
export function figureOf({ values, turns }: Dial, entry: number): number {
  if (values.kind !== 'list' || turns.kind === 'options') return entry;
  return values.values[entry] as number;
}

/** The axes that a search goes along. */
export const spaceOf = (dials: readonly Dial[]): Space =>
  dials.map(({ name, values }): Axis => ({ name, ...values }));

/** Today's design as near as the space has it: clamped to a stretch, the nearest of a list, the middle where it is none. */
export function todayIn(dials: readonly Dial[]): Design {
  return dials.map(({ name, now, values, turns }): number => {
    if (now === null) return middleOf({ name, ...values });
    if (values.kind !== 'list') {
      const clamped = Math.min(values.to, Math.max(values.from, now));
      return values.kind === 'integer' ? Math.round(clamped) : clamped;
    }
    if (turns.kind === 'options') return now;
    const away = values.values.map((value) => Math.abs((value as number) - now));
    return away.indexOf(Math.min(...away));
  });
}

/**
 * The scenario with the dials turned to a design: choices first, then figures. Nothing is checked.
 * @returns the base with the choices put in place, and the settings of figures that are still to be made in it
 */
export function turned(
  scenario: Scenario,
  dials: readonly Dial[],
  design: Design,
): { readonly base: Scenario; readonly settings: readonly Setting[] } {
  let base: unknown = scenario;
  const settings: Setting[] = [];
  const knobs: { readonly knob: Knob; readonly to: number }[] = [];
  dials.forEach((dial, d) => {
    const { turns } = dial;
    const to = figureOf(dial, design[d] as number);
    if (turns.kind === 'options')
      for (const { path, value } of turns.options[to]?.puts ?? []) base = putAt(base, path, value);
    else if (turns.kind === 'knob') knobs.push({ knob: turns.knob, to });
    else {
      for (const path of turns.without ?? []) base = putAt(base, path, undefined);
      settings.push(...turns.paths.map((path) => ({ path, value: to })));
    }
  });
  return { base: base as Scenario, settings: [...settings, ...settingsFor(knobs)] };
}

/** The scenario of a design, whole; nothing is checked. */
export function scenarioOf(scenario: Scenario, dials: readonly Dial[], design: Design): Scenario {
  const { base, settings } = turned(scenario, dials, design);
  return withSettings(base, settings);
}

/** Places of the scenario that a dial writes to. */
export function placesOf({ turns }: Dial): readonly Path[] {
  if (turns.kind === 'places') return turns.paths;
  if (turns.kind === 'knob') return turns.knob.moves.map(({ path }) => path);
  return turns.options.flatMap(({ puts }) => puts.map(({ path }) => path));
}
