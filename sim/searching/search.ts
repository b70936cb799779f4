import { type Problem, Problems, problemLine } from '../../shared/problem.ts';
import type { Inner, Kept, Learner, MethodKind, Plan, Task } from './method.ts';
import { type Outcome, soundOutcome } from './outcome.ts';
import { type MethodOptions, methodKinds } from './registry.ts';
import { checkSpace, keyOf, middleOf, type Point, type Space } from './space.ts';

/** What a search knows, for JSON. */
export interface SearchState {
  readonly method: string;
  readonly knows: Kept;
}

/**
 * A search that is under way. It evaluates nothing itself: it asks for points and is told what they came to. What it
 * asks for next depends on what it was told, but neither on the order of telling nor on how many points are asked for
 * at a time, so the answers are the same for any number of workers.
 */
export interface Search {
  /**
   * The next points to evaluate, at most `n`. Fewer, or none, where the next ones depend on points that were asked for
   * and not yet told, or at the end.
   */
  ask(n: number): readonly Point[];
  /**
   * What a point came to that was asked for and not yet told.
   * @throws RangeError for any other point
   */
  tell(point: Point, outcome: Outcome): void;
  /** Whether every point was asked for and told. */
  readonly done: boolean;
  /** Points that it will ask for in all: exact for a plan, at most so many for others. */
  readonly size: number;
  /** Given where a point is to be judged by several samples: tell the outcome that `percentileOutcome` makes of them. */
  readonly inner: Inner | undefined;
  /** All that it knows. A search begun with it asks again for points that were not told, and then goes on alike. */
  state(): SearchState;
}

/** What a search may begin with. */
export interface Beginning {
  /** Today's design; the middle of every axis when left out. */
  readonly today?: Point;
  /** Where an earlier search with the same space, options and seed stood. */
  readonly state?: SearchState;
}

const kindOf = (name: string): MethodKind | undefined =>
  (methodKinds as readonly unknown[] as readonly MethodKind[]).find(({ kind }) => kind === name);

/** What is wrong with a space and the options of a search through it. Empty: it can begin. */
export function checkSearch(space: Space, options: MethodOptions): readonly Problem[] {
  const problems = new Problems();
  const method = kindOf(options.kind);
  problems.add(checkSpace(space));
  if (method === undefined) problems.error('method', `'${options.kind}' is no way to search`);
  else if (!problems.failed) problems.add(method.check?.({ space, options }) ?? []);
  return problems.list;
}

/**
 * Begins a search, or goes on with one.
 * @param seed whole number: all chance in the search follows from it
 * @throws RangeError where `checkSearch` finds an error, or where the state is one of another way to search
 */
export function begin(space: Space, options: MethodOptions, seed: number, from: Beginning = {}): Search {
  const wrong = checkSearch(space, options).filter(({ severity }) => severity === 'error');
  const method = kindOf(options.kind);
  if (wrong.length > 0 || method === undefined) throw new RangeError(wrong.map(problemLine).join('; '));
  if (from.state !== undefined && from.state.method !== method.kind)
    throw new RangeError(`the state is one of '${from.state.method}', not of '${method.kind}'`);
  const task: Task<never> = {
    space,
    options: options as never,
    seed,
    today: from.today ?? space.map(middleOf),
  };
  const inner = method.inner?.(options as never);
  return 'plan' in method
    ? new PlannedSearch(method.kind, method.plan(task), inner, from.state)
    : new LearningSearch(method.kind, method.learner(task), inner, from.state);
}

/** Points by key that were asked for and not told, with their places; equal ones in the order of asking. */
class Open {
  readonly #places = new Map<string, number[]>();

  add(point: Point, place: number): void {
    const key = keyOf(point);
    const places = this.#places.get(key);
    if (places === undefined) this.#places.set(key, [place]);
    else places.push(place);
  }

  /** @throws RangeError for a point that is not open */
  take(point: Point): number {
    const key = keyOf(point);
    const places = this.#places.get(key);
    const place = places?.shift();
    if (place === undefined) throw new RangeError(`the point ${key} was not asked for, or told before`);
    if (places?.length === 0) this.#places.delete(key);
    return place;
  }

