import type { DrivePart, Supply } from './driveline.ts';
import { circuitOf } from './electric.ts';

/** How much of what a motor takes it gives: a grid over torque and speed. ONE motor, SI. */
export interface EfficiencyMap {
  /** N·m and rad/s, both rising from the first step. */
  readonly torques: readonly number[];
  readonly speeds: readonly number[];
  /** values[t][s]: share from 0 to 1; null where the voltage does not reach. */
  readonly values: readonly (readonly (number | null)[])[];
  /** Where it works best. */
  readonly best: { readonly torque: number; readonly speed: number; readonly efficiency: number };
}

const steps = 24;

/**
 * Efficiency of a motor over torque and speed at its shaft: T·ω/(U·I) with I = T/c + I0 and U = R·I + k·ω, up to the
 * supply's voltage without load. null where currents or voltages are not known. Source: linear direct-current motor.
 */
export function efficiencyMap({ law }: DrivePart, supply: Supply | undefined): EfficiencyMap | null {
  const { motor } = law;
  const circuit = motor && circuitOf(motor, supply?.voltage);
  if (motor === undefined || circuit === undefined) return null;
  const volts = supply?.voltage ?? motor.voltage ?? 0;
  const stretch = motor.voltage === undefined ? 1 : volts / motor.voltage;
  const grid = (most: number) => Array.from({ length: steps }, (_, i) => ((i + 1) / steps) * most);
  const torques = grid(motor.stallTorque * stretch);
  const speeds = grid(motor.noLoadSpeed * stretch);
  const at = (torque: number, speed: number): number | null => {
    const amperes = torque / circuit.torquePerAmpere + circuit.idle;
    const needed = circuit.resistance * amperes + circuit.back * speed;
    const limit = motor.currentLimit ?? Number.POSITIVE_INFINITY;
    return needed > volts * (1 + 1e-12) || amperes > limit ? null : (torque * speed) / (needed * amperes);
  };
  const values = torques.map((torque) => speeds.map((speed) => at(torque, speed)));
  let best = { torque: 0, speed: 0, efficiency: 0 };
  values.forEach((row, t) => {
    row.forEach((efficiency, s) => {
      if (efficiency !== null && efficiency > best.efficiency)
        best = { torque: torques[t] as number, speed: speeds[s] as number, efficiency };
    });
  });
  return { torques, speeds, values, best };
}
