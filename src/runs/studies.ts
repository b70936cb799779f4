import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Influences } from '../../sim/studies/matters.ts';
import type { Begin } from '../workers/study.ts';
import type { StudyNews, StudyOrder, ToldLimits, ToldMass, ToldRemedies } from '../workers/study-protocol.ts';

/** A job that was asked for on a document, as far as it is. */
export type Job<Result> =
  | { readonly kind: 'none' }
  | { readonly kind: 'running'; readonly of: unknown; readonly share: number; readonly next: string }
  | { readonly kind: 'done'; readonly of: unknown; readonly result: Result }
  | { readonly kind: 'failed'; readonly of: unknown; readonly message: string };

export interface StudiesState {
  readonly matters: Job<Influences>;
  /** The table alone, and with its curves over grip and mass. */
  readonly limits: Job<ToldLimits>;
  readonly curves: Job<ToldLimits>;
  readonly mass: Job<ToldMass>;
  readonly remedies: Job<ToldRemedies>;
}

const NONE = { kind: 'none' } as const;

/** Jobs that somebody asked for and may call off; their answers stay while other panels are looked at. */
export class Studies {
  #state: StudiesState = { matters: NONE, limits: NONE, curves: NONE, mass: NONE, remedies: NONE };
  readonly #begin: Begin;
  readonly #ends = new Map<keyof StudiesState, () => void>();
  readonly #watchers = new Set<() => void>();

  constructor(begin: Begin) {
    this.#begin = begin;
  }

  readonly state = (): StudiesState => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Finds how much every figure of a document matters to a measure. */
  matters(document: unknown, measure: string): void {
    this.#ask('matters', { kind: 'matters', document, measure });
  }

  /** Finds the limits of a document's vehicle. */
  limits(document: unknown): void {
    this.#ask('limits', { kind: 'limits', document, curves: false });
  }

  /** Finds the limits over grip and mass. */
  curves(document: unknown): void {
    this.#ask('curves', { kind: 'limits', document, curves: true });
  }

  /**
   * Finds how heavy a document's vehicle may come out (`mass`; `at`: where more mass goes, drawn, m), or what would help
   * what gives first (`remedies`).
   */
  ledger(what: 'mass' | 'remedies', document: unknown, at?: Vec2): void {
    this.#ask(what, { kind: what, document, ...(at === undefined ? {} : { at }) });
  }

  /** Calls a job off. */
  cancel(what: keyof StudiesState): void {
    this.#ends.get(what)?.();
    this.#ends.delete(what);
    if (this.#state[what].kind === 'running') this.#change({ [what]: NONE });
  }

  #ask(what: keyof StudiesState, order: Exclude<StudyOrder, { kind: 'map' }>): void {
    this.cancel(what);
    const of = order.document;
    this.#change({ [what]: { kind: 'running', of, share: 0, next: '' } });
    this.#ends.set(
      what,
      this.#begin(order, (news) => this.#hear(what, of, news)),
    );
  }

  #hear(what: keyof StudiesState, of: unknown, news: StudyNews): void {
    if (news.kind === 'progress')
      this.#change({ [what]: { kind: 'running', of, share: news.share, next: news.next ?? '' } });
    if (news.kind === 'failed') this.#change({ [what]: { kind: 'failed', of, message: news.message } });
    if ('result' in news) this.#change({ [what]: { kind: 'done', of, result: news.result } });
  }

  #change(change: Partial<StudiesState>): void {
    this.#state = { ...this.#state, ...change };
    for (const tell of this.#watchers) tell();
  }
}
