import type { DrivePart, Supply } from './driveline.ts';
import { circuitOf } from './electric.ts';
import { standstillTorque } from './motor.ts';

/** A motor that is held at full throttle, ONE of them. */
export interface StallHeat {
  /** N·m, A and W of heat in its winding. */
  readonly torque: number;
  readonly current: number | null;
  readonly heat: number | null;
  /** s until its winding has risen as far as it may; null where it is not known, or where it never gets there. */
  readonly time: number | null;
  readonly lasts: 'for ever' | 'a time' | 'unknown';
}

/**
 * Time of a stalled motor to its thermal limit. Heat P = R·I²; with a thermal resistance Θ to the air and a heat
 * capacity C the winding rises by P·Θ·(1 − exp(−t/(Θ·C))); without Θ it keeps all heat: t = C·ΔT/P, the shortest time.
 * Source: lumped heat balance, texts on electric drives. The winding's resistance is taken as that when cold.
 */
export function stallHeat(part: DrivePart, supply: Supply | undefined): StallHeat | null {
  const { motor } = part.law;
  if (motor === undefined || motor.curve !== undefined) return null;
  const torque = standstillTorque(part, supply) / part.count;
  const circuit = circuitOf(motor, supply?.voltage);
  if (circuit === undefined) return { torque, current: null, heat: null, time: null, lasts: 'unknown' };
  const current = torque / circuit.torquePerAmpere + circuit.idle;
  const heat = circuit.resistance * current ** 2;
  const { thermal } = motor;
  if (thermal === undefined) return { torque, current, heat, time: null, lasts: 'unknown' };
  const { heatCapacity, resistance, rise } = thermal;
  if (resistance === undefined)
    return { torque, current, heat, time: (heatCapacity * rise) / heat, lasts: 'a time' };
  const end = heat * resistance;
  if (end <= rise) return { torque, current, heat, time: null, lasts: 'for ever' };
  return {
    torque,
    current,
    heat,
    time: -resistance * heatCapacity * Math.log(1 - rise / end),
    lasts: 'a time',
  };
}
