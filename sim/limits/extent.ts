import type { Mechanism } from '../mechanism/mechanism.ts';

/** How far a vehicle reaches, m, all from its drawing. */
export interface Extent {
  /** Ahead of its reference point and behind it, seen in the direction of travel; tyres and belly line. */
  readonly ahead: number;
  readonly behind: number;
  /** From end to end. */
  readonly length: number;
  /** Smallest and largest wheel radius, and the distance from the foremost hub to the rearmost. */
  readonly least: number;
  readonly radius: number;
  readonly wheelbase: number;
}

/** Reads the extent of a vehicle that drives forward (sense +1) or in reverse (−1). */
export function extentOf(mechanism: Mechanism, sense: 1 | -1): Extent {
  const { wheels, belly, reference } = mechanism;
  const hubs = wheels.map((w) => w.hub.x);
  const ends = [
    ...wheels.flatMap((w) => [w.hub.x - w.radius, w.hub.x + w.radius]),
    ...belly.points.map((p) => p.x),
  ].map((x) => x - reference.x);
  const [rear, front] = [Math.max(0, -Math.min(...ends)), Math.max(0, Math.max(...ends))];
  return {
    ahead: sense > 0 ? front : rear,
    behind: sense > 0 ? rear : front,
    length: front + rear,
    least: mechanism.size,
    radius: Math.max(...wheels.map((w) => w.radius)),
    wheelbase: Math.max(...hubs) - Math.min(...hubs),
  };
}
