import type { Mechanism } from '../mechanism/mechanism.ts';
import { shareAt, sharesOf } from '../statics/split.ts';
import type { Driveline, DrivePart } from './driveline.ts';

/**
 * Torques on the axle lines for a thrust of 1 N on the level: lines behind locks in proportion to their loads (N, per
 * line), others as their differentials and motors share. N·m, forward positive; 0 for lines that nothing turns.
 */
export function patternOf(mechanism: Mechanism, loads: readonly number[]): Float64Array {
  const moments = Float64Array.from(mechanism.wheels, ({ radius }, w) => (loads[w] as number) * radius);
  const shares = sharesOf(mechanism, mechanism.drive.share, 1);
  const torques = Float64Array.from(shares, (share) => (share === undefined ? 0 : shareAt(share, moments)));
  const thrust = mechanism.wheels.reduce((sum, { radius }, w) => sum + (torques[w] as number) / radius, 0);
  return thrust > 0 ? torques.map((torque) => torque / thrust) : torques;
}

/** For each axle line the number of its group: lines that common sources turn are in one; −1 where nothing turns it. */
export function groupsOf({ parts, lastPart }: Driveline): {
  readonly lines: number[];
  readonly parts: number[];
} {
  const group = parts.map((_, p) => p);
  const rootOf = (p: number): number => (group[p] === p ? p : rootOf(group[p] as number));
  parts.forEach((part: DrivePart, p) => {
    for (const input of part.inputs) group[rootOf(input)] = rootOf(p);
  });
  return { lines: lastPart.map((p) => (p < 0 ? -1 : rootOf(p))), parts: parts.map((_, p) => rootOf(p)) };
}
