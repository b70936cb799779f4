import type { Pose } from '../../shared/geometry/vec.ts';
import { turn } from '../../shared/geometry/vec.ts';
import type { Standing } from '../../shared/recording.ts';
import type { Ground } from '../ground/ground.ts';
import { heightAt } from '../ground/query.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { standAt } from '../statics/stand.ts';
import { distanceToGround } from '../tyre/touch.ts';
import { modesOf } from './modes.ts';
import { type Command, Plant } from './plant.ts';
import { stiffestMotion } from './substep.ts';

/** How a vehicle was set down. */
export interface Settled {
  readonly plant: Plant;
  readonly standing: Standing;
}

/** Unbalanced force over weight at which the vehicle counts as standing: 1000 times under the 0.1 % that we promise. */
const balanced = 1e-8;
/** Longest set-down, in periods of the slowest motion. */
const longest = 60;
/** Most substeps of a set-down: four times what any vehicle that ships takes. Very stiff and very soft parts together would take days. */
const mostSubsteps = 200_000;

/**
 * Sets the vehicle down at a station (m, of its reference point): no speed, no dry friction in the suspension, every
 * body slowed at twice the lowest natural frequency, which is the fastest way to rest for the slowest motion. On level
 * ground the wheels roll freely, so no horizontal force is left in the loads; where the ground slopes a second stage
 * parks it with locked wheels.
 */
export function settle(mechanism: Mechanism, ground: Ground, station: number): Settled {
  const weight = mechanism.mass * mechanism.gravity;
  const hold = weight / mechanism.size;
  const modes = modesOf(mechanism, 'standing', hold);
  const lowest =
    modes.frequencies.find((w) => w > 0.05 * Math.sqrt(mechanism.gravity / mechanism.size)) ??
    Math.sqrt(mechanism.gravity / mechanism.size);
  const h = 0.25 / Math.max(stiffestMotion(mechanism).frequency, modes.frequencies.at(-1) ?? 0);
  const plant = new Plant(mechanism, ground, firstPoses(mechanism, ground, station));
  const settling: Command = {
    kind: 'settle',
    drag: 2 * lowest,
    hold: { stiffness: hold, x: plant.k.cx[0] as number },
  };
  const most = Math.min(mostSubsteps, Math.ceil((longest * 2 * Math.PI) / (lowest * h)));
  let residual = rest(plant, h, settling, most);
  if (Math.abs(plant.held) > 1e-6 * weight) {
    plant.held = 0;
    residual = rest(plant, h, { kind: 'park', drag: 2 * lowest }, most);
  }
  return { plant, standing: Number.isFinite(residual) ? standingOf(plant, residual) : unsettled(plant) };
}

/**
 * Puts the vehicle where a drive begins: in the equilibrium that statics finds there, which is the answer that `stand`
 * gives too. On a slope it is then parked for a moment, so that friction takes hold; its wheels may share that friction a
 * little differently from the equilibrium, since how locked wheels share it depends on how they came there. Where statics
 * finds no equilibrium the vehicle is let sink by itself.
 */
export function setDown(mechanism: Mechanism, ground: Ground, station: number): Settled {
  const stood = standAt(mechanism, ground, station);
  if (stood.kind !== 'stands') return settle(mechanism, ground, station);
  const plant = new Plant(mechanism, ground, stood.standing.poses);
  const h = 0.25 / stiffestMotion(mechanism).frequency;
  const drag = 2 * Math.sqrt(mechanism.gravity / mechanism.size);
  // lets dry friction take the pose that it finds
  plant.evaluate(h, { kind: 'settle', drag, hold: { stiffness: 0, x: 0 } });
  if (stood.grip > 0)
    rest(plant, h, { kind: 'park', drag }, Math.min(mostSubsteps, Math.ceil(longest / (drag * h))));
  return { plant, standing: stood.standing };
}

/**
 * Substeps until nothing moves and forces balance; returns the unbalanced force over the weight, NaN when the figures
 * ran away.
 */
