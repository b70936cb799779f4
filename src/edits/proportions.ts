import { type Dimension, dimensions } from '../../shared/units.ts';
import type { Json } from '../documents/json.ts';
import { readFigure } from './figures.ts';
import { entriesAt } from './lists.ts';

/** How large and heavy a vehicle is, and what its parts are measured by. SI. */
export interface Proportions {
  /** Mean unloaded wheel radius, m. */
  readonly radius: number;
  /** All masses and wheels, kg. */
  readonly mass: number;
  /** Axle lines. */
  readonly axles: number;
}

/** What the samples of all kinds are drawn for: an invented six-wheeler of about 6 kg on 55 mm wheels. */
const sampled = { radius: 0.055, mass: 6, axles: 3 } as const;

const sum = (figures: readonly number[]): number => figures.reduce((all, figure) => all + figure, 0);

/** Proportions of a document's vehicle; those of the samples where it has no wheels or masses yet. */
export function proportionsOf(document: Json): Proportions {
  const wheels = entriesAt(document, ['vehicle', 'wheels']).map(({ value }) => ({
    radius: readFigure(value.radius, 'length') ?? 0,
    mass: (readFigure(value.massPerWheel, 'mass') ?? 0) * (typeof value.count === 'number' ? value.count : 2),
  }));
  const masses = entriesAt(document, ['vehicle', 'masses']).map(
    ({ value }) =>
      (readFigure(value.mass, 'mass') ?? 0) * (typeof value.count === 'number' ? value.count : 1),
  );
  const radii = wheels.map(({ radius }) => radius).filter((radius) => radius > 0);
  const mass = sum(masses) + sum(wheels.map((wheel) => wheel.mass));
  return {
    radius: radii.length === 0 ? sampled.radius : sum(radii) / radii.length,
    mass: mass > 0 ? mass : sampled.mass,
    axles: wheels.length === 0 ? sampled.axles : wheels.length,
  };
}

/** Properties of materials, electric figures, counts and angles do not grow with the vehicle. */
const unscaled: ReadonlySet<Dimension> = new Set<Dimension>([
  'stress',
  'ratio',
  'angle',
  'roughness',
  'acceleration',
  'frequency',
  'perLengthSpeed',
]);

/**
 * How many times larger a figure of this dimension is on a vehicle than on the one that the samples are drawn for. From
 * lengths λ and masses μ under one gravity: times go with √λ, so a figure of powers L, M, T with λ^L·μ^M·√λ^T
 * (similarity, textbooks on dimensional analysis).
 */
export function growthOf({ radius, mass }: Proportions, dimension: Dimension): number {
  if (unscaled.has(dimension)) return 1;
  const [length, heavy, time, , current, temperature] = dimensions[dimension].powers;
  if (current !== 0 || temperature !== 0) return 1;
  const longer = radius / sampled.radius;
  return longer ** (length + time / 2) * (mass / sampled.mass) ** heavy;
}
