import type { Tyre } from './mechanism.ts';

/**
 * Normal force of the radial foundation on level ground per unit of foundation stiffness, m·rad: every rim angle is a
 * spring of length r − p/cos; integrated in closed form over the contact,
 *   N/k_f = 2·(r·asinh(u/p) − u), u = √(r² − p²), p = r − δ   (derivation: sim/PHYSICS.md).
 * `radius` and `depth` in m, 0 < depth < radius.
 */
export function levelForcePerFoundation(radius: number, depth: number): number {
  const p = radius - depth;
  const u = Math.sqrt(Math.max(0, radius * radius - p * p));
  return 2 * (radius * Math.asinh(u / p) - u);
}

/** Foundation stiffness, N/(m·rad), of a tyre that gives way by load/stiffness under this load on level ground. */
export function foundationOf(radius: number, stiffness: number, load: number): number {
  const depth = Math.min(load / stiffness, 0.6 * radius);
  return load / levelForcePerFoundation(radius, depth);
}

/** Depth to which a load, N, presses a tyre of this foundation (N/(m·rad)) on level ground, m; by bisection. */
export function depthUnder(load: number, foundation: number, radius: number): number {
  let [low, high] = [0, 0.999 * radius];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (foundation * levelForcePerFoundation(radius, middle) < load) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Figures of one wheel's tyre as the document gives them, SI. */
export interface TyreEntry {
  readonly stiffnessPerWheel: number;
  readonly loadPerWheel?: number | undefined;
  readonly damping: number;
  readonly grip: number;
  readonly rolling: number;
}

/**
 * Tyres of one axle line. `meanLoad`: N per wheel, used where the document names no load. `inertia`: spin inertia of
 * the line, kg·m². Tangential stiffness equals the radial one and its damping is 0.3 of critical on the spin mode
 * (2·0.3·√(σ·I)/r): definition of our own, so that a parked wheel holds without ringing.
 */
export function lineTyre(
  entry: TyreEntry,
  radius: number,
  count: number,
  meanLoad: number,
  inertia: number,
): Tyre {
  const load = entry.loadPerWheel ?? meanLoad;
  const shearStiffness = count * entry.stiffnessPerWheel;
  return {
    foundation: count * foundationOf(radius, entry.stiffnessPerWheel, load),
    damping: entry.damping,
    grip: entry.grip,
    rolling: entry.rolling,
    shearStiffness,
    shearDamping: (0.6 * Math.sqrt(shearStiffness * inertia)) / radius,
  };
}
