import type { Design } from './dial.ts';

/** What a design came to on one ground. */
export interface GroundOutcome {
  /** Value of each goal, SI; null without one. */
  readonly goals: readonly (number | null)[];
  /** By how much each criterion is missed, 0 where it holds, below 1 otherwise; the last entry is about getting across. */
  readonly short: readonly number[];
  /** Why it failed, or does not get across. */
  readonly why?: string;
}

/** What a design came to. Plain data, and the same whoever computes it. */
export interface Outcome extends GroundOutcome {
  /** All of `short` together; 0 when everything holds. */
  readonly violation: number;
  /** Every criterion holds on every ground, and the vehicle gets across. */
  readonly holds: boolean;
  /** It could not be judged at all: no vehicle, or a computation that gave up. */
  readonly failed?: true;
  /** Loads of the wheels (N, per axle line) at even stations of the first ground, where they were asked for. */
  readonly rows?: readonly (readonly (number | null)[])[];
  /** Ground by ground, where there are several. */
  readonly grounds?: readonly GroundOutcome[];
}

/** A design that was tried: its number in the plan, from 0. */
export interface Sample extends Outcome {
  readonly n: number;
  readonly design: Design;
}

/** The outcome of a design that could not be judged. `count`: number of goals and of entries in `short`. */
export function failedOutcome(
  why: string,
  count: { readonly goals: number; readonly short: number },
): Outcome {
  return {
    goals: Array.from({ length: count.goals }, () => null),
    short: Array.from({ length: count.short }, () => 1),
    violation: count.short,
    holds: false,
    failed: true,
    why,
  };
}
