import type { DrivePart, Supply } from './driveline.ts';
import { standstillTorque } from './motor.ts';

/**
 * For each part, the share of its input torque that each of its inputs brings. Motors on one shaft share by their lines:
 * with equal speeds without load at the shaft each brings torque in proportion to what it has at standstill, behind its
 * gears. Source: straight motor lines at one voltage.
 */
export function inputSharesOf(parts: readonly DrivePart[], supply: Supply | undefined): number[][] {
  const strength = new Float64Array(parts.length);
  const shares: number[][] = [];
  parts.forEach((part, p) => {
    const each = part.inputs.map((input) => strength[input] as number);
    const all = each.reduce((sum, s) => sum + s, 0);
    shares.push(each.map((s) => (all > 0 ? s / all : 1 / each.length)));
    strength[p] =
      part.inputs.length === 0 ? standstillTorque(part, supply) : all * part.law.ratio * part.law.driving;
  });
  return shares;
}

/** Speed of each part's output without load, rad/s: a source's own at the supply's voltage, and the mean of what turns it. */
export function freeSpeeds(parts: readonly DrivePart[], supply: Supply | undefined): Float64Array {
  const speeds = new Float64Array(parts.length);
  parts.forEach(({ law, inputs }, p) => {
    const { motor } = law;
    const stretch = motor?.voltage === undefined || supply === undefined ? 1 : supply.voltage / motor.voltage;
    const mean = inputs.reduce((sum, i) => sum + (speeds[i] as number), 0) / Math.max(1, inputs.length);
    speeds[p] = motor === undefined ? mean / law.ratio : motor.noLoadSpeed * (motor.curve ? 1 : stretch);
  });
  return speeds;
}
