import type { Path } from '../../shared/path.ts';
import type { Scenario } from '../scenario/schema.ts';
import { type Knob, knobAt } from './knob.ts';
import { pivotsOf } from './pivots.ts';
import { pivotKnobs } from './planes.ts';

/** Parts of a document that say what the vehicle is and what pulls at it. */
const parts: readonly Path[] = [
  ['gravity'],
  ['vehicle', 'masses'],
  ['vehicle', 'members'],
  ['vehicle', 'elements'],
  ['vehicle', 'wheels'],
  ['vehicle', 'drive'],
  ['vehicle', 'rideHeight'],
  ['run', 'pulls'],
];

/**
 * Every physical figure of a vehicle as a knob of its own: places, rates, preloads, masses, radii, grip, torques. Left
 * out are what is only looked at (bodywork, scale) and the reference point, which names stations and moves nothing.
 */
export function numbersOf(scenario: Scenario): readonly Knob[] {
  const walk = (path: Path, value: unknown): Knob[] => {
    if (typeof value === 'number') return [knobAt(scenario, path) ?? []].flat();
    if (Array.isArray(value)) return value.flatMap((inner, i) => walk([...path, i], inner));
    if (typeof value !== 'object' || value === null) return [];
    return Object.entries(value).flatMap(([key, inner]) => walk([...path, key], inner));
  };
  return parts.flatMap((part) =>
    walk(
      part,
      part.reduce<unknown>((at, key) => (at as Record<string, unknown>)?.[key], scenario),
    ),
  );
}

/** Pins of several points that have to move together: places of single points of them would tear the vehicle apart. */
export function sharedPins(scenario: Scenario): readonly Knob[] {
  return pivotsOf(scenario)
    .filter(({ points }) => points.length > 1)
    .flatMap((pivot) => Object.values(pivotKnobs(scenario, pivot)));
}

/** How much a knob is turned to say what it does. */
export interface Turn {
  /** '1 mm', '1°', '1 %'. */
  readonly per: string;
  /** The same in SI. */
  readonly step: number;
}

/** A place by 1 mm, an angle by 1°, everything else by 1 %; undefined for a figure of 0, of which there is no per cent. */
export function turnOf({ dimension, now, moves }: Knob): Turn | undefined {
  const last = moves[0]?.path.at(-1);
  if (dimension === 'length' && (last === 'x' || last === 'z')) return { per: '1 mm', step: 1e-3 };
  if (dimension === 'angle') return { per: '1°', step: Math.PI / 180 };
  return now === 0 ? undefined : { per: '1 %', step: Math.abs(now) / 100 };
}
