import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { Balance } from './balance.ts';
import { solveInPlace } from './lu.ts';

/** A joint that is to stand at a given coordinate (m or rad). */
export interface Target {
  readonly joint: number;
  readonly at: number;
}

/** Level ground for a vehicle on the bench. */
const bench: Ground = {
  x: Float64Array.of(-1e6, 1e6),
  z: Float64Array.of(0, 0),
  count: 2,
  from: 0,
  to: 1,
  pieces: [],
};

/**
 * Efforts (N or N·m, along the joints' coordinates, besides those of the mechanism's own elements) that make the vehicle
 * stand on level ground with the given joints at their targets; one per target. The balance is solved with these
 * coordinates held and their efforts unknown instead. Undefined when no such balance is found.
 */
export function effortsFor(mechanism: Mechanism, targets: readonly Target[]): number[] | undefined {
  const balance = new Balance(mechanism, bench, { thrust: { kind: 'none' }, sense: 0, relaxed: true });
  const { chain, count } = balance;
  const held = targets.map((t) => chain.ofJoint[t.joint] as number);
  const y = new Float64Array(count);
  const efforts = new Float64Array(targets.length);
  y[0] = mechanism.reference.z;
  held.forEach((freedom, t) => {
    y[freedom] = targets[t]?.at ?? 0;
  });
  const matrix = new Float64Array(count * count);
  const step = new Float64Array(count);
  let pace = 0.01;
  let before = Number.POSITIVE_INFINITY;
  for (let n = 0; n < 400; n++) {
    balance.evaluate(y, 0);
    held.forEach((freedom, t) => {
      balance.residual[freedom] = (balance.residual[freedom] as number) + (efforts[t] as number);
    });
    const residual = balance.worst();
    if (!Number.isFinite(residual)) return undefined;
    if (residual < 1e-9) return [...efforts];
    pace = Math.min(1e9, Math.max(1e-4, pace * Math.min(3, before / residual)));
    before = residual;
    matrix.set(balance.tangent);
    for (let i = 0; i < count; i++) step[i] = -(balance.residual[i] as number);
    // the other freedoms sink as in oil (see Solver.sink); a held one gives its column to its effort
    for (let i = 0; i < chain.size; i++) {
      const oil = chain.turns[i] ? balance.weight * mechanism.size : balance.weight / mechanism.size;
      matrix[i * count + i] = (matrix[i * count + i] as number) - oil / pace;
    }
    for (const freedom of held)
      for (let i = 0; i < count; i++) matrix[i * count + freedom] = i === freedom ? 1 : 0;
    if (!solveInPlace(matrix, step, count, count)) return undefined;
    held.forEach((freedom, t) => {
      efforts[t] = (efforts[t] as number) + (step[freedom] as number);
      step[freedom] = 0;
    });
    shorten(step, balance);
    for (let i = 0; i < count; i++) y[i] = (y[i] as number) + (step[i] as number);
  }
  return undefined;
}

/** Shortens a step as a whole so that no freedom moves further than a third of a radian or of the wheel radius. */
function shorten(step: Float64Array, { chain, mechanism }: Balance): void {
  let share = 1;
  for (let i = 0; i < chain.size; i++) {
    const most = 0.3 * (chain.turns[i] ? 1 : mechanism.size);
    if (Math.abs(step[i] as number) * share > most) share = most / Math.abs(step[i] as number);
  }
  if (share < 1) for (let i = 0; i < step.length; i++) step[i] = (step[i] as number) * share;
}
