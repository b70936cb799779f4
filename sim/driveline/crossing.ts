import { column, type Recording } from '../../shared/recording.ts';
import { makeKinematics } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Bend, bendsOver, posesOf } from './bends.ts';
import { chainOf } from './chain.ts';
import { type Duty, lasting } from './duty.ts';
import { type WindUp, windUpOf } from './wind-up.ts';

/** What a crawl over the scenario's ground asks of the drive line as a whole. */
export interface CrossingFigures {
  /** Mean over the crossing, and how long the battery lasts at crossing after crossing; null before a frame was made. */
  readonly duty: Duty | null;
  readonly joints: readonly Bend[];
  readonly windUp: readonly WindUp[];
}

/**
 * Drive line figures of a crawl: mean power, worst angles of joints, wind-up. undefined without a drive line.
 * @throws RangeError when the recording is not of this vehicle
 */
export function crossingFigures(mechanism: Mechanism, recording: Recording): CrossingFigures | undefined {
  if (mechanism.driveline === undefined) return undefined;
  return {
    duty: dutyOver(mechanism, recording),
    joints: bendsOver(mechanism, recording),
    windUp: windUpOf(mechanism, recording),
  };
}

/** Mean of a crawl, by time (trapezoid). What a braking motor gives back is not counted. */
function dutyOver(mechanism: Mechanism, recording: Recording): Duty | null {
  const chain = chainOf(mechanism);
  const { frames } = recording;
  const time = column(recording, 'time');
  const span = (time[frames - 1] ?? 0) - (time[0] ?? 0);
  if (chain === undefined || !(span > 0)) return null;
  const torques = mechanism.wheels.map((_, w) => column(recording, 'torque', w));
  const row = new Float64Array(torques.length);
  const sense = mechanism.drive.speed < 0 ? -1 : 1;
  const k = makeKinematics(mechanism.bodies.length);
  const poses = posesOf(mechanism, recording);
  let [drawn, wheel, lastDrawn, lastWheel] = [0, 0, 0, 0];
  for (let frame = 0; frame < frames; frame++) {
    poses(k, frame);
    for (let w = 0; w < row.length; w++) row[w] = (torques[w] as Float64Array)[frame] as number;
    chain.solve(row, sense, k);
    const step = frame === 0 ? 0 : (time[frame] as number) - (time[frame - 1] as number);
    drawn += (step * (chain.supplyPower + lastDrawn)) / 2;
    wheel += (step * (Math.max(0, chain.wheelPower) + lastWheel)) / 2;
    [lastDrawn, lastWheel] = [chain.supplyPower, Math.max(0, chain.wheelPower)];
  }
  return lasting(chain, Math.abs(mechanism.drive.speed), wheel / span, drawn / span);
}
