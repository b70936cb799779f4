import { Balance } from './balance.ts';
import { Solver } from './solve.ts';
import { tipped } from './stand.ts';

/** A drop that turns the chassis by more than this is a fall, rad (definition of our own). */
const fallen = 0.5;

/** Whether unknowns y lie on nose or tail, or so much further over than before that the vehicle fell rather than dropped. */
export function topples(y: Float64Array, before: Float64Array): boolean {
  const pitch = y[1] as number;
  return Math.abs(pitch) > tipped || Math.abs(pitch - (before[1] as number)) > fallen;
}

/**
 * Whether the vehicle falls over at a station (m) with all its wheels locked, let go from unknowns y that balanced at
 * `last`. A horizontal hold would carry one whose other end has lifted; brakes do not.
 */
export function overturns(balance: Balance, y: Float64Array, last: number, station: number): boolean {
  const { mechanism, ground, chain, rodRow } = balance;
  const braked = new Balance(mechanism, ground, { thrust: { kind: 'parked' }, sense: 0, relaxed: true });
  const trial = new Float64Array(braked.count);
  trial.set(y.subarray(0, chain.size));
  trial.set(y.subarray(rodRow), braked.rodRow);
  balance.evaluate(y, last);
  trial[braked.thrustRow] = Math.max(...balance.wheels.map(({ use }) => use));
  const landed = new Solver(braked).sink(trial, station);
  return topples(trial, y) || (!landed.found && rears(braked));
}

/** Whether the foremost or the rearmost axle line is off the ground. */
function rears({ mechanism, wheels }: Balance): boolean {
  const hubs = mechanism.wheels.map(({ hub }) => hub.x);
  return [Math.min(...hubs), Math.max(...hubs)].some((end) =>
    hubs.every((x, w) => x !== end || wheels[w]?.normal === 0),
  );
}
