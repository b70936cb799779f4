import type { Drawn } from '../runs/desk.ts';
import type { DocumentState } from '../store/document.ts';
import type { Claim } from './claim.ts';
import { noteLeft } from './journal.ts';
import { pictureOf } from './picture.ts';
import { type Head, type Kept, type Plan, planOf } from './record.ts';
import { NotOurs, type Shelf } from './shelf.ts';
import { type Trouble, troubleOf } from './trouble.ts';

/** How long a change waits for the next one before it is written, and how long the first of many waits at most, ms. */
export const REST = 300;
const MOST = 1000;

/** What came of a write. */
export type Outcome =
  | { readonly kind: 'waiting' }
  | { readonly kind: 'kept'; readonly at: number }
  | { readonly kind: 'trouble'; readonly trouble: Trouble }
  | { readonly kind: 'taken' };

/** What a hold works with; tests hand in their own. */
export interface HoldTools {
  readonly shelf: Pick<Shelf, 'write' | 'writeLeaving'>;
  /** What is drawn now, for the picture in lists. */
  drawn(): Drawn | undefined;
  tell(outcome: Outcome): void;
  /** ms since 1970. */
  now(): number;
  /** Calls back after `ms`; returns the way to stop it. */
  later(ms: number, then: () => void): () => void;
}

/** What a hold begins with. */
export interface Begin {
  readonly id: string;
  readonly owner: string;
  readonly claim: Claim;
  readonly created: number;
  readonly kept?: Kept;
  readonly head?: Head;
}

/** One document that this window keeps: writes each of its states into the database, in their order. */
export class Hold {
  readonly id: string;
  readonly #begin: Begin;
  readonly #tools: HoldTools;
  #kept: Kept | undefined;
  #head: Head | undefined;
  #latest: DocumentState | undefined;
  #dirty = false;
  #underWay = false;
  #since = 0;
  #stop = (): void => undefined;
  #busy: Promise<void> = Promise.resolve();
  #given = false;

  constructor(begin: Begin, tools: HoldTools) {
    this.id = begin.id;
    this.#begin = begin;
    this.#tools = tools;
    this.#kept = begin.kept;
    this.#head = begin.head;
  }

  /** Settles when another tab has taken the document away. */
  get lost(): Promise<void> {
    return this.#begin.claim.lost;
  }

  /** Whether everything that was put here is in the database. */
  get clean(): boolean {
    return !this.#dirty;
  }

  /** Takes the newest state; it is written when no further one follows for a moment. */
  put(state: DocumentState): void {
    if (this.#given) return;
    const now = this.#tools.now();
    if (!this.#dirty) this.#since = now;
    this.#latest = state;
    this.#dirty = true;
    this.#tools.tell({ kind: 'waiting' });
    this.#stop();
    this.#stop = this.#tools.later(
      Math.min(REST, Math.max(0, this.#since + MOST - now)),
      () => void this.flush(),
    );
  }

  /** Lets every write wait for something that has to be in the database first. */
  after(first: Promise<unknown>): void {
    const failed = (error: unknown): void => this.#tools.tell({ kind: 'trouble', trouble: troubleOf(error) });
    this.#busy = this.#busy.then(() => first).then(() => undefined, failed);
  }

  /** Writes the newest state now; settles when it is there or has failed. */
  flush(): Promise<void> {
    this.#stop();
    this.#busy = this.#busy.then(() => this.#write(false));
    return this.#busy;
  }

  /** The page is being left: what is not written yet is handed to the browser at once. */
  leave(): void {
    this.#stop();
    const state = this.#latest;
    if (!(this.#dirty || this.#underWay) || state === undefined || this.#given) return;
    const plan = planOf(this.id, state, this.#kept);
    const head = this.#headOf(state, plan);
    noteLeft(head, plan);
    try {
      this.#tools.shelf.writeLeaving(head, plan);
    } catch {
      // The browser has closed the database already; the state before is there.
    }
  }

  /** Writes what is left and gives the right to write to whoever waits for it. */
  async close(): Promise<void> {
    await this.flush();
    this.#given = true;
    this.#begin.claim.release();
  }

  /** Another tab has it: nothing is written any more. */
  drop(): void {
    this.#stop();
    this.#given = true;
  }

  async #write(again: boolean): Promise<void> {
    const state = this.#latest;
    if (!this.#dirty || state === undefined || this.#given) return;
    this.#dirty = false;
    this.#underWay = true;
    const plan = planOf(this.id, state, this.#kept);
    const head = this.#headOf(state, plan);
    try {
      await this.#tools.shelf.write(head, plan, this.#kept === undefined);
      this.#kept = plan.kept;
      this.#head = head;
      if (!this.#dirty) this.#tools.tell({ kind: 'kept', at: head.changed });
    } catch (error) {
      this.#dirty = true;
      await this.#failed(error, again);
    } finally {
      this.#underWay = false;
    }
  }

  async #failed(error: unknown, again: boolean): Promise<void> {
    if (error instanceof NotOurs && error.kind === 'taken') {
      this.drop();
      this.#tools.tell({ kind: 'taken' });
    } else if (error instanceof NotOurs && !again) {
      // Somebody has cleared the site's data: what is open here is written as a whole.
      this.#kept = undefined;
      await this.#write(true);
    } else this.#tools.tell({ kind: 'trouble', trouble: troubleOf(error) });
  }

  #headOf(state: DocumentState, { kept }: Plan): Head {
    const drawn = this.#tools.drawn();
    const picture = drawn === undefined ? this.#head?.picture : pictureOf(drawn.mechanism);
    const { title } = (state.raw ?? {}) as { title?: unknown };
    return {
      id: this.id,
      name: state.name,
      title: typeof title === 'string' ? title : '',
      created: this.#begin.created,
      changed: this.#tools.now(),
      ...(picture === undefined ? {} : { picture }),
      owner: this.#begin.owner,
      first: kept.first,
      done: state.past.length,
      steps: kept.timeline.length,
    };
  }
}
