import type { Path } from '../../shared/path.ts';
import { childOf, describeField } from '../../shared/schema/describe.ts';
import type { Range } from '../../shared/schema/quantity.ts';
import type { Dimension } from '../../shared/units.ts';
import { putAt } from '../scenario/path.ts';
import { type Scenario, scenarioDocument } from '../scenario/schema.ts';

/** A figure of the scenario set to a value, SI. */
export interface Setting {
  readonly path: Path;
  readonly value: number;
}

/** One figure that a knob moves: by `by` for each unit that the knob is turned; it is `now` in the scenario, SI. */
export interface Move {
  readonly path: Path;
  readonly by: number;
  readonly now: number;
}

/** Something that can be turned: one figure, or several that belong together, such as a pivot that two arms share. */
export interface Knob {
  /** 'middle-arm and rear-arm: pivot x', or the path of a single figure with names: 'wheels[front].radius'. */
  readonly name: string;
  readonly dimension: Dimension;
  /** SI unit; '1' for ratios. */
  readonly unit: string;
  /** Its value in the scenario, SI. */
  readonly now: number;
  readonly moves: readonly Move[];
}

/** The settings that turn knobs to these values. A figure that two of them move takes both moves. */
export function settingsFor(turned: readonly { readonly knob: Knob; readonly to: number }[]): Setting[] {
  const settings = new Map<string, Setting>();
  for (const { knob, to } of turned)
    for (const { path, by, now } of knob.moves) {
      const key = path.join('/');
      const value = (settings.get(key)?.value ?? now) + by * (to - knob.now);
      settings.set(key, { path, value });
    }
  return [...settings.values()];
}

/** The scenario with figures put in place: those that are not named are shared with the old one. Nothing is checked. */
export function withSettings(scenario: Scenario, settings: readonly Setting[]): Scenario {
  return settings.reduce<unknown>(
    (whole, { path, value }) => putAt(whole, path, value),
    scenario,
  ) as Scenario;
}

/** A figure at a path of the scenario, SI; undefined when no figure stands there. */
export function figureAt(scenario: Scenario, path: Path): number | undefined {
  const value = path.reduce<unknown>(childOf, scenario);
  return typeof value === 'number' ? value : undefined;
}

/** Limits of a figure in SI, as the schema says. */
export function rangeAt(scenario: Scenario, path: Path): Range {
  return describeField(scenarioDocument, scenario, path)?.range ?? {};
}

/** Why a value (SI) may not stand there, or undefined. */
export function outside(value: number, { above, least, below, most }: Range): string | undefined {
  if (!Number.isFinite(value)) return 'is not a finite number';
  if (above !== undefined && !(value > above)) return `must be above ${above}`;
  if (least !== undefined && !(value >= least)) return `must be at least ${least}`;
  if (below !== undefined && !(value < below)) return `must be below ${below}`;
  if (most !== undefined && !(value <= most)) return `must be at most ${most}`;
  return undefined;
}

/** A path with names instead of indices where its entries have names, without the leading 'vehicle': 'wheels[front].radius'. */
export function namedPath(scenario: Scenario, path: Path): string {
  let value: unknown = scenario;
  let text = '';
  for (const step of path) {
    value = childOf(value, step);
    const name = childOf(value, 'name') ?? childOf(value, 'kind');
    if (typeof step === 'number') text += `[${typeof name === 'string' ? name : step}]`;
    else text += text === '' ? step : `.${step}`;
  }
  return text.replace(/^vehicle\./, '');
}

/** The knob of a single figure; undefined when no physical figure stands at the path. */
export function knobAt(scenario: Scenario, path: Path): Knob | undefined {
  const now = figureAt(scenario, path);
  const about = describeField(scenarioDocument, scenario, path);
  if (now === undefined || about?.dimension === undefined) return undefined;
  const { dimension, unit = '1' } = about;
  return { name: namedPath(scenario, path), dimension, unit, now, moves: [{ path, by: 1, now }] };
}
