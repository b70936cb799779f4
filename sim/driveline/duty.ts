import type { DriveChain } from './chain.ts';

/** Steady driving, or a crossing again and again. */
export interface Duty {
  readonly speed: number;
  /** W and A out of the battery, V at its terminals. */
  readonly power: number | null;
  readonly current: number | null;
  readonly voltage: number | null;
  /** Wheel power over battery power. */
  readonly efficiency: number | null;
  /** s and m that the battery lasts to `usedShare` of its charge. */
  readonly time: number | null;
  readonly distance: number | null;
}

/** Share of the battery's charge that is used. Common practice for lithium cells, no source. */
export const usedShare = 0.8;

/** A figure, or null where it is not known. */
export const orNull = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** How long a battery lasts at a steady power. */
export function lasting(chain: DriveChain, speed: number, wheelPower: number, power: number): Duty {
  const { supply } = chain.driveline;
  const known = Number.isFinite(power) && supply !== undefined;
  const voltage = known ? chain.voltageUnder(power) : Number.NaN;
  const current = power / voltage;
  const time = ((supply?.capacity ?? Number.NaN) * usedShare) / current;
  return {
    speed,
    power: known ? power : null,
    current: orNull(current),
    voltage: orNull(voltage),
    efficiency: known && power > 0 ? wheelPower / power : null,
    time: orNull(time),
    distance: orNull(time * speed),
  };
}
