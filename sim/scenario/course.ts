import type { Ground } from '../ground/ground.ts';
import type { Scenario } from './schema.ts';

/** What a run is, in SI, every default filled in. */
export interface Course {
  /** Stations of the reference point at the start and at the end, m. */
  readonly start: number;
  readonly until: number;
  /** Longest run, s. */
  readonly time: number;
  /** Recorded frames per second. */
  readonly rate: number;
  /** Forced substep, s. */
  readonly substep?: number | undefined;
}

/** Seconds of a parked run when none are asked for. */
const parkedTime = 10;

/**
 * Where and how long a scenario's run goes, with the defaults that its schema states: the rearmost tyre begins at
 * station 0, and the run ends when the foremost tyre reaches the end of the ground (the other way round in reverse).
 */
export function courseOf(scenario: Pick<Scenario, 'vehicle' | 'run'>, ground: Pick<Ground, 'to'>): Course {
  const { vehicle, run } = scenario;
  const { speed, acceleration } = vehicle.drive;
  const behind = vehicle.reference.x - Math.min(...vehicle.wheels.map((w) => w.at.x - w.radius));
  const ahead = Math.max(...vehicle.wheels.map((w) => w.at.x + w.radius)) - vehicle.reference.x;
  const last = Math.max(ground.to - ahead, behind);
  const start = run.start ?? (speed < 0 ? last : behind);
  const until = run.until ?? (speed < 0 ? behind : last);
  const pace = Math.abs(speed);
  const usual = pace > 0 ? 3 * (Math.abs(until - start) / pace) + pace / acceleration + 5 : parkedTime;
  return { start, until, time: Math.min(run.time ?? usual, 3600), rate: run.frames, substep: run.substep };
}
