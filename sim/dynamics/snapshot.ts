import { motorsOf } from '../driveline/metered.ts';
import { clearanceOf } from '../frames/clearance.ts';
import type { Snapshot, SourceSnapshot, WheelSnapshot } from '../frames/frames.ts';
import { distanceToGround } from '../tyre/touch.ts';
import type { Plant } from './plant.ts';
import { hubTravel } from './settle.ts';
import type { WorkingWheel } from './working-wheel.ts';

/** What a snapshot needs to know of the frame before it. */
export interface Before {
  readonly time: number;
  /** Vertical speed of the chassis' centre of mass, m/s. */
  readonly rise: number;
}

/** The plant's present state as a frame at `time`, s. `start`: energy at the start of the drive, J. */
export function snapshotOf(plant: Plant, time: number, start: number, before: Before | undefined): Snapshot {
  const { k, mechanism } = plant;
  const reference = plant.reference();
  const rise = k.vz[0] as number;
  const since = before === undefined ? 0 : time - before.time;
  return {
    run: {
      time,
      station: reference.x,
      speed: reference.speed,
      pitch: k.angle[0] as number,
      heaveAcceleration: since > 0 && before !== undefined ? (rise - before.rise) / since : 0,
      clearance: clearanceOf(mechanism, k, plant.ground),
      work: plant.work,
      energy: energyOf(plant) - start,
      lost: plant.lost,
    },
    x: k.x,
    z: k.z,
    angle: k.angle,
    wheels: plant.wheels.map((w) => wheelSnapshot(plant, w)),
    motions: plant.members.map((gauge) => {
      gauge?.read(k);
      return gauge?.x ?? 0;
    }),
    sources: sourcesOf(plant),
  };
}

/** Motors of the drive line; those that turn no wheel are at rest. */
function sourcesOf({ tree, mechanism: { driveline } }: Plant): SourceSnapshot[] {
  if (tree === undefined || driveline === undefined) return [];
  return motorsOf(driveline).map(({ part, metered }) => {
    const motor = tree.motors.find((m) => m.part === part);
    const { torque, speed, current } = motor ?? { torque: 0, speed: 0, current: 0 };
    return { torque, speed, current: metered ? current : Number.NaN };
  });
}

function wheelSnapshot(plant: Plant, w: WorkingWheel): WheelSnapshot {
  const { line, wheel } = w;
  return {
    wheelStation: line.station,
    // where friction at a steep face pulls a wheel down, the wheel carries nothing
    load: Math.max(0, line.fz),
    normal: line.normal,
    thrust: line.thrust,
    gripUse: gripUseOf(w),
    torque: w.torque,
    roll: w.roll,
    travel: hubTravel(plant, wheel.body, wheel.hub.x, wheel.hub.z),
    depth: line.depth,
    gap: line.normal > 0 ? 0 : gapOf(plant, w),
  };
}

/** Energy of motion, height and everything stored, J. */
export function energyOf(plant: Plant): number {
  return plant.kinetic() + plant.height() + plant.storedInElements() + plant.storedInTyres();
}

/** Tangential force over what grip allows; 0 off the ground or without grip. */
export function gripUseOf({ line, wheel }: WorkingWheel): number {
  const limit = wheel.tyre.grip * line.normal;
  return limit > 0 ? Math.min(1, line.rub / limit) : 0;
}

/** Distance of a tyre from the ground, m, never below zero; looked for within ten radii. */
export function gapOf(plant: Plant, { line, wheel }: WorkingWheel): number {
  return Math.max(0, distanceToGround(plant.ground, line.x, line.z, 10 * wheel.radius) - wheel.radius);
}
