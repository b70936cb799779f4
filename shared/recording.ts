import type { Pose } from './geometry/vec.ts';

/**
 * Every quantity that a run records: per what, unit, and what it is. Allocation, CSV heads, axes of charts and docs
 * read this one table.
 *
 * Station: distance along the level from the start of the ground, m. The vehicle's station is the x of its reference
 * point (vehicle.reference). A wheel's station is the x of its own contact: the load-weighted middle of its contact
 * with the ground, or of its hub while it is off the ground.
 */
export const channels = {
  time: { per: 'run', unit: 's', says: 'model time since the drive began' },
  station: { per: 'run', unit: 'm', says: "the vehicle's station: x of its reference point" },
  speed: { per: 'run', unit: 'm/s', says: 'forward speed of the reference point' },
  pitch: { per: 'run', unit: 'rad', says: 'chassis pitch, nose-up positive, against the drawn position' },
  heaveAcceleration: {
    per: 'run',
    unit: 'm/s²',
    says: 'vertical acceleration of the chassis at its centre of mass, mean since the last frame',
  },
  clearance: { per: 'run', unit: 'm', says: 'least vertical gap between belly line and ground' },
  work: { per: 'run', unit: 'J', says: 'work done by the drive since the drive began' },
  energy: {
    per: 'run',
    unit: 'J',
    says: 'kinetic, height and stored energy, against the start of the drive',
  },
  lost: { per: 'run', unit: 'J', says: 'energy lost in dampers, friction and tyres since the drive began' },
  x: { per: 'body', unit: 'm', says: "x of the body frame's origin" },
  z: { per: 'body', unit: 'm', says: "z of the body frame's origin" },
  angle: { per: 'body', unit: 'rad', says: 'turn of the body against the drawing, nose-up positive' },
  wheelStation: {
    per: 'wheel',
    unit: 'm',
    says: "the wheel's station: x of its contact, of its hub while off the ground",
  },
  load: {
    per: 'wheel',
    unit: 'N',
    says: 'what the axle line carries: vertical ground force, all its wheels together, upwards positive; 0 where friction at a face pulls it down',
  },
  normal: {
    per: 'wheel',
    unit: 'N',
    says: 'size of the ground force across the contact, all wheels of the line together',
  },
  thrust: {
    per: 'wheel',
    unit: 'N',
    says: 'ground force along the contact, forward positive, all wheels of the line together',
  },
  gripUse: { per: 'wheel', unit: '1', says: 'tangential force over what grip allows, 0 to 1' },
  torque: { per: 'wheel', unit: 'N·m', says: 'drive torque on the axle line, forward positive' },
  roll: { per: 'wheel', unit: 'rad', says: 'roll angle of the wheels, forward positive' },
  travel: {
    per: 'wheel',
    unit: 'm',
    says: 'rise of the hub in the chassis frame above its drawn place, bump positive',
  },
  depth: {
    per: 'wheel',
    unit: 'm',
    says: 'greatest depth of the ground in the tyre; 0 while off the ground',
  },
  gap: { per: 'wheel', unit: 'm', says: 'least distance of the tyre from the ground; 0 while it touches' },
  motion: {
    per: 'member',
    unit: 'm or rad',
    says: "the member's own travel coordinate, bump (or nose-up) positive",
  },
  sourceTorque: {
    per: 'source',
    unit: 'N·m',
    says: 'torque that the motors of a part give together, in the sense that drives forward',
  },
  sourceSpeed: {
    per: 'source',
    unit: 'rad/s',
    says: 'speed of a motor against its housing, in the sense that drives forward',
  },
  sourceCurrent: { per: 'metered', unit: 'A', says: 'current of ONE motor of a part' },
  unbalanced: {
    per: 'run',
    unit: '1',
    says: 'largest force that the sums over free bodies leave over, over the weight; moments by the smallest wheel radius',
    forces: true,
  },
  groundX: {
    per: 'wheel',
    unit: 'N',
    says: 'force of the ground on the axle line, all its wheels together: forward part, world axes',
    forces: true,
  },
  groundZ: { per: 'wheel', unit: 'N', says: 'the same, upward part', forces: true },
  elementTravel: {
    per: 'element',
    unit: 'm or rad',
    says: "the element's coordinate from the drawn position, bump positive",
    forces: true,
  },
  elementEffort: {
    per: 'element',
    unit: 'N or N·m',
    says: 'effort along that coordinate, all equal ones of the element together: negative where it pushes back',
    forces: true,
  },
  pinX: {
    per: 'joint',
    unit: 'N',
    says: 'force of a pin or guide on what hangs on it, without what elements put there: forward part, world axes',
    forces: true,
  },
  pinZ: { per: 'joint', unit: 'N', says: 'the same, upward part', forces: true },
  pinMoment: {
    per: 'joint',
    unit: 'N·m',
    says: 'moment of a guide on what it guides, counter-clockwise positive; 0 at a pin',
    forces: true,
  },
  rodTension: { per: 'rod', unit: 'N', says: 'force along the rod, pull positive', forces: true },
  axial: {
    per: 'beam',
    unit: 'N',
    says: 'axial force along the member where it is largest, pull positive',
    forces: true,
  },
  shear: { per: 'beam', unit: 'N', says: 'size of the largest shear force in the member', forces: true },
  bending: {
    per: 'beam',
    unit: 'N·m',
    says: 'size of the largest bending moment in the member',
    forces: true,
  },
  bendingAt: {
    per: 'beam',
    unit: 'm',
    says: "where that is: way along the member's line from its rear (or lower) end",
    forces: true,
  },
} as const satisfies Record<string, ChannelRow>;

