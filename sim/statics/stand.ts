import type { Vec2 } from '../../shared/geometry/vec.ts';
import { turn, unplace } from '../../shared/geometry/vec.ts';
import type { Standing } from '../../shared/recording.ts';
import type { Ground } from '../ground/ground.ts';
import { heightAt } from '../ground/query.ts';
import { gaugeOf } from '../mechanism/gauge.ts';
import { makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { Balance } from './balance.ts';
import { poseOf } from './chain.ts';
import { Solver } from './solve.ts';

/** How a vehicle stands at a station, or why it does not. */
export type Stand =
  | {
      readonly kind: 'stands';
      readonly standing: Standing;
      /** Grip that parking there takes (friction over normal force), 0 on the level. */
      readonly grip: number;
      /** Unknowns of the balance, for a solver that goes on from here. */
      readonly unknowns: Float64Array;
    }
  | { readonly kind: 'tips'; readonly towards: 'front' | 'rear' }
  | { readonly kind: 'slides'; readonly wants: number; readonly has: number }
  | {
      readonly kind: 'rolls';
      /** Force along the level that is left over, N: forward positive. */
      readonly force: number;
    }
  | { readonly kind: 'none'; readonly residual: number };

/** Why a vehicle does not stand, as a sentence. */
export function standWords(stand: Exclude<Stand, { kind: 'stands' }>): string {
  if (stand.kind === 'tips')
    return `it tips over towards its ${stand.towards}: its centre of gravity does not lie between its wheels`;
  if (stand.kind === 'rolls')
    return `it rolls ${stand.force > 0 ? 'forward' : 'back'}: ${Math.abs(stand.force).toPrecision(3)} N are left over`;
  if (stand.kind === 'slides')
    return `it slides: it needs a grip of ${stand.wants.toPrecision(3)} and has ${stand.has.toPrecision(3)}`;
  return 'no balance was found: springs or bars may be too soft to carry it, so that a member leaves its travel';
}

/** Chassis pitch beyond which a truck counts as tipped, rad. */
export const tipped = 1.3;
/** Horizontal force over weight that given torques may leave over: rounding of the torques that someone typed. */
const heldWithin = 1e-3;
/** Horizontal force over weight under which no brake is needed. */
const level = 1e-9;

/**
 * Sets the vehicle down at a station (m, of its reference point) and finds how it stands: loads, pose, grip. On level
 * contact its wheels roll freely, so no horizontal force is in the loads; where the ground pushes it along, its wheels
 * are locked and share the holding force in proportion to their loads. Dry friction in the suspension is let go.
 * `torques`: instead of locks, holding torques of the axle lines, N·m, forward positive; what they leave over makes it roll.
 */
export function standAt(
  mechanism: Mechanism,
  ground: Ground,
  station: number,
  torques?: readonly number[],
): Stand {
  if (torques !== undefined) return heldAt(mechanism, ground, station, torques);
  const free = new Balance(mechanism, ground, { thrust: { kind: 'none' }, sense: 0, relaxed: true });
  const start = firstGuess(mechanism, ground, station);
  const y = new Float64Array(free.count);
  y.set(start);
  const sunk = new Solver(free).sink(y, station);
  if (sunk.found && Math.abs(y[1] as number) > tipped) return tips(y);
  const sideways =
    free.wheels.reduce((sum, w) => sum + w.fx, 0) + mechanism.pulls.reduce((sum, p) => sum + p.fx, 0);
  if (sunk.found && Math.abs(sideways) < level * free.weight)
    return stands(free, y, station, sunk.residual, 0);
  return parkAt(mechanism, ground, station, sunk.found ? y : start);
}

const tips = (y: Float64Array): Stand => ({ kind: 'tips', towards: (y[1] as number) > 0 ? 'rear' : 'front' });

/** No balance; where the figures ran away, all of the weight is unbalanced. */
const none = (residual: number): Stand => ({
  kind: 'none',
  residual: Number.isFinite(residual) ? residual : 1,
});

/** As `standAt`, with holding torques. */
function heldAt(mechanism: Mechanism, ground: Ground, station: number, torques: readonly number[]): Stand {
  const held = new Balance(mechanism, ground, {
    thrust: { kind: 'given', torques },
    sense: 0,
    relaxed: true,
  });
  const y = new Float64Array(held.count);
  y.set(firstGuess(mechanism, ground, station));
  const sunk = new Solver(held).sink(y, station);
  if (!sunk.found) return none(sunk.residual);
  const force =
    held.wheels.reduce((sum, w) => sum + w.fx, 0) + mechanism.pulls.reduce((sum, p) => sum + p.fx, 0);
  const grip = Math.max(...held.wheels.map((w) => Math.abs(w.use)));
  if (Math.abs(force) > heldWithin * held.weight) return { kind: 'rolls', force };
  return stands(held, y, station, sunk.residual, grip);
}

/** As `standAt`, with locked wheels. */
function parkAt(mechanism: Mechanism, ground: Ground, station: number, guess: Float64Array): Stand {
  const held = new Balance(mechanism, ground, { thrust: { kind: 'parked' }, sense: 0, relaxed: true });
  const solver = new Solver(held);
  const y = new Float64Array(held.count);
  y.set(guess.subarray(0, held.chain.size));
  const found = solver.sink(y, station, 3000);
  if (Math.abs(y[1] as number) > tipped || (!found.found && Math.abs(y[1] as number) > 1)) return tips(y);
  if (!found.found) return none(found.residual);
  const wants = Math.abs(y[held.thrustRow] as number);
  const has = Math.min(...mechanism.wheels.map((w) => w.tyre.grip));
  if (wants > has) return { kind: 'slides', wants, has };
  return stands(held, y, station, found.residual, wants);
}

/** Freedoms of the drawing, turned with the ground under the outermost wheels and set on it. */
export function firstGuess(mechanism: Mechanism, ground: Ground, station: number): Float64Array {
  const { wheels, reference } = mechanism;
  const under = (x: number) => heightAt(ground, station + x - reference.x);
  const hubs = wheels.map((w) => w.hub.x);
  const [rear, front] = [Math.min(...hubs), Math.max(...hubs)];
  const angle = front > rear ? Math.atan2(under(front) - under(rear), front - rear) : 0;
  const reach = (w: Mechanism['wheels'][number]): number => {
    const hub: Vec2 = turn({ x: w.hub.x - reference.x, z: w.hub.z - reference.z }, angle);
    return under(reference.x + hub.x) + w.radius - hub.z;
  };
  return Float64Array.of(Math.max(...wheels.map(reach)), angle);
}

/** Reads a balanced state off as a standing. */
function stands(balance: Balance, y: Float64Array, station: number, residual: number, grip: number): Stand {
  return { kind: 'stands', standing: standingOf(balance, station, residual), grip, unknowns: y };
}

/** Poses, loads and travels of a balance that was just evaluated. */
export function standingOf(balance: Balance, station: number, residual: number): Standing {
  const { mechanism, chain, state } = balance;
  const poses = mechanism.bodies.map((_, i) => poseOf(chain, state, i));
  const k = makeKinematics(poses.length);
  poses.forEach((pose, i) => {
    setPose(k, mechanism, i, pose);
  });
  const chassis = poses[0] ?? { x: 0, z: 0, angle: 0 };
  const read = (coordinate: Parameters<typeof gaugeOf>[0]): number => {
    const gauge = gaugeOf(coordinate, mechanism);
    gauge.read(k);
    return gauge.x;
  };
  return {
    poses,
    loads: balance.wheels.map((w) => w.fz),
    travels: mechanism.wheels.map((w) => {
      const i = chain.last[w.body] as number;
      const c = state.cos[i] as number;
      const s = state.sin[i] as number;
      const hub = {
        x: (state.x[i] as number) + c * w.hub.x - s * w.hub.z,
        z: (state.z[i] as number) + s * w.hub.x + c * w.hub.z,
      };
      return unplace(chassis, hub).z - w.hub.z;
    }),
    station,
    pitch: chassis.angle,
    motions: mechanism.members.map((m) => (m.coordinate === undefined ? 0 : read(m.coordinate))),
    stored: mechanism.elements.reduce((sum, e) => {
      const x = read(e.coordinate);
      const memory = new Float64Array(e.law.memory);
      e.law.rest?.(x, memory);
      return sum + e.count * e.law.energy(x, memory);
    }, 0),
    residual,
  };
}
