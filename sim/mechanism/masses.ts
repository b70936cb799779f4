import type { Vec2 } from '../../shared/geometry/vec.ts';

/** A mass at a place, with its own inertia about its centre: kg, m, kg·m². */
export interface Lump {
  readonly mass: number;
  readonly at: Vec2;
  readonly inertia: number;
}

/**
 * Mass, centre of mass and inertia about it of lumps together (parallel-axis theorem). No lumps, or none with mass:
 * mass 0 at the origin.
 */
export function together(lumps: readonly Lump[]): Lump {
  const mass = lumps.reduce((sum, lump) => sum + lump.mass, 0);
  if (!(mass > 0)) return { mass: 0, at: { x: 0, z: 0 }, inertia: 0 };
  const at = {
    x: lumps.reduce((sum, lump) => sum + lump.mass * lump.at.x, 0) / mass,
    z: lumps.reduce((sum, lump) => sum + lump.mass * lump.at.z, 0) / mass,
  };
  const inertia = lumps.reduce(
    (sum, lump) => sum + lump.inertia + lump.mass * ((lump.at.x - at.x) ** 2 + (lump.at.z - at.z) ** 2),
    0,
  );
  return { mass, at, inertia };
}
