import type { Ground } from '../ground/ground.ts';
import { firstSegment, heightAt, lastSegment } from '../ground/query.ts';
import type { Kinematics } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/** Where the bodies are: frames and centres of mass, as Kinematics has them. */
export type Placement = Pick<Kinematics, 'x' | 'z' | 'cos' | 'sin' | 'cx' | 'cz'>;

/**
 * Least vertical gap between the belly line and the ground, m; negative where it has touched. A vehicle without a belly
 * line has none: the height of its chassis' centre of mass stands in, so that the column is finite. Checked at every
 * corner of the belly and at every ground vertex under it, which is where a gap between two polylines is least.
 */
export function clearanceOf(mechanism: Mechanism, k: Placement, ground: Ground): number {
  const { body, points } = mechanism.belly;
  if (points.length === 0) return (k.cz[0] as number) - heightAt(ground, k.cx[0] as number);
  const c = k.cos[body] as number;
  const s = k.sin[body] as number;
  let least = Number.POSITIVE_INFINITY;
  let lastX = 0;
  let lastZ = 0;
  for (let i = 0; i < points.length; i++) {
    const p = points[i] as { x: number; z: number };
    const x = (k.x[body] as number) + c * p.x - s * p.z;
    const z = (k.z[body] as number) + s * p.x + c * p.z;
    least = Math.min(least, z - heightAt(ground, x));
    if (i > 0) least = Math.min(least, gapUnder(ground, lastX, lastZ, x, z));
    lastX = x;
    lastZ = z;
  }
  return least;
}

/** Least gap over the ground vertices that lie under the line from a to b. */
function gapUnder(ground: Ground, ax: number, az: number, bx: number, bz: number): number {
  if (!(bx > ax)) return Number.POSITIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  const last = lastSegment(ground, bx);
  for (let i = firstSegment(ground, ax) + 1; i <= last; i++) {
    const x = ground.x[i] as number;
    if (x < ax || x > bx) continue;
    least = Math.min(least, az + ((x - ax) / (bx - ax)) * (bz - az) - (ground.z[i] as number));
  }
  return least;
}
