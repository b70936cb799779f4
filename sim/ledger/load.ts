import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Scenario } from '../scenario/schema.ts';

/**
 * Where more mass goes. `items`: the vehicle comes out heavier all over: every mass item, with its inertia, grows alike;
 * wheels and parts of the drive line are bought and weigh what they weigh. `at`: a load at one point of the chassis, drawn.
 */
export type Spread = 'items' | { readonly at: Vec2 };

/** Name of the mass item that stands for a load at a point. */
const loadName = 'load put on';

/** Mass of all mass items, which grow and shrink alike, kg. */
export const growing = ({ vehicle }: Scenario): number =>
  vehicle.masses.reduce((sum, item) => sum + item.mass * item.count, 0);

/** Factor on all mass items that makes the vehicle `more` kg heavier. */
export const factorOf = (scenario: Scenario, more: number): number => 1 + more / growing(scenario);

/**
 * The scenario with its vehicle `more` kg heavier (lighter where negative, as far as its mass items go). What follows from
 * the mass in the document follows it: stops, preloads that set the ride height, tyres whose load is not given.
 */
export function withMore(scenario: Scenario, spread: Spread, more: number): Scenario {
  if (more === 0) return scenario;
  const { vehicle } = scenario;
  const factor = factorOf(scenario, more);
  const masses =
    spread === 'items'
      ? vehicle.masses.map((item) => ({
          ...item,
          mass: factor * item.mass,
          ...(item.inertia === undefined ? {} : { inertia: factor * item.inertia }),
        }))
      : [...vehicle.masses, { name: loadName, on: 'chassis', mass: more, count: 1, at: spread.at }];
  return { ...scenario, vehicle: { ...vehicle, masses } };
}
