/**
 * Dry friction as one bristle: it sticks elastically, and slides at its limit. The bristle is fastened at an anchor
 * and bent by s = coordinate − anchor; bent further than `reach` it drags its anchor along.
 *
 * Pull σ·s within the reach, the limit beyond; energy ½·σ·s², and limit·(|s| − reach/2) beyond, so that pull = dU/ds
 * everywhere, also between two calls of `drag`. What a drag takes out of that energy is limit × way slid: the loss.
 * Source: the elastic and sliding unit of Prandtl and Jenkin ("Jenkin element", in any text on friction damping).
 */
export interface Bristle {
  /** σ, effort per coordinate while it sticks: limit/reach. */
  readonly stiffness: number;
  /** Greatest effort, N or N·m. */
  readonly limit: number;
  /** Elastic travel before it slides, m or rad, above zero. */
  readonly reach: number;
}

/** Bristle that slides at `limit` (N, N·m; not negative) after an elastic travel of `reach` (m, rad; above zero). */
export function makeBristle(limit: number, reach: number): Bristle {
  return { stiffness: limit / reach, limit, reach };
}

/** Stored energy of a bristle bent by s, J. */
export function bristleEnergy(bristle: Bristle, s: number): number {
  const bent = Math.abs(s);
  return bent <= bristle.reach
    ? 0.5 * bristle.stiffness * bent * bent
    : bristle.limit * (bent - 0.5 * bristle.reach);
}

/** dU/ds, N or N·m: the effort on the mechanism is the opposite. */
export function bristlePull(bristle: Bristle, s: number): number {
  return Math.max(-bristle.limit, Math.min(bristle.limit, bristle.stiffness * s));
}

/** d²U/ds², never below zero. A bristle just dragged counts as sticking: it does so as soon as the motion turns. */
export function bristleStiffness(bristle: Bristle, s: number): number {
  // The anchor of a dragged bristle is rounded; a billionth of the reach is far above that and far below any travel.
  return Math.abs(s) <= bristle.reach * (1 + 1e-9) ? bristle.stiffness : 0;
}

/**
 * Drags the anchor, memory[0], along so that the bristle is bent by its reach at most.
 * @param to coordinate, m or rad
 * @returns loss, J, never below zero
 */
export function dragBristle(bristle: Bristle, to: number, memory: Float64Array): number {
  const s = to - (memory[0] as number);
  const slid = Math.abs(s) - bristle.reach;
  if (!(slid > 0)) return 0;
  memory[0] = to - Math.sign(s) * bristle.reach;
  return bristle.limit * slid;
}
