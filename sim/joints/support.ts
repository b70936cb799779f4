import { place } from '../../shared/geometry/vec.ts';
import { column, hasChannel, poseAt, type Recording } from '../../shared/recording.ts';
import { gaugeOf } from '../mechanism/gauge.ts';
import { type Kinematics, makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { pullingInFrame } from './pulling.ts';
import { type Twist, travellingOf, twistAt } from './twists.ts';

/** What puts a part of its load on an axle line, N; all parts of a frame sum to the load. */
export interface Support {
  /**
   * `element`: a spring, bar, damper, friction or stop; `wheel`: another axle line on the same member; `drive`: pull and
   * drive torque; `weight`: of what the member carries; `rest`: inertia, and what else was not looked at.
   */
  readonly kind: 'element' | 'wheel' | 'drive' | 'weight' | 'rest';
  /** Index of the element or the wheel; −1 for the others. */
  readonly index: number;
  /** N, positive where it presses the axle line down. */
  readonly load: number;
}

/**
 * Takes the load of an axle line in a frame apart: virtual work of a small travel of the member that carries it, while
 * what that hangs on stands still. With v the velocities of that travel, 0 = Σ F·v + Σ T·ω over everything that acts, so
 * the axle line's own load is −(the sum of all others) / v_z of its hub.
 * Source: principle of virtual work.
 * @returns undefined for a recording without these forces, or a wheel on the chassis itself
 */
export function supportsOf(
  mechanism: Mechanism,
  recording: Recording,
  wheel: number,
  frame: number,
): readonly Support[] | undefined {
  const pulling = hasChannel(recording, 'elementEffort') ? pullingInFrame(recording, frame) : undefined;
  if (pulling === undefined) return undefined;
  const poses = mechanism.bodies.map((_, b) => poseAt(recording, b, frame));
  const moving = travelUnder(mechanism, wheel, poses);
  if (moving === undefined) return undefined;
  const hub = (w: number) => {
    const line = mechanism.wheels[w];
    const twist = moving[line?.body ?? -1];
    if (line === undefined || twist === undefined) return undefined;
    return twistAt(twist, place(poses[line.body] ?? { x: 0, z: 0, angle: 0 }, line.hub));
  };
  const rise = hub(wheel)?.vz ?? 0;
  const parts: Support[] = [];
  const put = (kind: Support['kind'], index: number, work: number): void => {
    if (work !== 0) parts.push({ kind, index, load: -work / rise });
  };
  const ground = (channel: 'groundX' | 'groundZ', w: number) => column(recording, channel, w)[frame] ?? 0;
  let drive = 0;
  mechanism.wheels.forEach(({ reactions }, w) => {
    const v = hub(w);
    const { fx, fz, torque } = pulling.drives[w] ?? { fx: 0, fz: 0, torque: 0 };
    drive += torque * reactions.reduce((sum, r) => sum + r.share * (moving[r.body]?.w ?? 0), 0);
    if (v === undefined) return;
    drive += fx * v.vx + (w === wheel ? 0 : fz * v.vz);
    // of the line itself only what is not its load: the push of a slope or a step from ahead
    if (w === wheel) put('rest', -1, (ground('groundX', w) - fx) * v.vx);
    else put('wheel', w, (ground('groundX', w) - fx) * v.vx + (ground('groundZ', w) - fz) * v.vz);
  });
  put('drive', -1, drive);
  const k = inMotion(mechanism, poses, moving);
  mechanism.elements.forEach(({ coordinate }, e) => {
    const gauge = gaugeOf(coordinate, mechanism);
    gauge.read(k);
    put('element', e, gauge.rate * (column(recording, 'elementEffort', e)[frame] ?? 0));
  });
  const { gravity, bodies } = mechanism;
  put('weight', -1, -bodies.reduce((sum, { mass }, b) => sum + mass * gravity * (k.vz[b] ?? 0), 0));
  const told = parts.reduce((sum, part) => sum + part.load, 0);
  return [...parts, { kind: 'rest', index: -1, load: ground('groundZ', wheel) - told }];
}

/** The travel of the nearest member that lets an axle line rise; undefined when only the chassis does. */
function travelUnder(
  mechanism: Mechanism,
  wheel: number,
  poses: Parameters<typeof travellingOf>[2],
): readonly (Twist | undefined)[] | undefined {
  const line = mechanism.wheels[wheel];
  for (let body = line?.body ?? 0; body > 0; body = mechanism.bodies[body]?.parent ?? 0) {
    const joint = mechanism.joints.findIndex(({ child }) => child === body);
    const moving = travellingOf(mechanism, joint, poses);
    const twist = moving?.[line?.body ?? -1];
    if (line === undefined || twist === undefined) continue;
    const at = place(poses[line.body] ?? { x: 0, z: 0, angle: 0 }, line.hub);
    const { vx, vz } = twistAt(twist, at);
    // a hinge at the hub itself turns the housing and lifts nothing
    if (Math.abs(vz) > 1e-3 * (Math.abs(vx) + Math.abs(twist.w) * mechanism.size) && vz !== 0) return moving;
  }
  return undefined;
}

/** Kinematics of all bodies where they are, moving as told; others stand still. */
function inMotion(
  mechanism: Mechanism,
  poses: Parameters<typeof travellingOf>[2],
  moving: readonly (Twist | undefined)[],
): Kinematics {
  const k = makeKinematics(mechanism.bodies.length);
  poses.forEach((pose, b) => {
    setPose(k, mechanism, b, pose);
    const twist = moving[b];
    if (twist === undefined) return;
    const { vx, vz } = twistAt(twist, { x: k.cx[b] ?? 0, z: k.cz[b] ?? 0 });
    k.vx[b] = vx;
    k.vz[b] = vz;
    k.spin[b] = twist.w;
  });
  return k;
}
