import type { Pose } from '../../shared/geometry/vec.ts';
import type { Mechanism } from './mechanism.ts';

/** Placement and motion of all bodies, one entry per body, SI. Filled by a solver, read by elements and tyres. */
export interface Kinematics {
  /** World place of the body frame's origin (the drawing's origin as the body carries it), m. */
  readonly x: Float64Array;
  readonly z: Float64Array;
  /** Turn against the drawing, rad counter-clockwise, with its cosine and sine. */
  readonly angle: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  /** World place and velocity of the centre of mass, m and m/s; spin, rad/s counter-clockwise. */
  readonly cx: Float64Array;
  readonly cz: Float64Array;
  readonly vx: Float64Array;
  readonly vz: Float64Array;
  readonly spin: Float64Array;
}

/** Forces on all bodies, one entry per body: N in world axes, and N·m counter-clockwise about the centre of mass. */
export interface Loads {
  readonly fx: Float64Array;
  readonly fz: Float64Array;
  readonly torque: Float64Array;
}

/** Room for the kinematics of `bodies` bodies, all zero. */
export function makeKinematics(bodies: number): Kinematics {
  const row = () => new Float64Array(bodies);
  return {
    x: row(),
    z: row(),
    angle: row(),
    cos: row().fill(1),
    sin: row(),
    cx: row(),
    cz: row(),
    vx: row(),
    vz: row(),
    spin: row(),
  };
}

/** Room for the forces on `bodies` bodies, all zero. */
export function makeLoads(bodies: number): Loads {
  const row = () => new Float64Array(bodies);
  return { fx: row(), fz: row(), torque: row() };
}

/** Writes a pose of body `i` with zero velocity. */
export function setPose(k: Kinematics, mechanism: Mechanism, i: number, pose: Pose): void {
  const c = Math.cos(pose.angle);
  const s = Math.sin(pose.angle);
  const centre = mechanism.bodies[i]?.centre ?? { x: 0, z: 0 };
  k.x[i] = pose.x;
  k.z[i] = pose.z;
  k.angle[i] = pose.angle;
  k.cos[i] = c;
  k.sin[i] = s;
  k.cx[i] = pose.x + c * centre.x - s * centre.z;
  k.cz[i] = pose.z + s * centre.x + c * centre.z;
  k.vx[i] = 0;
  k.vz[i] = 0;
  k.spin[i] = 0;
}

/** Adds a force (fx, fz) N at the world point (px, pz) m to body `i`. */
export function pushAt(
  loads: Loads,
  k: Kinematics,
  i: number,
  fx: number,
  fz: number,
  px: number,
  pz: number,
): void {
  loads.fx[i] = (loads.fx[i] as number) + fx;
  loads.fz[i] = (loads.fz[i] as number) + fz;
  loads.torque[i] =
    (loads.torque[i] as number) + (px - (k.cx[i] as number)) * fz - (pz - (k.cz[i] as number)) * fx;
}

/** Adds a torque, N·m counter-clockwise, to body `i`. */
export function twist(loads: Loads, i: number, torque: number): void {
  loads.torque[i] = (loads.torque[i] as number) + torque;
}
