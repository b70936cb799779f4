import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Crossed, cross, type Halt, type Rules } from './cross.ts';
import { extentOf } from './extent.ts';
import type { ObstacleKind } from './obstacle.ts';
import { largestPassed, narrowed } from './search.ts';

/** The largest obstacle of one kind that a vehicle crosses. */
export interface Limit {
  /** Largest size that it crosses below the first that it does not, m or rad; 0 when nothing at all passes. */
  readonly size: number;
  /** What stops it just above; undefined when nothing did up to the largest size that was tried. */
  readonly halt: Halt | undefined;
  /** Largest size that was to be tried. */
  readonly most: number;
  /** What else happens at the limit, as sentences. */
  readonly remarks: readonly string[];
}

/** How closely a limit is looked for. */
export interface Fineness {
  /** Relative width at which the bisection ends. */
  readonly tolerance: number;
  /** Stations per wheel radius of the scan and of the last bisection; one pass when the second is left out. */
  readonly scan: number;
  readonly last?: number;
  /** Smallest size worth beginning at, for a scan whose smaller sizes are known to pass. */
  readonly from?: number;
}

/** To 0.1 %: with 96 stations per wheel radius, and more near the limits of grip and torque, a peak is missed by less. */
export const closely: Fineness = { tolerance: 1e-3, scan: 24, last: 96 };
/** To 0.5 %, ten times as fast: for the points of a curve. */
export const roughly: Fineness = { tolerance: 5e-3, scan: 24 };

/** Factor from one size of the scan to the next: a failure between two sizes that both pass is not seen. */
export const growth = 1.2;

/** Finds the limit of one kind of obstacle. */
export function limitOf(
  mechanism: Mechanism,
  obstacle: ObstacleKind,
  rules: Omit<Rules, 'perRadius'>,
  fineness: Fineness = closely,
): Limit {
  const extent = extentOf(mechanism, rules.sense);
  const most = obstacle.most(extent);
  const least = Math.min(most, obstacle.least(extent));
  const { tolerance, scan, last, from = 0 } = fineness;
  const attempt = (perRadius: number) => (size: number) =>
    cross(mechanism, obstacle, size, { ...rules, perRadius });
  const begun = Math.max(least, least * growth ** Math.floor(Math.log(from / least) / Math.log(growth)));
  const search = { least: begun, most, growth, tolerance: last === undefined ? tolerance : 10 * tolerance };
  const found = largestPassed<Crossed>(attempt(scan), search);
  const kept =
    last === undefined || !found.failed
      ? found
      : narrowed<Crossed>(attempt(last), found, { least, most, tolerance });
  return { size: kept.passed, halt: kept.failed?.at.halt, most, remarks: kept.at?.remarks ?? [] };
}
