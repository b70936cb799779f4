/** A point or a vector in the side view, m: x forward, z up (ISO 8855 axes; y points to the left, into the picture). */
export interface Vec2 {
  readonly x: number;
  readonly z: number;
}

/** Position and turn of a frame: x, z in m; angle in rad, counter-clockwise in the x–z view, so nose-up positive. */
export interface Pose {
  readonly x: number;
  readonly z: number;
  readonly angle: number;
}

/** a + b. */
export const add = (a: Vec2, b: Vec2): Vec2 => ({ x: a.x + b.x, z: a.z + b.z });
/** a − b. */
export const sub = (a: Vec2, b: Vec2): Vec2 => ({ x: a.x - b.x, z: a.z - b.z });
/** a times the number k. */
export const scale = (a: Vec2, k: number): Vec2 => ({ x: a.x * k, z: a.z * k });
/** Scalar product. */
export const dot = (a: Vec2, b: Vec2): number => a.x * b.x + a.z * b.z;
/** Turning product of a and b, counter-clockwise positive: the moment of force b at arm a. */
export const cross = (a: Vec2, b: Vec2): number => a.x * b.z - a.z * b.x;
/** Length of a. */
export const length = (a: Vec2): number => Math.hypot(a.x, a.z);
/** Distance from a to b. */
export const distance = (a: Vec2, b: Vec2): number => Math.hypot(b.x - a.x, b.z - a.z);

/** a turned by `angle` (rad, counter-clockwise). */
export function turn(a: Vec2, angle: number): Vec2 {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return { x: c * a.x - s * a.z, z: s * a.x + c * a.z };
}

/** Where the point `p` of a frame lies when the frame has this pose. */
export function place(pose: Pose, p: Vec2): Vec2 {
  const c = Math.cos(pose.angle);
  const s = Math.sin(pose.angle);
  return { x: pose.x + c * p.x - s * p.z, z: pose.z + s * p.x + c * p.z };
}

/** The point of a frame with this pose that lies at the world point `p`: the inverse of `place`. */
export function unplace(pose: Pose, p: Vec2): Vec2 {
  const c = Math.cos(pose.angle);
  const s = Math.sin(pose.angle);
  const x = p.x - pose.x;
  const z = p.z - pose.z;
  return { x: c * x + s * z, z: -s * x + c * z };
}
