import type { Mechanism } from '../mechanism/mechanism.ts';
import { crossLevel, type HaltKind, type Rules } from './cross.ts';
import { limitOf, roughly } from './limit.ts';
import type { ObstacleKind } from './obstacle.ts';
import { withGrip, withItems } from './vary.ts';

/** One limit of a curve. */
export interface CurvePoint {
  /** Grip (1), or mass of the whole vehicle (kg). */
  readonly at: number;
  /** Limit, m or rad; 0 when nothing passes. */
  readonly size: number;
  /** What stops it there; undefined when nothing does up to the largest size that was tried. */
  readonly by: HaltKind | undefined;
}

/** Grips of the curve: 0.2 to 1.2. */
export const curveGrips: readonly number[] = Array.from({ length: 11 }, (_, i) => (2 + i) / 10);
/** Factors on all mass items of the curve over mass. */
export const curveFactors: readonly number[] = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 2];

type CurveRules = Omit<Rules, 'perRadius'>;

/**
 * The limit over grip, each point to 0.5 %. Grips must rise: what passes with less grip is taken to pass with more, so
 * each scan begins where the last one ended.
 */
export function gripCurve(
  mechanism: Mechanism,
  obstacle: ObstacleKind,
  rules: CurveRules,
  grips: readonly number[] = curveGrips,
): CurvePoint[] {
  let from = 0;
  return grips.map((at) => {
    const point = pointOf(withGrip(mechanism, at), obstacle, rules, at, from);
    from = 0.98 * point.size;
    return point;
  });
}

/** The limit over the mass of the whole vehicle, each point to 0.5 %: all mass items times a factor, wheels left. */
export function massCurve(
  mechanism: Mechanism,
  obstacle: ObstacleKind,
  rules: CurveRules,
  factors: readonly number[] = curveFactors,
): CurvePoint[] {
  return factors.map((factor) => {
    const loaded = withItems(mechanism, factor);
    return pointOf(loaded, obstacle, rules, loaded.mass, 0);
  });
}

function pointOf(
  mechanism: Mechanism,
  obstacle: ObstacleKind,
  rules: CurveRules,
  at: number,
  from: number,
): CurvePoint {
  const level = crossLevel(mechanism, { ...rules, perRadius: roughly.scan });
  if (level.halt) return { at, size: 0, by: level.halt.by };
  const { size, halt } = limitOf(mechanism, obstacle, rules, { ...roughly, from });
  return { at, size, by: halt?.by };
}
