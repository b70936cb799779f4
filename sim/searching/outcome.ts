/** What a design came to, as a search sees it. */
export interface Outcome {
  /** What is wanted little of, one figure per goal (a goal that is wanted much of has its sign turned); null: it failed. */
  readonly goals: readonly number[] | null;
  /** By how much criteria are missed, all together, in any one measure; 0 when all hold. Never below zero, finite. */
  readonly violation: number;
}

/** A design that could not be judged at all: worse than any other. */
export const failedOutcome: Outcome = { goals: null, violation: 0 };

/** Whether all criteria hold. */
export const isFeasible = ({ goals, violation }: Outcome): boolean => goals !== null && violation === 0;

/**
 * Below zero where `a` is the better design by its first goal, above zero where `b` is, 0 for equals: one that holds
 * its criteria beats one that does not, of two that do the lesser goal wins, of two that do not the lesser violation;
 * one that failed loses.
 * Source: K. Deb, "An efficient constraint handling method for genetic algorithms", Comput. Methods Appl. Mech. Engrg.
 * 186 (2000) 311–338.
 */
export function better(a: Outcome, b: Outcome): number {
  if (a.goals === null || b.goals === null) return Number(a.goals === null) - Number(b.goals === null);
  if (a.violation !== b.violation) return a.violation - b.violation;
  return (a.goals[0] ?? 0) - (b.goals[0] ?? 0);
}

/** An outcome as a journal or a worker may hand it over: figures that are not finite mean that it failed. */
export function soundOutcome({ goals, violation }: Outcome): Outcome {
  if (goals === null || !goals.every(Number.isFinite) || !Number.isFinite(violation)) return failedOutcome;
  return { goals, violation: Math.max(0, violation) };
}
