import { type Channel, columnHeads, type Recording } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';
import type { Solved } from '../solved.ts';
import type { Drawn } from './desk.ts';

/** Columns of a vehicle that stands as it was drawn; everything else is not known before it was driven. */
function drawnValue(
  { mechanism, start }: Drawn,
  loads: readonly number[],
  channel: Channel,
  index: number,
): number {
  const shift = start - mechanism.reference.x;
  const wheel = mechanism.wheels[index];
  if (channel === 'x') return shift;
  if (channel === 'station') return start;
  if (channel === 'wheelStation') return shift + (wheel?.hub.x ?? 0);
  if (channel === 'load') return loads[index] ?? Number.NaN;
  const known: readonly Channel[] = ['time', 'z', 'angle', 'roll', 'depth', 'gap'];
  return known.includes(channel) ? 0 : Number.NaN;
}

function oneFrame(drawn: Drawn, loads: readonly number[]): Recording {
  const { mechanism, start } = drawn;
  const names = {
    bodies: mechanism.bodies.map(({ name }) => name),
    wheels: mechanism.wheels.map(({ name }) => name),
    members: mechanism.members.map(({ name }) => name),
    elements: [],
    joints: [],
    rods: [],
    beams: [],
  };
  const columns = columnHeads(names, false);
  return {
    ...names,
    mode: 'drive',
    columns,
    frames: 1,
    rate: 1,
    substep: Number.NaN,
    substepSays: '',
    block: Float64Array.from(columns, ({ channel, index }) => drawnValue(drawn, loads, channel, index)),
    standing: {
      poses: [],
      loads,
      travels: [],
      station: start,
      pitch: 0,
      motions: [],
      stored: 0,
      residual: 0,
    },
    events: [],
    end: { kind: 'arrived', time: 0, station: start },
  };
}

function emptyReport({ mechanism, vehicle }: Drawn): Report {
  return {
    mode: 'check',
    title: '',
    vehicle,
    mass: mechanism.mass,
    cg: mechanism.cg,
    pitchInertia: Number.NaN,
    wheels: [],
    measures: [],
    events: [],
    verdicts: [],
    problems: [],
    pass: false,
  };
}

/**
 * What can be shown of a vehicle before it was driven: where it is drawn, at the start of its run.
 * @param loads what its axle lines carry, N, as far as that is known
 */
export function previewOf(drawn: Drawn, loads: readonly number[] = []): Solved {
  return {
    mechanism: drawn.mechanism,
    ground: drawn.ground,
    recording: oneFrame(drawn, loads),
    report: emptyReport(drawn),
  };
}
