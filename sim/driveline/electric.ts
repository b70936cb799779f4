import type { MotorLaw } from './part.ts';

/**
 * A direct-current motor as a circuit: voltage U = R·I + k·ω, torque T = c·(I − I0). Source: linear direct-current
 * motor, texts on electric drives. SI; figures of ONE motor.
 */
export interface Circuit {
  /** Ω, V·s/rad, N·m/A and A. */
  readonly resistance: number;
  readonly back: number;
  readonly torquePerAmpere: number;
  readonly idle: number;
}

/**
 * The circuit behind a motor's line: R = U/I_s, c = T_s/(I_s − I0), k = (U − R·I0)/ω0. Undefined where stall current or
 * voltage is not known, and for an engine.
 */
export function circuitOf(motor: MotorLaw, voltage: number | undefined): Circuit | undefined {
  const volts = motor.voltage ?? voltage;
  const { stallCurrent, noLoadCurrent: idle = 0, curve } = motor;
  if (curve !== undefined || volts === undefined || stallCurrent === undefined || stallCurrent <= idle)
    return undefined;
  const resistance = volts / stallCurrent;
  return {
    resistance,
    back: (volts - resistance * idle) / motor.noLoadSpeed,
    torquePerAmpere: motor.stallTorque / (stallCurrent - idle),
    idle,
  };
}

/**
 * Voltage of a battery with inner resistance R under a load of P watts: the upper root of U² − E·U + R·P = 0; half of E
 * where it can't give that much. Source: Ohm; greatest power E²/4R.
 */
export function voltageUnder(power: number, open: number, resistance: number): number {
  return (open + Math.sqrt(Math.max(0, open * open - 4 * resistance * power))) / 2;
}
