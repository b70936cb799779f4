import { type Channel, column, hasChannel, type Recording } from '../../shared/recording.ts';
import type { JointReport, Moment } from '../../shared/report.ts';
import type { BoundElement, Mechanism } from '../mechanism/mechanism.ts';
import { carryingJoints, memberLines, pointOnLine } from './line.ts';

/**
 * The greatest force in every joint, rod, member and element of a run, with where it happened; what never carried
 * anything has no row. Empty for a recording without these forces.
 */
export function jointReports(mechanism: Mechanism, recording: Recording): JointReport[] {
  if (recording.frames === 0 || !hasChannel(recording, 'unbalanced')) return [];
  return [
    ...pins(mechanism, recording),
    ...recording.rods.flatMap((of, i) => rod(of, i, recording)),
    ...beams(mechanism, recording),
    ...mechanism.elements.flatMap((element, i) => elementRows(element, i, mechanism, recording)),
  ];
}

/** A column's value in every frame. */
type Read = (frame: number) => number;

const read = (recording: Recording, channel: Channel, index: number): Read => {
  const values = column(recording, channel, index);
  return (frame) => values[frame] as number;
};

/** Frame where a figure is greatest (the first one), if it is above nothing anywhere. */
function peak({ frames }: Recording, size: Read): number | undefined {
  let best: number | undefined;
  let most = 0;
  for (let f = 0; f < frames; f++) {
    if (!(size(f) > most)) continue;
    most = size(f);
    best = f;
  }
  return best;
}

function momentOf(recording: Recording, frame: number): Moment {
  const value = (channel: 'time' | 'station') => column(recording, channel)[frame] as number;
  return { frame, time: value('time'), station: value('station') };
}

/** A row for the frame where `size` is greatest, or none; `value` is what it says of that frame. */
function row(
  recording: Recording,
  head: Pick<JointReport, 'part' | 'of' | 'quantity' | 'unit'>,
  size: Read,
  value: Read = size,
  more: (frame: number) => Partial<JointReport> = () => ({}),
): JointReport[] {
  const frame = peak(recording, size);
  if (frame === undefined) return [];
  return [{ ...head, value: value(frame), ...more(frame), moment: momentOf(recording, frame) }];
}

function pins(mechanism: Mechanism, recording: Recording): JointReport[] {
  return carryingJoints(mechanism).flatMap(({ joint }, j) => {
    const x = read(recording, 'pinX', j);
    const z = read(recording, 'pinZ', j);
    const moment = read(recording, 'pinMoment', j);
    const part = joint.kind === 'slide' ? ('guide' as const) : ('pin' as const);
    const of = joint.name;
    return [
      ...row(recording, { part, of, quantity: 'force', unit: 'N' }, (f) => Math.hypot(x(f), z(f))),
      ...row(recording, { part, of, quantity: 'moment', unit: 'N·m' }, (f) => Math.abs(moment(f))),
    ];
  });
}

function rod(of: string, index: number, recording: Recording): JointReport[] {
  const tension = read(recording, 'rodTension', index);
  const head = { part: 'rod', of, unit: 'N' } as const;
  return [
    ...row(recording, { ...head, quantity: 'pull' }, tension),
    ...row(recording, { ...head, quantity: 'push' }, (f) => -tension(f)),
  ];
}

function beams(mechanism: Mechanism, recording: Recording): JointReport[] {
  return memberLines(mechanism).flatMap((line, l) => {
    const axial = read(recording, 'axial', l);
    const way = read(recording, 'bendingAt', l);
    const head = { part: 'member', of: line.name } as const;
    const bending = read(recording, 'bending', l);
    return [
      ...row(recording, { ...head, quantity: 'axial', unit: 'N' }, (f) => Math.abs(axial(f)), axial),
      ...row(recording, { ...head, quantity: 'shear', unit: 'N' }, read(recording, 'shear', l)),
      ...row(recording, { ...head, quantity: 'bending', unit: 'N·m' }, bending, bending, (f) => ({
        at: pointOnLine(line, way(f)),
      })),
    ];
  });
}

function elementRows(
  element: BoundElement,
  index: number,
  mechanism: Mechanism,
  recording: Recording,
): JointReport[] {
  const { name: of, count, law, bar } = element;
  const x = read(recording, 'elementTravel', index);
  const effort = read(recording, 'elementEffort', index);
  const turns = twists(element, mechanism);
  const head = { part: 'element', of } as const;
  const all = row(
    recording,
    { ...head, quantity: 'effort', unit: turns ? 'N·m' : 'N' },
    (f) => Math.abs(effort(f)),
    effort,
    (f) => (count > 1 ? { count, each: effort(f) / count } : {}),
  );
  if (!turns || law.memory > 0 || element.stopOf !== undefined) return all;
  // what the bar itself carries: its law without the damping beside it
  const torque = (f: number) => Math.abs(law.spring(x(f), noMemory));
  const twist = (f: number) => torque(f) / law.stiffness(x(f), noMemory);
  return [
    ...all,
    ...row(recording, { ...head, quantity: 'twist', unit: 'rad' }, (f) => (torque(f) > 0 ? twist(f) : 0)),
    ...(bar === undefined
      ? []
      : row(recording, { ...head, quantity: 'stress', unit: 'Pa' }, (f) => torque(f) / bar.modulus)),
  ];
}

const noMemory = new Float64Array(0);

/** Whether an element acts along a turn: its effort is a torque. */
function twists({ coordinate }: BoundElement, { joints }: Mechanism): boolean {
  return coordinate.kind === 'joint' && joints[coordinate.joint]?.kind === 'hinge';
}
