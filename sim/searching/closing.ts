import { bestOf, type Evolution, evolved, type Habitat, type Judged, originOf } from './evolve.ts';
import { type Genes, pointOf, type Scale } from './genes.ts';
import { better, type Outcome } from './outcome.ts';
import { neighbours, type Place, type Polling, pollAround, polled } from './poll.ts';
import { streamOf } from './stream.ts';

/*
 * The last steps about the best design: a poll; then, while designs are left to evaluate, small evolutions close about
 * it and about its neighbours in whole numbers and lists, with these held: a part of the next size is often better only
 * once all else has followed. After C. Audet and J. Dennis, "Pattern search algorithms for mixed variable programming",
 * SIAM J. Optim. 11 (2001) 573–594, whose extended poll also settles the neighbours before it judges them; evolutions
 * take the place of polls there, for these crawl where criteria meet at a sharp edge.
 */

/** All that it knows between two rounds. */
export interface Closing {
  readonly home: Judged;
  /** Places still to settle; null before the first poll has ended. */
  readonly queue: readonly Start[] | null;
  readonly now: { readonly polling: Polling } | Small | null;
  readonly spent: number;
  readonly budget: number;
}

/** A place to settle. */
interface Start {
  readonly genes: Genes;
  /** Whether whole numbers and lists are held. */
  readonly hold: boolean;
}

/** A small evolution about a place, with the designs that it may evaluate. */
interface Small {
  readonly evolution: Evolution;
  readonly start: Start;
  readonly budget: number;
  /** Designs that had been evaluated before it: its chance is its own. */
  readonly begun: number;
}

/** Steps and spreads, as shares of an axis: the finest step is far below what anybody can build. */
const shares = { finest: 1e-8, first: 1e-3, about: 0.01, neighbour: 0.1 } as const;

/** Designs of a small evolution for each range. */
const perRange = 200;

/** About a design, with a first step as a share of each axis and the designs that may be evaluated. */
export function closingIn(home: Judged, step: number, budget: number, place: Place): Closing {
  const polling = pollFrom(home, Math.max(shares.first, step), budget, place);
  return onward({ home, queue: null, now: { polling }, spent: 0, budget }, place);
}

const pollFrom = (home: Judged, step: number, budget: number, place: Place): Polling =>
  pollAround(home, { step, least: shares.finest, budget }, place);

/** The designs to be judged next; none at the end. */
export function closingTrials({ now }: Closing, { scales }: Place): readonly Genes[] {
  if (now === null) return [];
  if ('polling' in now) return now.polling.trials;
  return now.evolution.trials.map(({ genes }) => settled(genes, now.start, scales));
}

/** Genes of a small evolution with the held axes put back. */
const settled = (genes: Genes, start: Start, scales: readonly Scale[]): Genes =>
  start.hold ? genes.map((share, d) => (isRange(scales[d]) ? share : (start.genes[d] as number))) : genes;

const isRange = (scale: Scale | undefined): boolean => scale !== undefined && !Number.isFinite(scale.size);

/** What is known once the trials were judged, with the next in place. */
export function closed(closing: Closing, outcomes: readonly Outcome[], place: Place): Closing {
  const { now } = closing;
  if (now === null) return closing;
  const spent = closing.spent + outcomes.length;
  const next =
    'polling' in now
      ? { polling: polled(now.polling, outcomes, place) }
      : { ...now, evolution: evolved(now.evolution, outcomes, habitatOf(now, place)) };
  return onward({ ...closing, spent, now: next }, place);
}

/** Goes on with the next place, while that at hand has nothing more to try. */
function onward(closing: Closing, place: Place): Closing {
  let next = closing;
  while (next.now !== null && closingTrials(next, place).length === 0) next = withNext(next, next.now, place);
  return next;
}

function withNext(closing: Closing, now: NonNullable<Closing['now']>, place: Place): Closing {
  const { home, spent, budget } = closing;
  const left = budget - spent;
  if (left <= 0) return { ...closing, now: null };
  const found = 'polling' in now ? now.polling.centre : judgedIn(now, place);
  const gained = gains(found, home);
  const best = better(found.outcome, home.outcome) < 0 ? found : home;
  if (gained && !('polling' in now))
    return {
      ...closing,
      home: best,
      queue: null,
      now: { polling: pollFrom(best, shares.first, left, place) },
    };
  const again = closing.queue === null || closing.queue.length === 0;
  const starts = again ? startsAround(best, place, spent) : (closing.queue ?? []);
  const [start, ...queue] = starts;
  if (start === undefined) return { ...closing, home: best, now: null };
  const small = {
    start,
    begun: spent,
    budget: Math.min(perRange * ranges(place), Math.ceil(left / starts.length)),
  };
  const spread = start.hold ? shares.neighbour : shares.about;
  const evolution = originOf(habitatOf(small, place), { centre: start.genes, spread });
  return { ...closing, home: best, queue, now: { ...small, evolution } };
}

const ranges = ({ scales }: Place): number => scales.filter(isRange).length;

const judgedIn = ({ evolution, start }: Small, place: Place): Judged => {
  const { genes, outcome } = bestOf(evolution);
  return { genes: settled(genes, start, place.scales), outcome };
};

/** Where a small evolution goes on: the same for all of its generations. */
function habitatOf({ start, budget, begun }: Omit<Small, 'evolution'>, { scales, seed }: Place): Habitat {
  const { genes, hold } = start;
  return {
    scales: hold
      ? scales.map((scale, d) => (isRange(scale) ? scale : held(scale, genes[d] as number)))
      : scales,
    seed: Math.floor(streamOf(seed, 'small', begun)() * 2 ** 32),
    today: pointOf(scales, genes),
    budget,
  };
}

const held = (scale: Scale, share: number): Scale => ({
  size: 1,
  ordered: true,
  valueOf: () => scale.valueOf(share),
  shareOf: () => share,
});

/** Whether a design is better by more than the sixth digit. */
function gains(found: Judged, home: Judged): boolean {
  const by = better(home.outcome, found.outcome);
  const [a, b] = [found.outcome, home.outcome];
  if (by <= 0 || a.goals === null || b.goals === null || a.violation !== b.violation) return by > 0;
  return by > 1e-6 * Math.abs(a.goals[0] ?? 0);
}

/** The design itself, where it has ranges, and its neighbours in axes of finite size beside them. */
function startsAround({ genes }: Judged, { scales, seed }: Place, spent: number): Start[] {
  if (!scales.some(isRange)) return [];
  const draw = streamOf(seed, 'neighbours', spent);
  const beside = scales.flatMap((scale, d) =>
    neighbours(scale, genes[d] as number, 0, draw).map((share) => ({
      genes: genes.with(d, share),
      hold: true,
    })),
  );
  return [{ genes, hold: false }, ...beside];
}
