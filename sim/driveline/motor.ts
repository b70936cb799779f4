import type { DrivePart, Supply } from './driveline.ts';
import type { MotorLaw } from './part.ts';

/** Factor on a motor's line for another voltage than that of its figures: torque and speed go with it. */
function voltageShare(motor: MotorLaw, supply: Supply | undefined): number {
  return motor.voltage === undefined || supply === undefined ? 1 : supply.voltage / motor.voltage;
}

/**
 * Torque that the motors of a part have at standstill together, N·m: the stall torque at the supply's voltage, sagging
 * under its inner resistance, and no more than current limits allow (torque goes with current, less the idle part).
 * Source: linear direct-current motor with resistance in series, any text on electric drives.
 */
export function standstillTorque({ law, count }: DrivePart, supply: Supply | undefined): number {
  const { motor } = law;
  if (motor === undefined) return 0;
  const { stallTorque, stallCurrent, noLoadCurrent = 0, currentLimit } = motor;
  const share = voltageShare(motor, supply);
  if (stallCurrent === undefined) return count * stallTorque * share;
  const volts = motor.voltage ?? supply?.voltage;
  const resistance = volts === undefined ? 0 : volts / stallCurrent;
  const sagging = resistance > 0 ? resistance / (resistance + count * (supply?.resistance ?? 0)) : 1;
  const each = Math.min(
    stallCurrent * share * sagging,
    currentLimit ?? Number.POSITIVE_INFINITY,
    (supply?.currentLimit ?? Number.POSITIVE_INFINITY) / count,
  );
  const perAmpere = stallTorque / Math.max(stallCurrent - noLoadCurrent, 1e-12);
  return count * Math.max(0, perAmpere * (each - noLoadCurrent));
}
