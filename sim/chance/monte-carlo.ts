import { sobol } from '../searching/sobol.ts';
import type { Setting } from '../studies/knob.ts';
import { type Band, bandOf } from './bands.ts';
import { clopperPearson, isNarrow, type Probability } from './interval.ts';
import { type Percentiles, percentilesOf } from './percentile.ts';
import { settingsAt, type Uncertain } from './spreads.ts';

/** One vehicle drawn by chance. */
export interface Draw {
  /** From 0; with the seed it decides the draw. */
  readonly number: number;
  readonly settings: readonly Setting[];
}

/** What a drawn vehicle came to. */
export interface DrawOutcome {
  /** Whether each criterion holds; null where it could not be judged: then none holds. */
  readonly holds: readonly boolean[] | null;
  /** The same measures of every draw, SI; null where one has none. */
  readonly measures: readonly (number | null)[];
  /** Rows from `alongStations`, the same ones of every draw: loads of wheels, for bands. */
  readonly rows?: readonly Float32Array[];
}

/** How draws are made, and how many. */
export interface DrawAsk {
  readonly uncertain: readonly Uncertain[];
  readonly seed: number;
  /** Number of criteria in every outcome. */
  readonly criteria: number;
  /** The interval of each probability is to be no wider. */
  readonly width: number;
  /** Most draws. */
  readonly most: number;
  /** Draws of the first stage, a power of two; 64 when left out. */
  readonly least?: number;
  /** Of the intervals; 0.95 when left out. */
  readonly confidence?: number;
}

/** How sure the answers are. */
export interface Sureness {
  readonly draws: number;
  /** Draws that could not be judged. */
  readonly failed: number;
  /** 'narrow': every interval is as narrow as was asked. 'spent': the most draws were made before. Undefined on the way. */
  readonly end: 'narrow' | 'spent' | undefined;
  /** That all criteria hold, and that each does. */
  readonly all: Probability;
  readonly criteria: readonly Probability[];
  /** Of each measure; null where no draw has it. */
  readonly measures: readonly (Percentiles | null)[];
}

/** Draws whose rows are kept for bands: the first ones of a Sobol' sequence are spread evenly themselves. */
const mostRows = 2048;

/**
 * Monte Carlo over Sobol' points, in stages: as many draws again as were made, until every probability's interval is
 * narrow enough or the budget is spent. Looking only when the number has doubled keeps the points even (they are so at
 * powers of two), and looks few times, so that stopping hardly bends the intervals. It evaluates nothing itself: `ask`
 * for draws, `tell` their outcomes in any order; answers follow from the outcomes alone.
 */
export class MonteCarlo {
  readonly #ask: DrawAsk;
  readonly #shares: (index: number) => readonly number[];
  readonly #told = new Map<number, Pick<DrawOutcome, 'holds' | 'measures'>>();
  readonly #rows = new Map<number, readonly Float32Array[]>();
  #stage: number;
  #asked = 0;

  /** @throws RangeError for more uncertain things than a Sobol' sequence has dimensions, or a budget below 1 */
  constructor(ask: DrawAsk) {
    if (!(ask.most >= 1)) throw new RangeError('at least one draw is needed');
    this.#ask = ask;
    this.#shares = ask.uncertain.length === 0 ? () => [] : sobol(ask.uncertain.length, ask.seed);
    // without anything uncertain every draw is the same
    this.#stage = ask.uncertain.length === 0 ? 1 : Math.min(ask.most, ask.least ?? 64);
  }

  /** The next draws, at most `n`; none while draws of this stage are to be told, and at the end. */
  ask(n: number): readonly Draw[] {
    if (this.#asked === this.#stage && this.#told.size === this.#stage) this.#grow();
    const to = Math.min(this.#stage, this.#asked + n);
    const draws: Draw[] = [];
    for (; this.#asked < to; this.#asked++) draws.push(this.draw(this.#asked));
    return draws;
  }

  /** The draw of a number, whether it was asked for or not. */
  draw(number: number): Draw {
    return { number, settings: settingsAt(this.#ask.uncertain, this.#shares(number)) };
  }

  /** @throws RangeError for a draw that was not asked for, or told before, or another number of criteria */
  tell(number: number, { holds, measures, rows }: DrawOutcome): void {
    if (!(number >= 0 && number < this.#asked) || this.#told.has(number))
      throw new RangeError(`draw ${number} was not asked for, or told before`);
    if (holds !== null && holds.length !== this.#ask.criteria)
      throw new RangeError(`${holds.length} criteria were told, ${this.#ask.criteria} are there`);
    this.#told.set(number, { holds, measures });
    if (rows !== undefined && number < mostRows) this.#rows.set(number, rows);
  }

  /** Whether no more draws are wanted. */
  get done(): boolean {
    return (
      this.#told.size === this.#asked && this.#asked === this.#stage && this.sureness().end !== undefined
    );
  }

  /** What is known by the draws that were told. */
  sureness(): Sureness {
    const { most, width, confidence, criteria, uncertain } = this.#ask;
    const told = [...this.#told].sort(([a], [b]) => a - b).map(([, outcome]) => outcome);
    const judged = told.flatMap(({ holds }) => (holds === null ? [] : [holds]));
    const counted = (held: number) => clopperPearson(held, told.length, confidence);
    const each = Array.from({ length: criteria }, (_, c) =>
      counted(judged.filter((holds) => holds[c]).length),
    );
    const all = counted(judged.filter((holds) => holds.every(Boolean)).length);
    const narrow = [all, ...each].every((probability) => isNarrow(probability, width));
    const whole = told.length === this.#stage && (narrow || told.length >= most || uncertain.length === 0);
    return {
      draws: told.length,
      failed: told.length - judged.length,
      end: whole ? (narrow || uncertain.length === 0 ? 'narrow' : 'spent') : undefined,
      all,
      criteria: each,
      measures: Array.from({ length: Math.max(0, ...told.map(({ measures }) => measures.length)) }, (_, m) =>
        percentilesOf(told.flatMap(({ measures }) => measures[m] ?? [])),
      ),
    };
  }

  /** Bands of the rows, one per name, over the first draws that have rows. */
  bands(names: readonly string[]): readonly Band[] {
    const rows = [...this.#rows].sort(([a], [b]) => a - b).map(([, each]) => each);
    return names.map((name, i) =>
      bandOf(
        name,
        rows.flatMap((each) => each[i] ?? []),
      ),
    );
  }

  #grow(): void {
    if (this.sureness().end === undefined) this.#stage = Math.min(this.#ask.most, 2 * this.#stage);
  }
}

/** The whole way at once, for an evaluation that answers at once. */
export function drawAll(ask: DrawAsk, evaluate: (draw: Draw) => DrawOutcome): MonteCarlo {
  const draws = new MonteCarlo(ask);
  for (let batch = draws.ask(ask.most); batch.length > 0; batch = draws.ask(ask.most))
    for (const draw of batch) draws.tell(draw.number, evaluate(draw));
  return draws;
}
