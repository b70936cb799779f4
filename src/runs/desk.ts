import type { Checked, Problem } from '../../shared/problem.ts';
import type { Solved } from '../solved.ts';
import type { Progress } from '../workers/protocol.ts';
import type { Outcome } from '../workers/solver.ts';
import { type Drawn, drawnFrom } from '../workers/told.ts';
import type { Mode } from './mode.ts';

export type { Drawn };

/** What the desk is doing with the newest document. */
export type Phase =
  | { readonly kind: 'idle' }
  /** A change came in; the run starts when no further one follows. */
  | { readonly kind: 'waiting' }
  | { readonly kind: 'running'; readonly progress: Progress }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'failed'; readonly message: string };

/** A run with how long it took. */
export interface DoneRun extends Solved {
  /** ms in the engine. */
  readonly took: number;
}

export interface DeskState {
  /** How the newest document is looked at: standing, crawling or driven. All runs below are of this mode. */
  readonly mode: Mode;
  readonly phase: Phase;
  /** The newest good document, not yet driven perhaps. */
  readonly drawn: Drawn | undefined;
  /** The run on show. */
  readonly solved: DoneRun | undefined;
  /** The run that the one on show is held against. */
  readonly before: DoneRun | undefined;
  /** `before` stays what it is when further runs come in. */
  readonly pinned: boolean;
  /** What the kept run was called when it was kept. */
  readonly keptAs?: string | undefined;
  /** What is wrong with the newest document. */
  readonly problems: readonly Problem[];
  /** The run on show is not the newest document's. */
  readonly stale: boolean;
}

/** What the desk works with; tests hand in their own. */
export interface DeskTools {
  /** Reads and compiles a document in the window; undefined as long as what does that is not loaded. */
  prepare(document: unknown): Checked<Drawn> | undefined;
  /** Loads what reads documents. Rejects when it cannot be had. */
  read(): Promise<unknown>;
  solver: {
    solve(document: unknown, tell: (progress: Progress) => void, mode: Mode): Promise<Outcome>;
    cancel(mode: Mode): void;
  };
  /** Calls back after `ms`; returns the way to stop it. */
  later(ms: number, then: () => void): () => void;
}

/** How long an edit waits for the next one before it is driven, ms: about the pace of held arrow keys. */
export const DEBOUNCE = 150;

/** How long a run must have been on show before others are held against it, ms: not the last step of a drag. */
const REST = 600;

/** What is kept of a mode while another one is on show. */
interface Kept extends Pick<DeskState, 'solved' | 'before' | 'pinned'> {
  readonly document: unknown;
}

const EMPTY: DeskState = {
  mode: 'drive',
  phase: { kind: 'idle' },
  drawn: undefined,
  solved: undefined,
  before: undefined,
  pinned: false,
  problems: [],
  stale: false,
};

/**
 * Turns the newest document into the run on show: checks it at once, has it solved in a worker, keeps the run before it
 * to be compared with. Holds runs, which are nobody's document, so it is not a store of documents.
 */
export class Desk {
  #state: DeskState;
  readonly #tools: DeskTools;
  readonly #watchers = new Set<() => void>();
  readonly #kept = new Map<Mode, Kept>();
  #forget: () => void = () => undefined;
  #unrest: () => void = () => undefined;
  #document: unknown;
  /** Counts what was asked for, and which of it is on show: a balance may be shown though a newer one is on its way. */
  #asked = 0;
  #shown = 0;
  /** The run that further ones are held against, and the document of the run on show. */
  #rested: DoneRun | undefined;
  #solvedOf: unknown;

  constructor(tools: DeskTools, mode: Mode = 'drive') {
    this.#tools = tools;
    this.#state = { ...EMPTY, mode };
  }

  /** The present state; the same object until something changes. */
  readonly state = (): DeskState => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Takes a document that was just opened: earlier runs are of no interest to it. Solved without waiting. */
  open(document: unknown): void {
    this.#kept.clear();
    this.#shown = this.#asked;
    this.#change({ solved: undefined, drawn: undefined, before: undefined, pinned: false });
    this.#take(document, 0);
  }

  /** Takes a change of the open document. A drive under way is called off; a balance is found at once. */
  revise(document: unknown): void {
    this.#take(document, this.#state.mode === 'drive' ? DEBOUNCE : 0);
  }

  /** Solves the newest document once more, after it was cancelled or failed. */
  again(): void {
    this.#take(this.#document, 0);
  }