export interface ChannelRow {
  readonly per:
    | 'run'
    | 'body'
    | 'wheel'
    | 'member'
    | 'element'
    | 'joint'
    | 'rod'
    | 'beam'
    | 'source'
    | 'metered';
  readonly unit: string;
  readonly says: string;
  /** Belongs to the forces in joints and members, which a recording has all or none of. */
  readonly forces?: true;
}

export type Channel = keyof typeof channels;

/** What happened between frames, at its interpolated time and station. */
export type RunEvent =
  | WheelEvent<'lift-off'>
  | (WheelEvent<'touch-down'> & {
      /** How long the wheel was off the ground, s. */
      readonly duration: number;
      /** Greatest distance of the tyre from the ground meanwhile, m. */
      readonly height: number;
    })
  | WheelEvent<'grip-limit'>
  | WheelEvent<'torque-limit'>
  | (EventPlace & { readonly kind: 'stop-hit'; readonly member: string; readonly side: 'bump' | 'droop' })
  | (EventPlace & { readonly kind: 'body-touch' })
  | PartEvent<'stall'>
  | PartEvent<'current-limit'>
  | PartEvent<'slip'>
  | (PartEvent<'skip'> & {
      /** Torque at its output and what it is rated for there, all equal ones together, N·m. */
      readonly torque: number;
      readonly rating: number;
    })
  | (EventPlace & { readonly kind: 'tip-over' })
  | (EventPlace & {
      readonly kind: 'snap' /** Body that moved most when the vehicle jumped to another balance. */;
      readonly of: string;
    })
  | (EventPlace & { readonly kind: 'stuck'; readonly cause: string });

/** When and where: time s, the vehicle's station m. */
export interface EventPlace {
  readonly time: number;
  readonly station: number;
}

export interface WheelEvent<K extends string> extends EventPlace {
  readonly kind: K;
  readonly wheel: string;
  /** The wheel's own station, m. */
  readonly wheelStation: number;
}

/** Something that happened to a part of the drive line. */
export interface PartEvent<K extends string> extends EventPlace {
  readonly kind: K;
  readonly part: string;
}

/** How a run ended. Frames up to the end are good in every case. */
export type RunEnd =
  | { readonly kind: 'arrived'; readonly time: number; readonly station: number }
  | { readonly kind: 'time-up'; readonly time: number; readonly station: number }
  | {
      readonly kind: 'stuck';
      readonly time: number;
      readonly station: number;
      readonly cause: string;
      /** What there was too little of, where a crawl ended for want of one of these. */
      readonly by?: 'grip' | 'torque';
    }
  | { readonly kind: 'tipped'; readonly time: number; readonly station: number }
  | {
      readonly kind: 'diverged';
      readonly time: number;
      readonly station: number;
      readonly quantity: string;
      readonly body: string;
      readonly cause: string;
    };

