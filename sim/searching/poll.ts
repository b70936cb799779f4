import type { Judged } from './evolve.ts';
import { clamp, type Genes, pointOf, type Scale } from './genes.ts';
import { normal } from './normal.ts';
import { better, type Outcome } from './outcome.ts';
import { keyOf } from './space.ts';
import { streamOf } from './stream.ts';

/*
 * Direct search about a good design: steps to both sides along the axes, in turn with steps along the columns of a
 * Householder matrix of a random direction, so that in the long run every direction is tried and a search cannot stay
 * stuck where criteria meet; longer steps after success, half as long after failure. Whole numbers and lists move to
 * neighbouring values. Sources: Householder directions M. Abramson, C. Audet, J. Dennis, S. Le Digabel, "OrthoMADS",
 * SIAM J. Optim. 20 (2009) 948–966; mixed variables C. Audet and J. Dennis (2001). Comparison by the rules of Deb.
 */

/** All that a poll knows between two rounds. */
export interface Polling {
  readonly round: number;
  readonly spent: number;
  readonly centre: Judged;
  /** Step, as a share of each axis. */
  readonly step: number;
  /** The last move that succeeded: the next round begins by going on twice as far. */
  readonly move: Genes | null;
  readonly trials: readonly Genes[];
  /** Designs that were tried about this centre, for those that come again at every step: whole numbers and lists. */
  readonly tried: readonly string[];
  /** Designs that it may evaluate. */
  readonly budget: number;
  /** Step at which it ends. */
  readonly least: number;
}

/** Where a poll goes on. */
export interface Place {
  readonly scales: readonly Scale[];
  readonly seed: number;
}

const longest = 0.25;
/** Factor after a round without success. */
const shorter = 0.5;
/** At most so many other values of a list without order are tried in a round. */
const mostOthers = 8;

/** A poll about a design, before its first round. Its step is a share of each axis. */
export function pollAround(
  centre: Judged,
  { step, ...bounds }: Pick<Polling, 'step' | 'least' | 'budget'>,
  place: Place,
): Polling {
  const first = {
    round: 0,
    spent: 0,
    centre,
    step: Math.min(longest, step),
    move: null,
    trials: [],
    tried: [],
  };
  return withTrials({ ...first, ...bounds }, place);
}

/** What a poll knows once its trials were judged, with the next ones in place; without any it has come to its end. */
export function polled(polling: Polling, outcomes: readonly Outcome[], place: Place): Polling {
  const { trials, centre, step } = polling;
  let best = centre;
  trials.forEach((genes, i) => {
    const outcome = outcomes[i] as Outcome;
    if (better(outcome, best.outcome) < 0) best = { genes, outcome };
  });
  const moved = best !== centre;
  const keys = trials.map((genes) => keyOf(pointOf(place.scales, genes)));
  const next: Polling = {
    ...polling,
    round: polling.round + 1,
    spent: polling.spent + trials.length,
    centre: best,
    step: moved ? Math.min(longest, 2 * step) : shorter * step,
    move: moved ? best.genes.map((share, d) => share - (centre.genes[d] as number)) : null,
    trials: [],
    tried: moved ? [] : [...polling.tried, ...keys],
  };
  return withTrials(next, place);
}

function withTrials(polling: Polling, place: Place): Polling {
  let next = polling;
  // Rounds in which every step ends where it began (at the ends of the axes) are passed over.
  while (next.step >= next.least) {
    const trials = trialsOf(next, place).slice(0, Math.max(0, next.budget - next.spent));
    if (trials.length > 0 || next.spent >= next.budget) return { ...next, trials };
    next = { ...next, round: next.round + 1, step: shorter * next.step };
  }
  return next;
}

/** The designs about the centre, none twice, the centre left out. */
function trialsOf({ round, centre, step, move, tried }: Polling, { scales, seed }: Place): Genes[] {
  const draw = streamOf(seed, 'poll', round);
  const { genes } = centre;
  const wide = scales.flatMap(({ size }, d) => (Number.isFinite(size) ? [] : [d]));
  const trials: Genes[] =
    move === null ? [] : [genes.map((share, d) => clamp(share + 2 * (move[d] as number)))];
  for (const direction of directions(wide.length, round % 2 === 1, draw))
    for (const sign of [1, -1]) {
      const to = [...genes];
      wide.forEach((d, k) => {
        to[d] = clamp((genes[d] as number) + sign * step * (direction[k] as number));
      });
      trials.push(to);
    }
  scales.forEach((scale, d) => {
    for (const share of neighbours(scale, genes[d] as number, step, draw)) trials.push(genes.with(d, share));
  });
  const known = new Set([...tried, keyOf(pointOf(scales, genes))]);
  return trials.filter((trial) => {
    const key = keyOf(pointOf(scales, trial));
    return !known.has(key) && known.add(key);
  });
}

/** Orthogonal directions of the same greatest component, 1: the axes, or columns of a random Householder matrix. */
function directions(n: number, turned: boolean, draw: () => number): number[][] {
  const axes = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => Number(i === j)));
  if (!turned || n < 2) return axes;
  const q = Array.from({ length: n }, () => normal(draw));
  const square = q.reduce((sum, x) => sum + x * x, 0);
  return axes.map((axis, i) => {
    const column = axis.map((x, j) => x - (2 * (q[i] as number) * (q[j] as number)) / square);
    const greatest = Math.max(...column.map(Math.abs));
    return column.map((x) => x / greatest);
  });
}

/** Shares of other values near one of an axis of finite size: a step away and next to it; some others without order. */
export function neighbours(scale: Scale, share: number, step: number, draw: () => number): number[] {
  const { size, ordered } = scale;
  if (!Number.isFinite(size) || size === 1) return [];
  const rank = Math.min(size - 1, Math.floor(share * size));
  const far = Math.round(step * size);
  const ranks = ordered ? [rank + 1, rank - 1, rank + far, rank - far] : others(rank, size, draw);
  return ranks.filter((to) => to >= 0 && to < size && to !== rank).map((to) => (to + 0.5) / size);
}

function others(rank: number, size: number, draw: () => number): number[] {
  const all = Array.from({ length: size - 1 }, (_, i) => (rank + 1 + i) % size);
  if (all.length <= mostOthers) return all;
  return Array.from({ length: mostOthers }, () => all[Math.floor(draw() * all.length)] as number);
}
