/* Vehicles with a drive line for checks: a rig whose axle lines are turned by parts as a document has them. */
import type { Recording } from '../../shared/recording.ts';
import { record } from '../../sim/dynamics/drive.ts';
import { type Command, Plant } from '../../sim/dynamics/plant.ts';
import { setDown } from '../../sim/dynamics/settle.ts';
import { chooseSubstep } from '../../sim/dynamics/substep.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { type ScenarioInput, scenarioDocument } from '../../sim/scenario/schema.ts';
import { documentOf, groundOf, type Rig } from './vehicle.ts';

export type DrivelineInput = NonNullable<ScenarioInput['vehicle']['driveline']>;

/** A vehicle ready to go. */
export interface Driven {
  readonly mechanism: Mechanism;
  readonly ground: Ground;
  readonly course: ReturnType<typeof courseOf>;
}

/** The rig with this drive line. */
export function drivenRig(rig: Rig, driveline: DrivelineInput): Driven {
  const document = documentOf(rig);
  const { torquePerWheel: _none, ...drive } = document.vehicle.drive ?? { speed: 0 };
  const scenario = scenarioDocument.parse({
    ...document,
    vehicle: { ...document.vehicle, drive, driveline },
  });
  const ground = groundOf(scenario.ground as ScenarioInput['ground']);
  return { mechanism: compile(scenario), ground, course: courseOf(scenario, ground) };
}

/** Drives it as its rig says. */
export const driven = (rig: Rig, driveline: DrivelineInput): Recording => {
  const { mechanism, ground, course } = drivenRig(rig, driveline);
  return record(mechanism, ground, course);
};

/** Sets it down and moves it on by `seconds` under a command; `look` sees every substep. */
export function under(
  { mechanism, ground, course }: Driven,
  command: Command,
  seconds: number,
  look: (plant: Plant, time: number, h: number) => void,
): Plant {
  const { plant: set } = setDown(mechanism, ground, course.start);
  const plant = new Plant(mechanism, ground, set.world.poses());
  const { h } = chooseSubstep(mechanism, 240, undefined);
  for (let n = 0; n * h < seconds; n++) {
    plant.evaluate(h, command);
    look(plant, (n + 1) * h, h);
    plant.move(h);
  }
  return plant;
}