function rest(plant: Plant, h: number, command: Command, most: number): number {
  const { mass, gravity, size } = plant.mechanism;
  const still = 1e-18 * mass * gravity * size;
  for (let n = 0; n < most; n++) {
    plant.substep(h, command);
    if (n % 16 !== 0) continue;
    const kinetic = plant.kinetic();
    if (!Number.isFinite(kinetic)) break;
    if (kinetic < still && plant.unbalance() < balanced * mass * gravity) break;
  }
  return Number.isFinite(plant.kinetic()) ? plant.unbalance() / (mass * gravity) : Number.NaN;
}

/** What to say of a vehicle whose figures ran away while it was set down: it carries nothing, and all is unbalanced. */
function unsettled({ mechanism }: Plant): Standing {
  const nothing = (list: readonly unknown[]) => list.map(() => 0);
  return {
    poses: mechanism.bodies.map(() => ({ x: 0, z: 0, angle: 0 })),
    loads: nothing(mechanism.wheels),
    travels: nothing(mechanism.wheels),
    station: mechanism.reference.x,
    pitch: 0,
    motions: nothing(mechanism.members),
    stored: 0,
    residual: 1,
  };
}

/**
 * Poses to begin with: the drawing, turned with the ground under the outermost wheels and lowered until the first tyre
 * is about to touch.
 */
function firstPoses(mechanism: Mechanism, ground: Ground, station: number): Pose[] {
  const { wheels, reference } = mechanism;
  const hubs = wheels.map((w) => w.hub.x);
  const [rear, front] = [Math.min(...hubs), Math.max(...hubs)];
  const under = (x: number) => heightAt(ground, station + x - reference.x);
  const angle = front > rear ? Math.atan2(under(front) - under(rear), front - rear) : 0;
  const lift = (z: number) =>
    Math.min(
      ...wheels.map((w) => {
        const hub = turn({ x: w.hub.x - reference.x, z: w.hub.z - reference.z }, angle);
        return clearHeight(ground, station + hub.x, z + hub.z, w.radius);
      }),
    );
  // high above everything, then straight down by the least clear height
  const top =
    Math.max(...wheels.map((w) => under(w.hub.x))) +
    (front - rear) +
    4 * mechanism.size +
    Math.abs(reference.z);
  const z = top - lift(top);
  const origin = turn({ x: -reference.x, z: -reference.z }, angle);
  return mechanism.bodies.map(() => ({ x: station + origin.x, z: z + origin.z, angle }));
}

/** How far a wheel at (x, z) may be lowered straight down until it meets the ground, m. */
function clearHeight(ground: Ground, x: number, z: number, radius: number): number {
  let low = 0;
  let high = z - heightAt(ground, x) + radius;
  for (let n = 0; n < 60; n++) {
    const middle = 0.5 * (low + high);
    if (touches(ground, x, z - middle, radius)) high = middle;
    else low = middle;
  }
  return low;
}

/** Whether a wheel with its hub at (x, z) meets the ground. */
function touches(ground: Ground, x: number, z: number, radius: number): boolean {
  return z <= heightAt(ground, x) || distanceToGround(ground, x, z, 2 * radius) < radius;
}

/** Reads off how the vehicle stands. */
function standingOf(plant: Plant, residual: number): Standing {
  const { k } = plant;
  return {
    poses: plant.world.poses(),
    loads: plant.wheels.map((w) => w.line.fz),
    travels: plant.wheels.map((w) => hubTravel(plant, w.wheel.body, w.wheel.hub.x, w.wheel.hub.z)),
    station: plant.reference().x,
    pitch: k.angle[0] as number,
    motions: plant.members.map((gauge) => {
      gauge?.read(k);
      return gauge?.x ?? 0;
    }),
    stored: plant.storedInElements(),
    residual,
  };
}

/** Rise of a drawn point of a body in the chassis frame above its drawn place, m. */
export function hubTravel({ k }: Plant, body: number, x: number, z: number): number {
  const c = k.cos[body] as number;
  const s = k.sin[body] as number;
  const wx = (k.x[body] as number) + c * x - s * z - (k.x[0] as number);
  const wz = (k.z[body] as number) + s * x + c * z - (k.z[0] as number);
  return -(k.sin[0] as number) * wx + (k.cos[0] as number) * wz - z;
}
