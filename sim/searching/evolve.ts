import { clamp, type Genes, genesOf, otherShare, pointOf, type Scale } from './genes.ts';
import { cauchy, normal } from './normal.ts';
import { better, type Outcome } from './outcome.ts';
import { mostDimensions, sobol } from './sobol.ts';
import { keyOf, type Point } from './space.ts';
import { streamOf } from './stream.ts';

/*
 * Differential evolution that learns its own step and mixing rates and lets its population shrink as its budget is spent
 * (L-SHADE), with the rules of Deb (outcome.ts) in place of plain comparison. Sources: R. Tanabe and A. Fukunaga,
 * "Improving the search performance of SHADE using linear population size reduction", IEEE CEC 2014; the mutation
 * current-to-pbest/1 with an archive: J. Zhang and A. Sanderson, "JADE", IEEE Trans. Evol. Comput. 13 (2009) 945–958.
 * Means over successes are not weighted by gain (as in JADE), for a gain in violation and one in a goal have no common
 * measure. Lists without order take their value from one of the designs that are mixed.
 */

/** Figures of L-SHADE as published: population per axis, its least, archive per population, best share, memory. */
const figures = { perAxis: 18, least: 4, archive: 2.6, best: 0.11, memory: 6 } as const;

/** Designs that are remembered, the last ones. */
const mostSeen = 4000;

/** A design that was judged. */
export interface Judged {
  readonly genes: Genes;
  readonly outcome: Outcome;
}

/** A design to be judged, with the rates that made it. */
export interface Trial {
  readonly genes: Genes;
  readonly step: number;
  readonly mixing: number;
}

/** All that an evolution knows between two generations. */
export interface Evolution {
  readonly generation: number;
  readonly spent: number;
  readonly population: readonly Judged[];
  readonly archive: readonly Genes[];
  /** Learned middles of step and mixing rate; null: mixing stays at 0. */
  readonly steps: readonly number[];
  readonly mixings: readonly (number | null)[];
  readonly turn: number;
  readonly trials: readonly Trial[];
  /** Designs that were asked for, where every axis is of finite size: none is asked for twice without need. */
  readonly seen: readonly string[];
}

/** Where an evolution goes on. */
export interface Habitat {
  readonly scales: readonly Scale[];
  readonly seed: number;
  readonly today: Point;
  /** Designs that it may evaluate. */
  readonly budget: number;
}

/** Size of the first population: as published, smaller where the budget has less than 25 generations of it. */
const firstSize = ({ scales, budget }: Habitat): number =>
  Math.min(
    budget,
    Math.max(figures.least, Math.min(figures.perAxis * scales.length, Math.ceil(budget / 25))),
  );

/**
 * The evolution before its first generation: today's design, and others spread evenly over the whole space, or by chance
 * about a centre with a standard deviation that is a share of each axis.
 */
export function originOf(
  habitat: Habitat,
  about?: { readonly centre: Genes; readonly spread: number },
): Evolution {
  const { scales, seed, today } = habitat;
  const draw = streamOf(seed, 'first designs');
  const even = scales.length <= mostDimensions ? sobol(scales.length, seed) : () => scales.map(() => draw());
  const near = ({ centre, spread }: NonNullable<typeof about>) =>
    centre.map((share) => clamp(share + spread * normal(draw)));
  const trials = Array.from({ length: firstSize(habitat) }, (_, i) => ({
    genes: i === 0 ? (about?.centre ?? genesOf(scales, today)) : about === undefined ? even(i) : near(about),
    step: 0.5,
    mixing: 0.5,
  }));
  const first: Evolution = {
    generation: 0,
    spent: 0,
    population: [],
    archive: [],
    steps: Array.from({ length: figures.memory }, () => 0.5),
    mixings: Array.from({ length: figures.memory }, () => 0.5),
    turn: 0,
    trials: [],
    seen: [],
  };
  return withTrials(first, trials, habitat);
}

/** The evolution with the next trials in place; where all axes are of finite size, known designs are moved aside. */
function withTrials(evolution: Evolution, trials: readonly Trial[], habitat: Habitat): Evolution {
  const { scales, seed } = habitat;
  if (scales.some(({ size }) => !Number.isFinite(size))) return { ...evolution, trials };
  const seen = new Set(evolution.seen);
  const draw = streamOf(seed, 'aside', evolution.generation);
  const fresh = trials.map((trial) => {
    const genes = unseen(trial.genes, scales, seen, draw);
    seen.add(keyOf(pointOf(scales, genes)));
    return { ...trial, genes };
  });
  return { ...evolution, trials: fresh, seen: [...seen].slice(-mostSeen) };
}

/** Genes of a design that was not seen: these, or a neighbour, or a neighbour of that; any other after 30 moves. */
function unseen(
  genes: Genes,
  scales: readonly Scale[],
  seen: ReadonlySet<string>,
  draw: () => number,
): Genes {
  const open = scales.flatMap(({ size }, i) => (size > 1 ? [i] : []));
  let moved = genes;
  for (let tries = 0; tries < 60 && seen.has(keyOf(pointOf(scales, moved))); tries++) {
    const axis = open[Math.floor(draw() * open.length)];
    if (axis === undefined) break;
    moved =
      tries < 30
        ? moved.map((share, i) => (i === axis ? otherShare(scales[i] as Scale, share, draw) : share))
        : moved.map(() => draw());
  }
  return moved;
}

