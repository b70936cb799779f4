import { better, isFeasible, type Outcome as Told } from '../searching/outcome.ts';
import type { Goal } from './goal.ts';
import type { Outcome, Sample } from './sample.ts';

/**
 * An outcome as a search is told it: goals of which little is wanted, and how much is missed. A crossing that does not
 * get to its end has no goals to tell, but it says how much of the way is left: it is told as missed, not as failed.
 */
export function told(goals: readonly Goal[], { goals: values, violation, failed, holds }: Outcome): Told {
  if (failed === true) return { goals: null, violation: 0 };
  const missing = values.includes(null);
  const signed = values.map((value, g) => (goals[g]?.want === 'more' ? -(value ?? 0) : (value ?? 0)));
  // Nothing to measure where all holds: no design to choose by.
  if (missing && violation === 0) return { goals: null, violation: 0 };
  return { goals: signed, violation: holds ? 0 : Math.max(violation, Number.MIN_VALUE) };
}

/** Below zero where `a` is the better sample, by its first goal; of equals the one tried first. */
export function compare(goals: readonly Goal[], a: Sample, b: Sample): number {
  return better(told(goals, a), told(goals, b)) || a.n - b.n;
}

/** The samples that hold and are not beaten in all goals by another, added one by one. */
export class Front {
  readonly #goals: readonly Goal[];
  #kept: Sample[] = [];

  constructor(goals: readonly Goal[]) {
    this.#goals = goals;
  }

  add(sample: Sample): void {
    const mine = told(this.#goals, sample);
    if (!isFeasible(mine)) return;
    const values = mine.goals ?? [];
    const of = (other: Sample) => told(this.#goals, other).goals ?? [];
    if (this.#kept.some((other) => noWorse(of(other), values))) return;
    this.#kept = [...this.#kept.filter((other) => !noWorse(values, of(other))), sample];
  }

  /** In the order of the first goal, the best first. */
  get samples(): readonly Sample[] {
    return [...this.#kept].sort((a, b) => compare(this.#goals, a, b));
  }
}

const noWorse = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((value, g) => value <= (b[g] as number));
