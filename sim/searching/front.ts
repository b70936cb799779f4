import type { Outcome } from './outcome.ts';

/*
 * Several goals at once: a design is on the front when no other is as good in every goal and better in one. Source of
 * sorting and crowding: K. Deb et al., "A fast and elitist multiobjective genetic algorithm: NSGA-II", IEEE Trans. Evol.
 * Comput. 6 (2002) 182–197, with its rules for constraints.
 */

/** Whether `a` is better than `b` under constraints: it holds more, or it is as good in every goal and better in one. */
export function dominates(a: Outcome, b: Outcome): boolean {
  if (a.goals === null || b.goals === null) return a.goals !== null && b.goals === null;
  if (a.violation !== b.violation) return a.violation < b.violation;
  let ahead = false;
  for (const [i, goal] of a.goals.entries()) {
    const other = b.goals[i] as number;
    if (goal > other) return false;
    if (goal < other) ahead = true;
  }
  return ahead;
}

/** Indices of the designs that hold all criteria and that no other such design dominates, by their first goal. */
export function frontOf(outcomes: readonly Outcome[]): readonly number[] {
  const goalsOf = (i: number) => outcomes[i]?.goals as readonly number[];
  const able = outcomes.flatMap(({ goals, violation }, i) => (goals !== null && violation === 0 ? [i] : []));
  const sorted = able.sort((a, b) => compare(goalsOf(a), goalsOf(b)) || a - b);
  const front: number[] = [];
  // Sorted by goals, a design is dominated only by one before it; with two goals by the last on the front.
  let least = Number.POSITIVE_INFINITY;
  for (const i of sorted) {
    const goals = goalsOf(i);
    const beaten =
      goals.length === 2
        ? (goals[1] as number) > least ||
          (goals[1] === least && compare(goalsOf(front.at(-1) ?? i), goals) < 0)
        : front.some((f) => dominates(outcomes[f] as Outcome, outcomes[i] as Outcome));
    if (beaten) continue;
    front.push(i);
    least = Math.min(least, goals[1] ?? least);
  }
  return front;
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (const [i, x] of a.entries()) if (x !== b[i]) return x - (b[i] as number);
  return 0;
}

/** The rank of each design: 0 for those that none dominates, 1 for those that only these dominate, and so on. */
export function ranksOf(outcomes: readonly Outcome[]): readonly number[] {
  const ranks = outcomes.map(() => -1);
  let open = outcomes.map((_, i) => i);
  for (let rank = 0; open.length > 0; rank++) {
    const front = open.filter(
      (i) => !open.some((j) => dominates(outcomes[j] as Outcome, outcomes[i] as Outcome)),
    );
    for (const i of front) ranks[i] = rank;
    open = open.filter((i) => ranks[i] === -1);
  }
  return ranks;
}

/** How far apart the neighbours of each design of one rank lie, all goals together; the ends count as infinitely far. */
export function crowdingOf(outcomes: readonly Outcome[]): readonly number[] {
  const room = outcomes.map(() => 0);
  const count = outcomes[0]?.goals?.length ?? 0;
  for (let g = 0; g < count; g++) {
    const goal = (i: number): number => outcomes[i]?.goals?.[g] ?? 0;
    const order = outcomes.map((_, i) => i).sort((a, b) => goal(a) - goal(b));
    const [first, last] = [order[0] as number, order.at(-1) as number];
    const span = goal(last) - goal(first);
    room[first] = Number.POSITIVE_INFINITY;
    room[last] = Number.POSITIVE_INFINITY;
    if (span === 0) continue;
    for (let k = 1; k < order.length - 1; k++) {
      const i = order[k] as number;
      room[i] = (room[i] as number) + (goal(order[k + 1] as number) - goal(order[k - 1] as number)) / span;
    }
  }
  return room;
}
