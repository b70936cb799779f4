import { type Channel, column, hasChannel, type Recording } from '../../shared/recording.ts';
import type { BoundElement, Mechanism } from '../mechanism/mechanism.ts';
import type { LoadName } from './kind.ts';

/** Size of a load in a frame, all equal ones together. */
export type Load = (frame: number) => number;
export type Loads = Readonly<Partial<Record<LoadName, Load>>>;

const none = new Float64Array(0);

/** Whether a recording has the forces in joints and members. */
export const hasForces = (recording: Recording): boolean =>
  recording.frames > 0 && hasChannel(recording, 'unbalanced');

const read = (recording: Recording, channel: Channel, index: number): Float64Array =>
  column(recording, channel, index);

const size =
  (values: Float64Array): Load =>
  (f) =>
    Math.abs(values[f] as number);

/** Loads of hinge or guide `joint`, an index in the recording's joints. */
export function jointLoads(recording: Recording, joint: number): Loads {
  const x = read(recording, 'pinX', joint);
  const z = read(recording, 'pinZ', joint);
  return {
    force: (f) => Math.sqrt((x[f] as number) ** 2 + (z[f] as number) ** 2),
    moment: size(read(recording, 'pinMoment', joint)),
  };
}

/** Loads of a rod and of the pins at its ends. */
export function rodLoads(recording: Recording, rod: number): Loads {
  const tension = read(recording, 'rodTension', rod);
  return {
    force: size(tension),
    pull: (f) => Math.max(0, tension[f] as number),
    push: (f) => Math.max(0, -(tension[f] as number)),
  };
}

/** Loads of a member with a line. */
export function armLoads(recording: Recording, line: number): Loads {
  return {
    axial: size(read(recording, 'axial', line)),
    shear: size(read(recording, 'shear', line)),
    bending: size(read(recording, 'bending', line)),
  };
}

/**
 * Signed effort of a spring or bar itself, all equal ones together, N or N·m: of its law without the damping beside it;
 * where it has a memory (friction), the recorded effort.
 */
export function springEffort(element: BoundElement, index: number, recording: Recording): Load {
  const { law, count } = element;
  if (law.memory > 0) {
    const effort = read(recording, 'elementEffort', index);
    return (f) => effort[f] as number;
  }
  const x = read(recording, 'elementTravel', index);
  return (f) => count * law.spring(x[f] as number, none);
}

/** Energy stored in all equal ones of an element, J; friction let go. */
export function storedEnergy(element: BoundElement, index: number, recording: Recording): Load {
  const { law, count } = element;
  const x = read(recording, 'elementTravel', index);
  const memory = new Float64Array(law.memory);
  return (f) => {
    const at = x[f] as number;
    law.rest?.(at, memory);
    return count * law.energy(at, memory);
  };
}

/** Loads of a member's stops: the greater of both sides. */
export function stopLoads(mechanism: Mechanism, member: number, recording: Recording): Loads {
  const stops = mechanism.elements.flatMap((element, i) =>
    element.stopOf?.member === member
      ? [{ effort: read(recording, 'elementEffort', i), energy: storedEnergy(element, i, recording) }]
      : [],
  );
  const effort: Load = (f) =>
    stops.reduce((most, stop) => Math.max(most, Math.abs(stop.effort[f] as number)), 0);
  return {
    force: effort,
    torque: effort,
    energy: (f) => stops.reduce((most, stop) => Math.max(most, stop.energy(f)), 0),
  };
}
