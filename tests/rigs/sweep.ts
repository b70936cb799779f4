/* Equilibria one after another along a ground, and nothing else: what a solver is timed on. */
import type { Ground } from '../../sim/ground/ground.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { Balance } from '../../sim/statics/balance.ts';
import type { Thrust } from '../../sim/statics/footing.ts';
import { Solver } from '../../sim/statics/solve.ts';
import { standAt } from '../../sim/statics/stand.ts';

/** A sweep made ready: `run` solves all its stations again and says how many it lost and how many iterations it took. */
export interface Sweep {
  readonly count: number;
  run(): { readonly lost: number; readonly iterations: number };
}

/** Prepares `count` equilibria from one station to another, each guessed from the two before it. */
export function sweepOver(
  mechanism: Mechanism,
  ground: Ground,
  from: number,
  until: number,
  count: number,
  thrust?: Thrust,
): Sweep {
  const stand = standAt(mechanism, ground, from);
  if (stand.kind !== 'stands') throw new Error(stand.kind);
  const balance = new Balance(mechanism, ground, {
    thrust: thrust ?? { kind: 'driven', share: mechanism.drive.share },
    sense: 1,
    relaxed: false,
  });
  const solver = new Solver(balance);
  const start = new Float64Array(balance.count);
  start.set(stand.unknowns.subarray(0, balance.chain.size));
  start.set(stand.unknowns.subarray(stand.unknowns.length - mechanism.rods.length), balance.rodRow);
  solver.newton(start, from);
  let [now, before, trial] = [start.slice(), start.slice(), start.slice()];
  return {
    count,
    run() {
      now.set(start);
      before.set(start);
      let [lost, iterations] = [0, 0];
      for (let n = 1; n <= count; n++) {
        const station = from + ((until - from) * n) / count;
        for (let i = 0; i < trial.length; i++) trial[i] = 2 * (now[i] as number) - (before[i] as number);
        const solved = solver.newton(trial, station);
        iterations += solved.iterations;
        if (!solved.found) {
          lost++;
          trial.set(now);
          if (!solver.sink(trial, station).found) trial.set(now);
        }
        balance.remember(trial);
        [before, now, trial] = [now, trial, before];
      }
      return { lost, iterations };
    },
  };
}