  get places(): readonly number[] {
    return [...this.#places.values()].flat().sort((a, b) => a - b);
  }

  get size(): number {
    return this.#places.size;
  }
}

interface PlanKnows {
  readonly next: number;
  /** Asked for and not told, before `next`. */
  readonly open: readonly number[];
}

/** A plan gone through in its order: it remembers where it is, and nothing of what it was told. */
class PlannedSearch implements Search {
  readonly #kind: string;
  readonly #plan: Plan;
  readonly #open = new Open();
  readonly inner: Inner | undefined;
  /** Places to ask for again, then all from `#next` on. */
  #again: readonly number[] = [];
  #againAt = 0;
  #next = 0;

  constructor(kind: string, plan: Plan, inner: Inner | undefined, state: SearchState | undefined) {
    this.#kind = kind;
    this.#plan = plan;
    this.inner = inner;
    if (state === undefined) return;
    const { next, open } = state.knows as unknown as PlanKnows;
    this.#next = next;
    this.#again = [...open];
  }

  ask(n: number): readonly Point[] {
    const asked: Point[] = [];
    while (asked.length < n) {
      const place = this.#again[this.#againAt] ?? this.#next;
      if (place >= this.#plan.size) break;
      if (this.#againAt < this.#again.length) this.#againAt += 1;
      else this.#next += 1;
      const point = this.#plan.point(place);
      this.#open.add(point, place);
      asked.push(point);
    }
    return asked;
  }

  tell(point: Point, _outcome: Outcome): void {
    this.#open.take(point);
  }

  get done(): boolean {
    return this.#againAt === this.#again.length && this.#next >= this.#plan.size && this.#open.size === 0;
  }

  get size(): number {
    return this.#plan.size;
  }

  state(): SearchState {
    const open = [...this.#open.places, ...this.#again.slice(this.#againAt)].sort((a, b) => a - b);
    return { method: this.#kind, knows: { next: this.#next, open } };
  }
}

interface LearnKnows {
  readonly state: Kept;
  readonly told: readonly (Outcome | null)[];
}

/** Batch after batch: the next one is made when the last point of the one before was told. */
class LearningSearch implements Search {
  readonly #kind: string;
  readonly #learner: Learner<Kept>;
  readonly inner: Inner | undefined;
  #state: Kept;
  #batch: readonly Point[];
  #told: (Outcome | null)[];
  /** Places of the batch still to be told, as they stood when it began, and how many of them were asked for and told. */
  #waiting: readonly number[];
  #asked = 0;
  #answered = 0;
  #open = new Open();

  constructor(kind: string, learner: Learner<Kept>, inner: Inner | undefined, from: SearchState | undefined) {
    const knows = from?.knows as unknown as LearnKnows | undefined;
    this.#kind = kind;
    this.#learner = learner;
    this.inner = inner;
    this.#state = knows?.state ?? learner.start();
    this.#batch = learner.batch(this.#state);
    this.#told = knows === undefined ? this.#batch.map(() => null) : [...knows.told];
    this.#waiting = this.#told.flatMap((outcome, place) => (outcome === null ? [place] : []));
  }

  ask(n: number): readonly Point[] {
    const places = this.#waiting.slice(this.#asked, this.#asked + n);
    this.#asked += places.length;
    return places.map((place) => {
      const point = this.#batch[place] as Point;
      this.#open.add(point, place);
      return point;
    });
  }

  tell(point: Point, outcome: Outcome): void {
    this.#told[this.#open.take(point)] = soundOutcome(outcome);
    this.#answered += 1;
    if (this.#answered < this.#waiting.length) return;
    this.#state = this.#learner.learn(this.#state, this.#batch, this.#told as Outcome[]);
    this.#batch = this.#learner.batch(this.#state);
    this.#told = this.#batch.map(() => null);
    this.#waiting = this.#batch.map((_, place) => place);
    this.#asked = 0;
    this.#answered = 0;
    this.#open = new Open();
  }

  get done(): boolean {
    return this.#batch.length === 0;
  }

  get size(): number {
    return this.#learner.size;
  }

  state(): SearchState {
    return { method: this.#kind, knows: { state: this.#state, told: [...this.#told] as unknown as Kept } };
  }
}
