/**
 * Greatest coordinate (m, rad) and speed (m/s, rad/s) at which a law is worked out. Nothing that rolls gets here: a
 * run is called off long before. Past it a law keeps its value, so that squares and cubes of finite figures stay finite.
 */
export const REACH = 1e6;

/** `x` held within ±REACH; NaN stays NaN, so that a broken run is seen and not hidden. */
export function withinReach(x: number): number {
  return Math.max(-REACH, Math.min(REACH, x));
}
