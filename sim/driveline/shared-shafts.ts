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