/** Where and how hard each wheel stood before the run. */
export interface Standing {
  /** Poses of all bodies, standing. */
  readonly poses: readonly Pose[];
  /** Vertical ground force per axle line, N, all wheels of it together. */
  readonly loads: readonly number[];
  /** Rise of each hub in the chassis frame above its drawn place, m. */
  readonly travels: readonly number[];
  /** The vehicle's station, m, and chassis pitch, rad nose-up. */
  readonly station: number;
  readonly pitch: number;
  /** Member coordinates, m or rad. */
  readonly motions: readonly number[];
  /** Energy stored in springs and bars, J. */
  readonly stored: number;
  /** Largest unbalanced force over the weight when the search ended. */
  readonly residual: number;
}

/** Names of everything that a recording may have columns for. */
export interface RecordedNames {
  readonly bodies: readonly string[];
  readonly wheels: readonly string[];
  readonly members: readonly string[];
  readonly elements: readonly string[];
  /** Pins and guides: the mechanism's joints without those of free bodies. */
  readonly joints: readonly string[];
  readonly rods: readonly string[];
  /** Members that have a line to bend: arms, beams, the uprights of axles on rods. */
  readonly beams: readonly string[];
  /** Motors of the drive line, part by part, and those of them whose current is known; none without a drive line. */
  readonly sources?: readonly string[];
  readonly metered?: readonly string[];
}

/** The frames of one run. One block, column after column: column c of frame f is block[c · frames + f]. */
export interface Recording extends RecordedNames {
  /** Driven in time, or crossed in balance from station to station. */
  readonly mode: 'drive' | 'crawl';
  readonly frames: number;
  /** Frames per second of model time. */
  readonly rate: number;
  /** Substep of the engine, s, and where it came from. */
  readonly substep: number;
  readonly substepSays: string;
  readonly block: Float64Array;
  /** Column heads in the order of the block. Forces in joints and members may have been left out. */
  readonly columns: readonly { readonly channel: Channel; readonly index: number; readonly of: string }[];
  readonly standing: Standing;
  readonly events: readonly RunEvent[];
  readonly end: RunEnd;
}

/** Names along which a channel has its columns; `run` channels have one. */
function namesAlong(names: RecordedNames, per: ChannelRow['per']): readonly string[] {
  const lists: Record<ChannelRow['per'], readonly string[]> = {
    run: ['run'],
    body: names.bodies,
    wheel: names.wheels,
    member: names.members,
    element: names.elements,
    joint: names.joints,
    rod: names.rods,
    beam: names.beams,
    source: names.sources ?? [],
    metered: names.metered ?? [],
  };
  return lists[per];
}

/**
 * Column heads for these names, in block order: channel after channel, each over its names.
 * @param forces whether the forces in joints and members are recorded too
 */
export function columnHeads(names: RecordedNames, forces = true): Recording['columns'] {
  return (Object.keys(channels) as Channel[]).flatMap((channel) => {
    const row: ChannelRow = channels[channel];
    if (row.forces === true && !forces) return [];
    return namesAlong(names, row.per).map((of, index) => ({ channel, index, of }));
  });
}

/** Whether a recording has columns of a channel. */
export function hasChannel(recording: Pick<Recording, 'columns'>, channel: Channel): boolean {
  return recording.columns.some((head) => head.channel === channel);
}

/**
 * One column of a recording: a view, not a copy; length `frames`.
 * @throws RangeError if the recording has no such column.
 */
export function column(recording: Recording, channel: Channel, index = 0): Float64Array {
  const at = recording.columns.findIndex((head) => head.channel === channel && head.index === index);
  if (at < 0) throw new RangeError(`no column ${channel}[${index}] in this recording`);
  return recording.block.subarray(at * recording.frames, (at + 1) * recording.frames);
}

/** Pose of a body in a frame. */
export function poseAt(recording: Recording, body: number, frame: number): Pose {
  return {
    x: column(recording, 'x', body)[frame] ?? 0,
    z: column(recording, 'z', body)[frame] ?? 0,
    angle: column(recording, 'angle', body)[frame] ?? 0,
  };
}
