import { z } from 'zod';
import { type Closing, closed, closingIn, closingTrials } from '../closing.ts';
import { everyDesign } from '../every-design.ts';
import { bestOf, type Evolution, evolved, type Habitat, originOf, spreadOf } from '../evolve.ts';
import { pointOf, scalesOf } from '../genes.ts';
import { defineMethod, type Kept, type Learner, type Task } from '../method.ts';
import { effortField } from '../options.ts';
import { pointsIn } from '../space.ts';

/** Share of the designs for the search over the whole space; the rest is for the last steps about the best. */
const wideShare = 0.7;

/** What a search for the best knows: which designs are asked for, and how it goes on. */
type Knows =
  | { readonly phase: 'evolution'; readonly evolution: Evolution }
  | { readonly phase: 'closing'; readonly closing: Closing };

/** Learner of the best design by its first goal, with criteria by the rules of Deb. */
export function optimumLearner({ space, options, seed, today }: Task<{ designs: number }>): Learner<Kept> {
  if (pointsIn(space) <= options.designs) return everyDesign(space);
  const scales = scalesOf(space);
  const wide = Math.ceil(options.designs * wideShare);
  const habitat: Habitat = { scales, seed, today, budget: wide };
  const keep = (knows: Knows) => knows as unknown as Kept;
  const place = { scales, seed };
  const next = (evolution: Evolution): Knows => {
    if (evolution.trials.length > 0 && spreadOf(evolution, scales.length) > 1e-9)
      return { phase: 'evolution', evolution };
    const left = options.designs - evolution.spent;
    const step = 2 * spreadOf(evolution, scales.length);
    return { phase: 'closing', closing: closingIn(bestOf(evolution), step, left, place) };
  };
  return {
    size: options.designs,
    start: () => keep({ phase: 'evolution', evolution: originOf(habitat) }),
    batch(state) {
      const knows = state as unknown as Knows;
      if (knows.phase === 'evolution')
        return knows.evolution.trials.map(({ genes }) => pointOf(scales, genes));
      return closingTrials(knows.closing, place).map((genes) => pointOf(scales, genes));
    },
    learn(state, _batch, outcomes) {
      const knows = state as unknown as Knows;
      if (knows.phase === 'evolution') return keep(next(evolved(knows.evolution, outcomes, habitat)));
      return keep({ phase: 'closing', closing: closed(knows.closing, outcomes, place) });
    },
  };
}

/** Options of a search for the best. */
export const optimumFields = z.strictObject({
  designs: effortField(
    2000,
    'Designs that it may evaluate; where there are no more than these in all, every one is.',
  ),
});

/** The best design by the first goal that holds all criteria. */
export const optimum = defineMethod({
  kind: 'optimum',
  title: 'Best design',
  source:
    'differential evolution L-SHADE (Tanabe and Fukunaga 2014), constraints by Deb (2000), then OrthoMADS polls (Abramson et al. 2009)',
  fields: optimumFields,
  goals: { least: 1, most: Number.POSITIVE_INFINITY },
  learner: optimumLearner,
});
