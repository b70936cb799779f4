import {
  type Channel,
  channels,
  columnHeads,
  type Recording,
  type RunEnd,
  type RunEvent,
  type Standing,
} from '../../../shared/recording.ts';
import type { Body, Mechanism, Member, Rod, Wheel } from '../../../sim/mechanism/mechanism.ts';

/** An axle line of an invented truck: two wheels, figures that reports do not read are plain. */
export function wheelOf(
  name: string,
  axle: number,
  body: number,
  x: number,
  more: Partial<Wheel> = {},
): Wheel {
  return {
    name,
    axle,
    count: 2,
    body,
    hub: { x, z: 0.055 },
    radius: 0.055,
    mass: 0.3,
    inertia: 4.5e-4,
    tyre: {
      foundation: 1e5,
      damping: 0.5,
      grip: 0.8,
      rolling: 0.015,
      shearStiffness: 8000,
      shearDamping: 10,
    },
    reactions: [{ body, share: 1 }],
    driven: true,
    torqueLimit: 1,
    ...more,
  };
}

export function bodyOf(name: string, parent: number, more: Partial<Body> = {}): Body {
  return { name, parent, mass: 1, centre: { x: 0, z: 0.1 }, inertia: 0.01, ...more };
}

export function memberOf(name: string, body: number, more: Partial<Member> = {}): Member {
  return {
    name,
    kind: 'bogie-beam',
    body,
    unit: 'rad',
    coordinate: { kind: 'joint', joint: 0 },
    lines: [],
    pins: [],
    ...more,
  };
}

export function rodOf(name: string, a: number, b: number): Rod {
  return { name, a: { body: a, at: { x: 0, z: 0 } }, b: { body: b, at: { x: 1, z: 0 } }, length: 1 };
}

/** A six-wheeler: sprung front axle (20 mm bump, 15 mm droop), rear beam (0.3 rad each way) with two axle lines. */
export function truck(more: Partial<Mechanism> = {}): Mechanism {
  return {
    gravity: 9.81,
    root: 'free',
    bodies: [bodyOf('chassis', -1, { mass: 4 }), bodyOf('front axle', 0), bodyOf('rear beam', 0)],
    joints: [],
    rods: [],
    elements: [],
    wheels: [wheelOf('front', 1, 1, 0.2), wheelOf('middle', 2, 2, -0.065), wheelOf('rear', 3, 2, -0.195)],
    members: [
      memberOf('front axle', 1, { kind: 'guided-axle', unit: 'm', bump: 0.02, droop: 0.015 }),
      memberOf('rear beam', 2, { bump: 0.3, droop: 0.3 }),
    ],
    drive: { speed: 0.5, acceleration: 0.5, share: { kind: 'locked', branches: [] } },
    pulls: [],
    outlines: [],
    belly: {
      body: 0,
      points: [
        { x: -0.1, z: 0.06 },
        { x: 0.1, z: 0.06 },
      ],
    },
    reference: { x: 0, z: 0 },
    mass: 6,
    cg: { x: 0, z: 0.1 },
    size: 0.055,
    ...more,
  };
}

/** What a channel holds: a number throughout, or a function of time, index and frame. */
type Fill = number | ((time: number, index: number, frame: number) => number);

export interface Written {
  readonly frames?: number;
  readonly rate?: number;
  readonly fill?: Partial<Record<Channel, Fill>>;
  readonly events?: readonly RunEvent[];
  readonly end?: RunEnd;
  readonly standing?: Partial<Standing>;
}

/**
 * A recording written by hand. By default it rolls at 0.5 m/s on flat ground for 240 frames at 240 per second, every
 * axle line carries its standing load of 20 N and nothing else happens; wheel stations are the vehicle's plus the
 * hub's place.
 */
export function recordingOf(
  mechanism: Mechanism,
  { frames = 240, rate = 240, fill = {}, events = [], end, standing = {} }: Written = {},
): Recording {
  const names = {
    bodies: mechanism.bodies.map((b) => b.name),
    wheels: mechanism.wheels.map((w) => w.name),
    members: mechanism.members.map((m) => m.name),
    elements: mechanism.elements.map((e) => e.name),
    joints: [],
    rods: mechanism.rods.map((r) => r.name),
    beams: [],
  };
  const usual: Partial<Record<Channel, Fill>> = {
    time: (t) => t,
    station: (t) => 0.5 * t,
    speed: 0.5,
    clearance: 0.05,
    wheelStation: (t, index) => 0.5 * t + (mechanism.wheels[index]?.hub.x ?? 0),
    load: 20,
    normal: 20,
  };
  const columns = columnHeads(names);
  const block = new Float64Array(columns.length * frames);
  columns.forEach(({ channel, index }, c) => {
    const value = fill[channel] ?? usual[channel] ?? 0;
    for (let f = 0; f < frames; f++)
      block[c * frames + f] = typeof value === 'number' ? value : value(f / rate, index, f);
  });
  const last = (frames - 1) / rate;
  return {
    mode: 'drive',
    frames,
    rate,
    substep: 0.0005,
    substepSays: 'written by hand',
    block,
    columns,
    ...names,
    standing: {
      poses: names.bodies.map(() => ({ x: 0, z: 0, angle: 0 })),
      loads: names.wheels.map(() => 20),
      travels: names.wheels.map(() => 0),
      motions: names.members.map(() => 0),
      station: 0,
      pitch: 0,
      stored: 0.1,
      residual: 1e-12,
      ...standing,
    },
    events,
    end: end ?? { kind: 'arrived', time: last, station: 0.5 * last },
  };
}

/** Channels that are in a recording, for tests that fill them all. */
export const channelNames = Object.keys(channels) as readonly Channel[];

/** A lift-off and its touch-down of one wheel at 0.5 m/s, the wheel `offset` ahead of the reference point. */
export function hop(wheel: string, from: number, duration: number, offset = 0): readonly RunEvent[] {
  const place = (time: number) => ({ time, station: 0.5 * time, wheel, wheelStation: 0.5 * time + offset });
  return [
    { kind: 'lift-off', ...place(from) },
    { kind: 'touch-down', ...place(from + duration), duration, height: 0.004 },
  ];
}