  /** Looks at the document in another way. What was found in that way before is shown at once. */
  look(mode: Mode): void {
    const { mode: last, solved, before, pinned } = this.#state;
    if (mode === last) return;
    this.#forget();
    this.#tools.solver.cancel(last);
    this.#kept.set(last, { document: this.#solvedOf, solved, before, pinned });
    this.#shown = this.#asked;
    const kept = this.#kept.get(mode);
    const found = { solved: kept?.solved, before: kept?.before, pinned: kept?.pinned ?? false };
    const phase: Phase = { kind: 'idle' };
    this.#solvedOf = kept?.document;
    this.#rested = kept?.solved;
    this.#change({ mode, ...found, phase });
    const ready = kept?.solved !== undefined && kept.document === this.#document;
    if (ready) this.#change({ stale: false });
    else if (this.#document !== undefined) this.#take(this.#document, 0);
  }

  /** Calls the run off; what is on show stays. */
  cancel(): void {
    this.#forget();
    this.#tools.solver.cancel(this.#state.mode);
    this.#change({ phase: { kind: 'cancelled' } });
  }

  /** Keeps the run on show to hold all further ones against. `as`: what it is called meanwhile. */
  keep(as?: string): void {
    if (this.#state.solved !== undefined)
      this.#change({ before: this.#state.solved, pinned: true, keptAs: as });
  }

  /** Lets go of the run that the one on show is held against. */
  clear(): void {
    this.#change({ before: undefined, pinned: false });
  }

  /** Shows a run of figures that are only being tried: the document stays as it is. */
  attempt(run: DoneRun): void {
    this.#show(run, false, 'tried');
  }

  /** Shows a run again that was on show before something was tried. */
  restore(run: DoneRun, before: DoneRun | undefined): void {
    this.#rested = run;
    this.#change({ solved: run, before, stale: false });
  }

  #take(document: unknown, wait: number): void {
    this.#document = document;
    this.#forget();
    if (this.#state.mode === 'drive') this.#tools.solver.cancel('drive');
    const prepared = this.#tools.prepare(document);
    const stale = this.#state.solved !== undefined;
    this.#asked += 1;
    if (prepared === undefined) {
      this.#takeUnread(document, wait, stale);
      return;
    }
    const { problems } = prepared;
    if (!prepared.ok) {
      this.#change({ problems, stale, phase: { kind: 'idle' } });
      return;
    }
    this.#change({ problems, stale, drawn: prepared.value, phase: { kind: 'waiting' } });
    const begin = () => void this.#solve(document, prepared.value);
    if (wait === 0) begin();
    else this.#forget = this.#tools.later(wait, begin);
  }

  /**
   * Takes a document that the window cannot read yet. The very first one is being driven already, and the worker tells what
   * it read; anything else waits for the window's own reader.
   */
  #takeUnread(document: unknown, wait: number, stale: boolean): void {
    const asked = this.#asked;
    this.#change({ problems: [], stale, phase: { kind: 'waiting' } });
    if (asked === 1 && this.#state.mode === 'drive') void this.#solve(document, undefined);
    else this.#onceRead(asked, () => this.#take(document, wait));
  }

  /** Does something when documents can be read, unless something else has been asked for meanwhile. */
  #onceRead(asked: number, then: () => void): void {
    this.#tools.read().then(
      () => asked === this.#asked && then(),
      () =>
        asked === this.#asked &&
        this.#change({ phase: { kind: 'failed', message: 'what reads documents could not be loaded' } }),
    );
  }

  /** Puts the window's own reading of the document in place of what a worker told of it. */
  reread(): void {
    const prepared = this.#tools.prepare(this.#document);
    const { solved, drawn, stale } = this.#state;
    if (prepared?.ok !== true || drawn === undefined || stale) return;
    const { value, problems } = prepared;
    const { mechanism, ground } = value;
    this.#change({
      drawn: value,
      problems,
      ...(solved === undefined ? {} : { solved: { ...solved, mechanism, ground } }),
    });
  }

  async #solve(document: unknown, known: Drawn | undefined): Promise<void> {
    const asked = this.#asked;
    const { mode } = this.#state;
    const isNewest = () => asked === this.#asked;
    this.#change({ phase: { kind: 'running', progress: { time: 0, station: 0, share: 0 } } });
    const outcome = await this.#tools.solver.solve(
      document,
      (progress) => isNewest() && this.#change({ phase: { kind: 'running', progress } }),
      mode,
    );
    // What came late is of no use to a drive; a balance while figures move is shown as long as it is newer than the last.
    if (asked <= this.#shown || mode !== this.#state.mode || outcome.kind === 'cancelled') return;
    if (!isNewest() && (mode === 'drive' || outcome.kind !== 'solved')) return;
    if (outcome.kind === 'refused') this.#change({ problems: outcome.problems, phase: { kind: 'idle' } });
    else if (outcome.kind === 'failed') this.#change({ phase: { kind: 'failed', message: outcome.message } });
    else {
      const { told } = outcome;
      const drawn = known ?? (told && drawnFrom(told));
      if (drawn === undefined) {
        this.#onceRead(asked, () => this.#take(document, 0));
        return;
      }
      this.#shown = asked;
      this.#solvedOf = document;
      if (known === undefined) this.#change({ drawn, problems: told?.problems ?? [] });
      this.#show({ ...drawn, ...outcome }, !isNewest());
      if (isNewest()) this.#change({ phase: { kind: 'idle' } });
    }
  }

  #show({ mechanism, ground, recording, report, took }: DoneRun, stale: boolean, as?: 'tried'): void {
    const { solved: last, before, pinned, mode } = this.#state;
    const solved = { mechanism, ground, recording, report, took };
    const rested = mode === 'drive' || this.#rested === undefined ? last : this.#rested;
    this.#unrest();
    if (mode !== 'drive') {
      this.#rested = rested;
      // However long a hand rests in the middle of a drag: what it tries is held against what was there before.
      if (as === undefined)
        this.#unrest = this.#tools.later(REST, () => {
          this.#rested = solved;
        });
    }
    this.#change({ solved, before: pinned ? before : rested, stale });
  }

  #change(change: Partial<DeskState>): void {
    this.#state = { ...this.#state, ...change };
    for (const tell of this.#watchers) tell();
  }
}
