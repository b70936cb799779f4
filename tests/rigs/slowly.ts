/*
 * A vehicle taken over its ground slowly by planck, for comparison with its balance station by station. What moves it is
 * a hand that follows a given station as a critically damped spring: it pulls at the reference point
 * (`towed`), or it looks at the centre of gravity and says how much thrust the driven wheels are to give, each the same torque (`equal-torque`), or each
 * torque in proportion to what it carries (`locked`). planck's own drive holds every axle to a speed; how it shares the
 * torque then follows from the speeds of the hubs and from winding up, and no balance of forces knows those.
 */
import { type Command, Plant } from '../../sim/dynamics/plant.ts';
import { settle } from '../../sim/dynamics/settle.ts';
import { chooseSubstep } from '../../sim/dynamics/substep.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import { makeLoads } from '../../sim/mechanism/kinematics.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Passage } from './passage.ts';

export type Moved = 'towed' | 'equal-torque' | 'locked';

/** Springiness of the hand: times the weight per wheel radius. */
const grasp = 5;

/** Takes the vehicle from one station to another at `speed` m/s and samples about every `every` m. */
export function slowly(
  mechanism: Mechanism,
  ground: Ground,
  from: number,
  until: number,
  how: Moved,
  speed: number,
  every: number,
): Pick<Passage, 'stations' | 'loads'> {
  // torque limits are set from substep to substep, so the wheels are copies of our own
  const wheels = mechanism.wheels.map((w) => ({ ...w, torqueLimit: 1 }));
  const { plant: settled, standing } = settle({ ...mechanism, wheels }, ground, from);
  const plant = new Plant(settled.mechanism, ground, standing.poses);
  const { h } = chooseSubstep(mechanism, 240, undefined);
  const sense = Math.sign(until - from);
  const stiffness = (grasp * mechanism.mass * mechanism.gravity) / mechanism.size;
  const damping = 2 * Math.sqrt(stiffness * mechanism.mass);
  const hand = makeLoads(mechanism.bodies.length);
  const passage: { stations: number[]; loads: number[][] } = { stations: [], loads: [] };
  const end = (1.02 * Math.abs(until - from)) / speed;
  const start = middleOf(plant).x;
  let next = 0;
  for (let n = 0; n * h < end; n++) {
    const { x, z, speed: pace } = referenceOf(plant);
    const on = sense * speed * n * h;
    if (sense * (x - until) > 0) break;
    const { x: middle, speed: drift } = middleOf(plant);
    const force =
      how === 'towed'
        ? stiffness * (from + on - x) + damping * (sense * speed - pace)
        : stiffness * (start + on - middle) + damping * (sense * speed - drift);
    plant.evaluate(h, how === 'towed' ? rolling : thrusting(plant, how, force));
    if (sense * (x - from) >= next) {
      passage.stations.push(x);
      passage.loads.push(plant.wheels.map((w) => Math.max(0, w.line.fz)));
      next += every;
    }
    if (how === 'towed') {
      hand.fx[0] = force;
      hand.torque[0] = -force * (z - (plant.k.cz[0] as number));
      plant.world.apply(hand);
    }
    plant.move(h);
  }
  return passage;
}

const rolling: Command = { kind: 'drive', speed: 0, gain: 0 };
/** A regulator so soft that it does not feel the wheels' own speeds. */
const soft = 1e-7;

/** Place of the reference point, m, and its forward speed, m/s. */
function referenceOf({ k, mechanism: { reference } }: Plant): { x: number; z: number; speed: number } {
  const [c, s] = [k.cos[0] as number, k.sin[0] as number];
  const x = (k.x[0] as number) + c * reference.x - s * reference.z;
  const z = (k.z[0] as number) + s * reference.x + c * reference.z;
  return { x, z, speed: (k.vx[0] as number) - (k.spin[0] as number) * (z - (k.cz[0] as number)) };
}

/** Place of the whole vehicle's centre of gravity, m, and its speed, m/s: what thrust moves whatever turns meanwhile. */
function middleOf({ k, mechanism: { bodies, mass } }: Plant): { x: number; speed: number } {
  const mean = (of: Float64Array) => bodies.reduce((sum, b, i) => sum + b.mass * (of[i] as number), 0) / mass;
  return { x: mean(k.cx), speed: mean(k.vx) };
}

/** Command under which the driven wheels give this thrust together, N, as they last stood on the ground. */
function thrusting(plant: Plant, how: Moved, thrust: number): Command {
  const driven = plant.wheels.filter((w) => w.wheel.driven);
  const radius = driven[0]?.wheel.radius ?? 1;
  // what a line takes of the torque: the same for all, or its arm Σ N·lever
  const share = (w: (typeof driven)[number]) => {
    if (how === 'equal-torque') return radius / driven.length;
    const touch = w.line.touch;
    let moment = 0;
    for (let row = 0; row < touch.count; row++)
      moment += w.wheel.tyre.foundation * (touch.moment[row] as number);
    return moment / (plant.mechanism.mass * plant.mechanism.gravity);
  };
  for (const w of driven) (w.wheel as { torqueLimit: number }).torqueLimit = Math.max(1e-12, 1e6 * share(w));
  return { kind: 'drive', speed: (thrust * radius) / (1e6 * soft), gain: soft };
}
