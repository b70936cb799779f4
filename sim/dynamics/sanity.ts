import type { RunEnd } from '../../shared/recording.ts';
import type { Plant } from './plant.ts';

type Diverged = Extract<RunEnd, { kind: 'diverged' }>;

/** Gap of a joint over the wheel radius at which the linkage has come apart. */
const widestGap = 0.02;

/** Checks that the state may be shown; the first thing that is wrong, or undefined. `time` s. */
export function findDivergence(plant: Plant, time: number, targetSpeed: number): Diverged | undefined {
  const { k, mechanism } = plant;
  const station = plant.reference().x;
  const end = (quantity: string, body: string, cause: string): Diverged => ({
    kind: 'diverged',
    time,
    station: Number.isFinite(station) ? station : 0,
    quantity,
    body,
    cause,
  });
  const fastest = 50 * Math.sqrt(mechanism.gravity * mechanism.size) + 10 * Math.abs(targetSpeed);
  for (const [i, body] of mechanism.bodies.entries()) {
    const state =
      (k.cx[i] as number) +
      (k.cz[i] as number) +
      (k.angle[i] as number) +
      (k.vx[i] as number) +
      (k.vz[i] as number) +
      (k.spin[i] as number);
    if (!Number.isFinite(state))
      return end(
        'position',
        body.name,
        'a force grew without bound: a stiffness or damping is too high for the substep; try a shorter run.substep',
      );
    const speed = Math.hypot(k.vx[i] as number, k.vz[i] as number);
    if (speed > fastest)
      return end(
        'speed',
        body.name,
        `moves at ${speed.toPrecision(3)} m/s: a spring or stop throws it; check rates and preloads, or try a shorter run.substep`,
      );
  }
  for (const { line, wheel } of plant.wheels) {
    if (line.z - 0.02 * wheel.radius < lowestUnder(plant, line.x)) {
      return end(
        'tyre depth',
        wheel.name,
        'the hub has reached the ground: the tyre is too soft for this load, or the speed too high for this obstacle',
      );
    }
  }
  const worst = plant.world.worstGap(mechanism);
  if (worst.gap > widestGap * mechanism.size)
    return end(
      'joint gap',
      worst.name,
      `the joint stands open by ${(worst.gap * 1e3).toPrecision(3)} mm: the loop may be at the end of its reach; check rod lengths and stops`,
    );
  return undefined;
}

/** Lowest ground just around a station: a hub below it has gone through the ground. */
function lowestUnder({ ground }: Plant, x: number): number {
  let low = 0;
  let high = ground.count - 1;
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if ((ground.x[middle] as number) <= x) low = middle;
    else high = middle;
  }
  return Math.min(ground.z[low] as number, ground.z[high] as number);
}
