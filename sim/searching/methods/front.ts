import { z } from 'zod';
import { everyDesign } from '../every-design.ts';
import type { Judged } from '../evolve.ts';
import { crowdingOf, ranksOf } from '../front.ts';
import { clamp, type Genes, genesOf, pointOf, type Scale, scalesOf } from '../genes.ts';
import { defineMethod, type Kept, type Learner, type Task } from '../method.ts';
import { effortField } from '../options.ts';
import type { Outcome } from '../outcome.ts';
import { mostDimensions, sobol } from '../sobol.ts';
import { keyOf, pointsIn } from '../space.ts';
import { streamOf } from '../stream.ts';

/** Distribution indices of crossing and change as in the paper of NSGA-II, and the share of pairs that are crossed. */
const figures = { crossing: 20, change: 20, crossed: 0.9 } as const;

/** What it knows between two generations. The population is the better half of parents and children, best first. */
interface Knows {
  readonly generation: number;
  readonly spent: number;
  readonly population: readonly Judged[];
  readonly trials: readonly Genes[];
}

/** Designs of one generation: about a fortieth of all, an even number from 12 to 100. */
const sizeFor = (designs: number): number => 2 * Math.round(Math.min(100, Math.max(12, designs / 40)) / 2);

function learnerOf({ space, options, seed, today }: Task<{ designs: number }>): Learner<Kept> {
  if (pointsIn(space) <= options.designs) return everyDesign(space);
  const scales = scalesOf(space);
  const size = Math.min(sizeFor(options.designs), options.designs);
  const first = (): Genes[] => {
    const draw = streamOf(seed, 'first designs');
    const even = space.length <= mostDimensions ? sobol(space.length, seed) : () => space.map(() => draw());
    return Array.from({ length: size }, (_, i) => (i === 0 ? genesOf(scales, today) : even(i)));
  };
  const keep = (knows: Knows) => knows as unknown as Kept;
  return {
    size: options.designs,
    start: () => keep({ generation: 0, spent: 0, population: [], trials: first() }),
    batch: (state) => (state as unknown as Knows).trials.map((genes) => pointOf(scales, genes)),
    learn(state, _batch, outcomes) {
      const knows = state as unknown as Knows;
      const judged = knows.trials.map((genes, i) => ({ genes, outcome: outcomes[i] as Outcome }));
      const population = bestHalf(distinct([...knows.population, ...judged], scales), size);
      const spent = knows.spent + judged.length;
      const generation = knows.generation + 1;
      const draw = streamOf(seed, 'front', generation);
      const trials = childrenOf(population, scales, draw).slice(0, options.designs - spent);
      return keep({ generation, spent, population, trials });
    },
  };
}

/** Each design once: with few values the same ones come again, and would crowd the others out. */
function distinct(all: readonly Judged[], scales: readonly Scale[]): Judged[] {
  const known = new Map(all.map((judged) => [keyOf(pointOf(scales, judged.genes)), judged]));
  return [...known.values()];
}

/** The `size` best by rank, the last rank by room; best first. */
function bestHalf(all: readonly Judged[], size: number): Judged[] {
  const ranks = ranksOf(all.map(({ outcome }) => outcome));
  const kept: Judged[] = [];
  for (let rank = 0; kept.length < size && rank < all.length; rank++) {
    const front = all.filter((_, i) => ranks[i] === rank);
    const room = crowdingOf(front.map(({ outcome }) => outcome));
    const order = front
      .map((_, i) => i)
      .sort((a, b) => descending(room[a] as number, room[b] as number) || a - b);
    kept.push(...order.slice(0, size - kept.length).map((i) => front[i] as Judged));
  }
  return kept;
}

/** For numbers that may be infinite, where a difference would be none. */
const descending = (a: number, b: number): number => (a === b ? 0 : a > b ? -1 : 1);

/**
 * As many children as parents, half of them from crossing and half from differences; the population is in the order of
 * rank and room, so the lower index wins.
 */
function childrenOf(population: readonly Judged[], scales: readonly Scale[], draw: () => number): Genes[] {
  const any = (): number => Math.floor(draw() * population.length);
  const genesAt = (i: number): Genes => (population[i] as Judged).genes;
  const parent = (): Genes => genesAt(Math.min(any(), any()));
  const children: Genes[] = [];
  while (children.length < population.length) {
    children.push(...crossed(parent(), parent(), scales, draw));
    for (let k = 0; k < 2; k++)
      children.push(shifted(parent(), genesAt(any()), genesAt(any()), scales, draw));
  }
  return children.slice(0, population.length).map((genes) => changed(genes, scales, draw));
}

/**
 * A design moved by half the difference of two others in about half of its axes: follows fronts that run across the axes.
 * Source: differential evolution for several goals, S. Kukkonen and J. Lampinen, "GDE3", IEEE CEC 2005.
 */
function shifted(own: Genes, a: Genes, b: Genes, scales: readonly Scale[], draw: () => number): number[] {
  return own.map((share, d) => {
    if (draw() < 0.5) return share;
    if (!(scales[d] as Scale).ordered) return a[d] as number;
    return clamp(share + 0.5 * ((a[d] as number) - (b[d] as number)));
  });
}

/**
 * Two children on either side of their parents (simulated binary crossover); lists without order swap.
 * Source: K. Deb and R. Agrawal, Complex Systems 9 (1995) 115–148.
 */
function crossed(a: Genes, b: Genes, scales: readonly Scale[], draw: () => number): [number[], number[]] {
  const [one, two] = [[...a], [...b]];
  if (draw() >= figures.crossed) return [one, two];
  scales.forEach(({ ordered }, d) => {
    if (draw() < 0.5) return;
    const [x, y, u] = [a[d] as number, b[d] as number, draw()];
    const power = 1 / (figures.crossing + 1);
    const beta = u <= 0.5 ? (2 * u) ** power : (1 / (2 * (1 - u))) ** power;
    one[d] = ordered ? clamp(0.5 * ((1 + beta) * x + (1 - beta) * y)) : y;
    two[d] = ordered ? clamp(0.5 * ((1 - beta) * x + (1 + beta) * y)) : x;
  });
  return [one, two];
}

/** Each share changed with the chance 1/n (polynomial mutation, same source as NSGA-II); lists without order anew. */
function changed(genes: Genes, scales: readonly Scale[], draw: () => number): Genes {
  return genes.map((share, d) => {
    if (draw() >= 1 / genes.length) return share;
    const u = draw();
    const scale = scales[d] as Scale;
    if (!scale.ordered) return u;
    const power = 1 / (figures.change + 1);
    // Few values: at least to the next one.
    const least = Number.isFinite(scale.size) ? 1 / scale.size : 0;
    const by = u < 0.5 ? (2 * u) ** power - 1 : 1 - (2 * (1 - u)) ** power;
    return clamp(share + Math.sign(by) * Math.max(Math.abs(by), least));
  });
}

/** Two or three goals at once, with the designs between which one must choose. */
export const front = defineMethod({
  kind: 'front',
  title: 'Trade-off front',
  source:
    'NSGA-II: Deb, Pratap, Agarwal and Meyarivan, IEEE Trans. Evol. Comput. 6 (2002) 182–197, with differences as in GDE3 (2005)',
  fields: z.strictObject({ designs: effortField(2000, 'Designs that it evaluates.') }),
  goals: { least: 2, most: 3 },
  learner: learnerOf,
});
