import { type Channel, columnHeads, type Recording, type RunEvent } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';

/** Names of the made-up run: two axle lines, one of which has a name that needs quoting. */
const names = {
  bodies: ['chassis'],
  wheels: ['front', 'rear, twin'],
  members: ['beam', 'guide'],
  elements: ['bar', 'spring'],
  joints: [],
  rods: [],
  beams: [],
} as const;

/** A made-up recording: every column counts its frames from its own thousand, so that each value tells its place. */
export function syntheticRecording(frames = 4, events: readonly RunEvent[] = []): Recording {
  const columns = columnHeads(names);
  const block = new Float64Array(columns.length * frames).map(
    (_, i) => 1000 * Math.floor(i / frames) + (i % frames),
  );
  return {
    mode: 'drive',
    frames,
    rate: 240,
    substep: 0.00025,
    substepSays: 'a tenth of the shortest period',
    block,
    columns,
    ...names,
    standing: {
      poses: [{ x: 0, z: 0, angle: 0 }],
      loads: [19.6, 39.2],
      travels: [0.001, 0.002],
      station: 0,
      pitch: 0,
      motions: [0, 0],
      stored: 0.1,
      residual: 1e-9,
    },
    events,
    end: { kind: 'arrived', time: 1.5, station: 0.75 },
  };
}

/** Where a column begins in the block. */
export function startOf(recording: Recording, channel: Channel, of: string): number {
  return recording.columns.findIndex((head) => head.channel === channel && head.of === of) * recording.frames;
}

/** A made-up report of a drive in which the rear wheel lifted. */
export const syntheticReport: Report = {
  mode: 'drive',
  title: 'Made-up truck over a step',
  vehicle: 'Made-up 4x4',
  mass: 6,
  cg: { x: 0.2124, z: 0.09 },
  pitchInertia: 0.2,
  wheels: [
    {
      id: 'front',
      axle: 1,
      count: 2,
      load: 19.6,
      loadPerWheel: 9.8,
      travel: 0.0031,
      leastLoad: 12.3,
      greatestLoad: 27.4,
      timeOff: 0,
    },
    {
      id: 'rear, twin',
      axle: 2,
      count: 4,
      load: 39.2,
      loadPerWheel: 9.8,
      travel: 0.0052,
      leastLoad: 0,
      greatestLoad: 80,
      timeOff: 0.034,
    },
  ],
  measures: [
    {
      name: 'leastLoadShare',
      title: 'Least load share',
      says: 'share',
      source: 'definition of our own',
      unit: '1',
      value: 0,
      of: 'rear, twin',
      moment: { frame: 3, time: 0.8, station: 0.412 },
    },
    {
      name: 'clearance',
      title: 'Belly clearance',
      says: 'gap',
      source: 'definition of our own',
      unit: 'm',
      value: null,
    },
    ...(
      [
        ['wheelLeastLoad', 'N', 12.3, 'front'],
        ['memberBump', 'm', 0.012, 'front beam'],
        ['memberBumpUsed', '1', 0.75, 'front beam'],
        ['memberDroop', 'm', 0.0055, 'front beam'],
      ] as const
    ).map(([name, unit, value, of]) => ({
      name,
      title: name,
      says: '',
      source: 'definition of our own',
      unit,
      value,
      of,
    })),
  ],
  events: [
    { kind: 'lift-off', wheel: 'rear, twin', time: 0.8, station: 0.41, wheelStation: 0.2 },
    { kind: 'grip-limit', wheel: 'front', time: 0.9, station: 0.45, wheelStation: 0.45 },
    { kind: 'grip-limit', wheel: 'front', time: 1.1, station: 0.5, wheelStation: 0.5 },
  ],
  verdicts: [
    {
      index: 0,
      kind: 'load-share',
      asks: 'Every wheel keeps at least 20 % of its standing load',
      pass: false,
      value: 0,
      limit: 0.2,
      unit: '1',
      shown: '0 %',
      says: 'The rear wheel falls to 0 % at station 412 mm.',
      of: 'rear, twin',
      moment: { frame: 3, time: 0.8, station: 0.412 },
    },
    {
      index: 1,
      kind: 'reaches',
      asks: 'The vehicle reaches the end',
      pass: true,
      value: 0.75,
      limit: 0.75,
      unit: 'm',
      shown: '750 mm',
      says: 'It arrives after 1.5 s.',
    },
  ],
  problems: [],
  end: { kind: 'arrived', time: 1.5, station: 0.75 },
  substep: 0.00025,
  pass: false,
};
