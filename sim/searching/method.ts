import type { z } from 'zod';
import type { Problem } from '../../shared/problem.ts';
import type { Outcome } from './outcome.ts';
import type { Point, Space } from './space.ts';

/** What a state is made of: what JSON keeps to the last bit. */
export type Kept = null | boolean | number | string | readonly Kept[] | { readonly [key: string]: Kept };

/** What a method starts from. */
export interface Task<P> {
  readonly space: Space;
  /** Its options, read by its `fields`. */
  readonly options: P;
  readonly seed: number;
  /** Today's design: where sweeps cross and where a search for the best begins. */
  readonly today: Point;
}

/** Points that are known before any is evaluated. */
export interface Plan {
  readonly size: number;
  /** @param index counted from 0 */
  point(index: number): Point;
}

/** One step of a method that learns: what it wants evaluated next, all together. Empty: it has come to its end. */
export interface Learner<State> {
  /** Most points that it may ask for. */
  readonly size: number;
  start(): State;
  batch(state: State): readonly Point[];
  /** What it knows once its whole batch was told, in the order of the batch. */
  learn(state: State, batch: readonly Point[], outcomes: readonly Outcome[]): State;
}

/** How many inner samples each design is judged by, and which percentile of them counts. */
export interface Inner {
  readonly samples: number;
  /** Above 0, below 1: 0.95 for 'as good as this or better in 95 of 100'. */
  readonly percentile: number;
}

interface Words<S extends z.ZodObject> {
  /** Name in the document, lower case with hyphens. */
  readonly kind: string;
  readonly title: string;
  /** Where it is written down. */
  readonly source: string;
  /** Strict object of its options. */
  readonly fields: S;
  /** How many goals it can take. */
  readonly goals: { readonly least: number; readonly most: number };
  /** What is wrong with its options for this space; none when left out. */
  check?(task: Omit<Task<z.output<S>>, 'seed' | 'today'>): readonly Problem[];
  inner?(options: z.output<S>): Inner;
}

/** One way to search. One file each in `methods`; one line in registry.ts. */
export type MethodKind<S extends z.ZodObject = z.ZodObject> = Words<S> &
  (
    | { plan(task: Task<z.output<S>>): Plan }
    // A learner's state is its own; nobody else looks into it.
    | { learner(task: Task<z.output<S>>): Learner<Kept> }
  );

/** Declares a method; keeps its name, and the type of its options. */
export function defineMethod<S extends z.ZodObject, const N extends string>(
  kind: MethodKind<S> & { readonly kind: N },
): MethodKind<S> & { readonly kind: N } {
  return kind;
}