/** Best first; equals in their order. */
const ranked = (population: readonly Judged[]): Judged[] =>
  [...population].sort((a, b) => better(a.outcome, b.outcome));

/** What an evolution knows once its trials were judged, with the next trials in place. */
export function evolved(evolution: Evolution, outcomes: readonly Outcome[], habitat: Habitat): Evolution {
  const judged = evolution.trials.map(({ genes }, i) => ({ genes, outcome: outcomes[i] as Outcome }));
  const told =
    evolution.generation === 0 ? { ...evolution, population: judged } : selected(evolution, judged);
  const spent = evolution.spent + judged.length;
  const first = firstSize(habitat);
  const size = Math.round(
    first + ((figures.least - first) * Math.min(spent, habitat.budget)) / habitat.budget,
  );
  const population = ranked(told.population).slice(0, Math.max(figures.least, size));
  const archive = told.archive.slice(-Math.round(figures.archive * population.length));
  const next = { ...told, generation: evolution.generation + 1, spent, population, archive };
  return withTrials(next, trialsOf(next, habitat), habitat);
}

/** Each trial against the design that it was made from; what succeeded is learned. */
function selected(evolution: Evolution, judged: readonly Judged[]): Evolution {
  const archive = [...evolution.archive];
  const won: Trial[] = [];
  const population = evolution.population.map((parent, i) => {
    const child = judged[i];
    if (child === undefined) return parent;
    const change = better(child.outcome, parent.outcome);
    if (change < 0) {
      archive.push(parent.genes);
      won.push(evolution.trials[i] as Trial);
    }
    return change <= 0 ? child : parent;
  });
  if (won.length === 0) return { ...evolution, population, archive };
  const { turn, steps, mixings } = evolution;
  const mixing =
    mixings[turn] === null || won.every((t) => t.mixing === 0) ? null : mean(won.map((t) => t.mixing));
  return {
    ...evolution,
    population,
    archive,
    steps: steps.with(turn, mean(won.map((t) => t.step))),
    mixings: mixings.with(turn, mixing),
    turn: (turn + 1) % figures.memory,
  };
}

/** Lehmer mean Σx²/Σx: leans to the larger ones. */
const mean = (values: readonly number[]): number =>
  values.reduce((sum, x) => sum + x * x, 0) / values.reduce((sum, x) => sum + x, 0);

/** The trials of a population that is ranked, one from each design, as many as the budget has left. */
function trialsOf(evolution: Evolution, { scales, seed, budget }: Habitat): Trial[] {
  const { population, generation, spent } = evolution;
  if (population.length < figures.least) return [];
  const draw = streamOf(seed, 'evolution', generation);
  return population
    .slice(0, Math.max(0, budget - spent))
    .map((_, i) => trialFrom(evolution, i, scales, draw));
}

function trialFrom(
  { population, archive, steps, mixings }: Evolution,
  i: number,
  scales: readonly Scale[],
  draw: () => number,
): Trial {
  const slot = Math.floor(draw() * figures.memory);
  const middle = mixings[slot];
  const mixing =
    middle === null || middle === undefined ? 0 : Math.min(1, Math.max(0, middle + 0.1 * normal(draw)));
  let step = 0;
  while (step <= 0) step = Math.min(1, cauchy(draw, steps[slot] as number, 0.1));
  const pick = (size: number, not: readonly number[]): number => {
    let k = Math.floor(draw() * size);
    while (not.includes(k)) k = Math.floor(draw() * size);
    return k;
  };
  const all = [...population.map(({ genes }) => genes), ...archive];
  const own = all[i] as Genes;
  const best = all[pick(Math.max(2, Math.round(figures.best * population.length)), [])] as Genes;
  const first = pick(population.length, [i]);
  const [a, b] = [all[first] as Genes, all[pick(all.length, [i, first])] as Genes];
  const sure = Math.floor(draw() * own.length);
  const genes = own.map((share, d) => {
    if (d !== sure && draw() >= mixing) return share;
    if (!(scales[d] as Scale).ordered)
      return ([best, best, a, b][Math.floor(draw() * 4)] as Genes)[d] as number;
    const to = share + step * ((best[d] as number) - share + ((a[d] as number) - (b[d] as number)));
    return to < 0 ? share / 2 : to > 1 ? (1 + share) / 2 : to;
  });
  return { genes, step, mixing };
}

/** The best design so far. */
export const bestOf = ({ population }: Evolution): Judged => ranked(population)[0] as Judged;

/** Greatest distance along any axis between two designs of the population, as a share. */
export const spreadOf = ({ population }: Evolution, axes: number): number =>
  Math.max(
    ...Array.from({ length: axes }, (_, d) => {
      const shares = population.map(({ genes }) => genes[d] as number);
      return Math.max(...shares) - Math.min(...shares);
    }),
  );
