import { column, hasChannel, poseAt, type Recording, type Standing } from '../../shared/recording.ts';
import type { Mechanism, Wheel } from '../mechanism/mechanism.ts';
import { levelForcePerFoundation } from '../mechanism/tyres.ts';
import type { Driven, Pulling } from './bogie-transfer.ts';

/**
 * A vehicle that stands on level ground and pulls with `pull` N in all: every driven line in proportion to its load, each
 * on the lever that its tyre has under that load.
 */
export function pullingStanding(mechanism: Mechanism, standing: Standing, pull: number): Pulling {
  const loads = mechanism.wheels.map((w, i) => (w.driven ? (standing.loads[i] ?? 0) : 0));
  const sum = loads.reduce((a, b) => a + b, 0);
  const drives = mechanism.wheels.map((wheel, i): Driven => {
    const fx = sum > 0 ? (pull * (loads[i] as number)) / sum : 0;
    return { fx, fz: 0, torque: fx * leverOf(wheel, standing.loads[i] ?? 0) };
  });
  return { poses: standing.poses, drives };
}

/** Distance of a hub from level ground under this load of the line, m: half-intervals on the depth. */
function leverOf({ radius, tyre }: Wheel, load: number): number {
  let [low, high] = [0, 0.9 * radius];
  for (let n = 0; n < 60; n++) {
    const depth = 0.5 * (low + high);
    if (tyre.foundation * levelForcePerFoundation(radius, depth) < load) low = depth;
    else high = depth;
  }
  return radius - 0.5 * (low + high);
}

/**
 * What the drive does in one frame of a run; undefined for a recording without the ground's forces. With N the force
 * across a contact and η = thrust/N, the ground gives P + η·(Pz, −Px): the second part is the drive's.
 */
export function pullingInFrame(recording: Recording, frame: number): Pulling | undefined {
  if (!hasChannel(recording, 'groundX')) return undefined;
  const drives = recording.wheels.map((_, w): Driven => {
    const at = (channel: 'groundX' | 'groundZ' | 'normal' | 'thrust' | 'torque') =>
      column(recording, channel, w)[frame] ?? 0;
    const use = at('normal') > 0 ? at('thrust') / at('normal') : 0;
    const across = {
      x: (at('groundX') - use * at('groundZ')) / (1 + use * use),
      z: (at('groundZ') + use * at('groundX')) / (1 + use * use),
    };
    return { fx: use * across.z, fz: -use * across.x, torque: at('torque') };
  });
  return { poses: recording.bodies.map((_, b) => poseAt(recording, b, frame)), drives };
}
