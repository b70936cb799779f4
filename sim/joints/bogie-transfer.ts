import { type Pose, place } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Twist, turningOf, twistAt } from './twists.ts';

/** What the drive does at one axle line: the ground's force along the contact, N in world axes, and the drive torque, N·m. */
export interface Driven {
  readonly fx: number;
  readonly fz: number;
  /** Forward positive. */
  readonly torque: number;
}

/** A vehicle that pulls: where its bodies are, and what the drive does at each axle line. */
export interface Pulling {
  readonly poses: readonly Pose[];
  readonly drives: readonly Driven[];
}

/** One end of a bogie: its axle lines, by index, and how much more they carry together because of the drive, N. */
export interface BogieEnd {
  readonly wheels: readonly number[];
  readonly change: number;
}

/** How drive torque and pivot height move load within a bogie. */
export interface BogieTransfer {
  /** Name of the beam. */
  readonly name: string;
  readonly front: BogieEnd;
  readonly rear: BogieEnd;
  /** Forward part of the pull of all its wheels, N. */
  readonly pull: number;
  /** Height of the pivot in the drawing, and that at which the drive would move no load, m; absent without a pull. */
  readonly pivot: number;
  readonly cancelAt?: number;
  /** Both over the mean height of the drawn hubs, m. */
  readonly aboveHubs: number;
  readonly cancelAboveHubs?: number;
}

/**
 * The change of wheel loads within every beam that rocks with driven wheels at its two ends, as far as it follows from
 * the drive: from the pull at the contacts, from the torque on the bodies that take its reaction, and from the height of
 * the pivot. Virtual work of a small turn of the beam on the standing chassis, with its rods holding their lengths:
 *   ΔN_front·(ż_front − ż_rear) = −Σ (F·ṗ_hub + T·Σ share·θ̇),  ΔN_rear = −ΔN_front.
 * For a plain beam on level ground that is N_f − N_r = −(F_f + F_r)·(h − s·r/i)/a with the pivot h above the ground,
 * s·r/i only for a gear train in the beam, r for torque held by the chassis, nothing for torque held by the beam.
 * Source: moments of the whole bogie about its pivot. `cancel`: whether to look for the height that would cancel it. What the chassis' own pitch under the pull does is not in it.
 */
export function bogieTransfers(
  mechanism: Mechanism,
  state: Pulling,
  cancel = true,
): readonly BogieTransfer[] {
  return mechanism.joints.flatMap((_, joint) => transferOf(mechanism, joint, state, cancel) ?? []);
}

function transferOf(
  mechanism: Mechanism,
  joint: number,
  state: Pulling,
  cancel: boolean,
): BogieTransfer | undefined {
  const shift = shiftOf(mechanism, joint, state, 0);
  const beam = mechanism.joints[joint];
  if (beam === undefined || shift === undefined) return undefined;
  const { front, rear, change } = shift;
  const wheels = [...front, ...rear];
  if (!wheels.some((w) => mechanism.wheels[w]?.driven)) return undefined;
  const hubs = wheels.reduce((sum, w) => sum + (mechanism.wheels[w]?.hub.z ?? 0), 0) / wheels.length;
  const pull = wheels.reduce((sum, w) => sum + (state.drives[w]?.fx ?? 0), 0);
  const by = cancel ? cancelling(mechanism, joint, state) : undefined;
  return {
    name: mechanism.bodies[beam.child]?.name ?? '',
    front: { wheels: front, change },
    rear: { wheels: rear, change: -change },
    pull,
    pivot: beam.anchor.z,
    aboveHubs: beam.anchor.z - hubs,
    ...(by === undefined ? {} : { cancelAt: beam.anchor.z + by, cancelAboveHubs: beam.anchor.z + by - hubs }),
  };
}

/** Load that the drive moves to the front end of a beam whose pivot is drawn `raised` m higher. */
function shiftOf(
  mechanism: Mechanism,
  joint: number,
  { poses, drives }: Pulling,
  raised: number,
):
  | { readonly front: readonly number[]; readonly rear: readonly number[]; readonly change: number }
  | undefined {
  const twists = turningOf(mechanism, joint, poses, raised);
  if (twists === undefined) return undefined;
  const carried = mechanism.wheels.flatMap(({ body, hub }, w) => {
    const twist = twists[body];
    return twist === undefined ? [] : [{ w, ...twistAt(twist, place(poses[body] as Pose, hub)) }];
  });
  const front = endOf(carried.filter((c) => c.vz > 0));
  const rear = endOf(carried.filter((c) => c.vz <= 0));
  if (front === undefined || rear === undefined) return undefined;
  const work = carried.reduce((sum, { w, vx, vz }) => {
    const { fx, fz, torque } = drives[w] ?? { fx: 0, fz: 0, torque: 0 };
    return sum + fx * vx + fz * vz + torque * reacted(mechanism, w, twists);
  }, 0);
  return { front: front.wheels, rear: rear.wheels, change: -work / (front.rise - rear.rise) };
}

/** Turn rate of what takes the reaction of a wheel's torque. */
function reacted(mechanism: Mechanism, wheel: number, twists: readonly (Twist | undefined)[]): number {
  return (mechanism.wheels[wheel]?.reactions ?? []).reduce(
    (sum, { body, share }) => sum + share * (twists[body]?.w ?? 0),
    0,
  );
}

/** Wheels of one end, which have to rise alike: three in a row on one beam share their load by their tyres alone. */
function endOf(
  wheels: readonly { readonly w: number; readonly vz: number }[],
): { readonly wheels: readonly number[]; readonly rise: number } | undefined {
  const [first] = wheels;
  if (first === undefined || wheels.some(({ vz }) => Math.abs(vz - first.vz) > 1e-6 * Math.abs(first.vz)))
    return undefined;
  return { wheels: wheels.map(({ w }) => w), rise: first.vz };
}

/** How much higher the pivot has to be drawn for the drive to move no load, m: secant method, at once for a plain beam. */
function cancelling(mechanism: Mechanism, joint: number, state: Pulling): number | undefined {
  const at = (raised: number) => shiftOf(mechanism, joint, state, raised)?.change ?? Number.NaN;
  let [before, now] = [0, 0.1 * mechanism.size];
  let [was, is] = [at(before), at(now)];
  for (let n = 0; n < 40; n++) {
    const next = now - (is * (now - before)) / (is - was);
    if (!Number.isFinite(next) || Math.abs(next) > 100 * mechanism.size) return undefined;
    [before, was, now, is] = [now, is, next, at(next)];
    if (Math.abs(now - before) < 1e-9 * mechanism.size || is === 0) return now;
  }
  return undefined;
}
