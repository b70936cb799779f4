import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Knob, Setting } from '../../sim/studies/knob.ts';
import type { Json } from '../documents/json.ts';
import { type Change, type DocumentStore, editAll } from '../store/document.ts';
import type { LiveOutcome, LiveSolver } from '../workers/live.ts';
import type { Desk, DoneRun, Drawn } from './desk.ts';

/** What is being dragged. */
export interface DragState {
  /** Name of the pivot that is held; undefined when none is. */
  readonly held: string | undefined;
  /** Where it is held, and where it is in the run on show; drawn, m. */
  readonly at: Vec2 | undefined;
  readonly shown: Vec2 | undefined;
  /** Why the vehicle cannot be built or cannot stand with the pivot there: on show is the last that could. */
  readonly why: string | undefined;
}

/** What a drag works with; tests hand in their own. */
export interface DragTools {
  readonly documents: DocumentStore;
  readonly desk: Pick<Desk, 'state' | 'attempt' | 'restore'>;
  readonly live: Pick<LiveSolver, 'put'>;
  /** What turns figures into vehicles and edits; undefined as long as it is not loaded: nothing can be taken up then. */
  readonly means: () => Means | undefined;
}

type Means = typeof import('./means.ts');

/** A pin that can be moved: where it is drawn, m, and the knobs that move it forward and up. */
export interface Pin {
  readonly name: string;
  readonly at: Vec2;
  readonly x: Knob;
  readonly z: Knob;
}

/** A pivot in hand: what it was, what was on show, and the last place that gave an answer. */
interface Hold {
  readonly means: Means;
  readonly pivot: Pin;
  readonly drawn: Drawn;
  readonly document: unknown;
  readonly shown: DoneRun | undefined;
  readonly before: DoneRun | undefined;
  good: readonly Setting[];
  /** Let go, but the answer to the last place is still on its way. */
  leaving: boolean;
  /** Orders that were answered: an old answer never takes the place of a newer one. */
  asked: number;
  answered: number;
}

const NOTHING: DragState = { held: undefined, at: undefined, shown: undefined, why: undefined };

/** Finest place that a drag takes, as a share of the smallest wheel's radius; rounded down to a power of ten of a metre. */
const FINEST = 1 / 200;

/** The grid that places are taken on, m: 0.1 mm for a model, 1 mm for a truck. */
export const gridOf = ({ mechanism }: Pick<Drawn, 'mechanism'>): number =>
  10 ** Math.floor(Math.log10(mechanism.size * FINEST));

const onGrid = (value: number, now: number, grid: number): number =>
  now + Math.round((value - now) / grid) * grid;

/**
 * A pivot that is moved under the hand. While it is held every place is answered for by the live worker, the newest
 * first; the document is touched once, when it is let go.
 */
export class PivotDrag {
  readonly #tools: DragTools;
  readonly #watchers = new Set<() => void>();
  #state: DragState = NOTHING;
  #hold: Hold | undefined;

  constructor(tools: DragTools) {
    this.#tools = tools;
  }

  readonly state = (): DragState => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Moves a pin to a drawn point, m; takes it in hand first if it is not. */
  move(pin: Pin, at: Vec2): void {
    const { name } = pin;
    const hold = this.#hold?.pivot.name === name ? this.#hold : this.#take(pin);
    if (hold === undefined) return;
    const grid = gridOf(hold.drawn);
    const place = {
      x: onGrid(at.x, hold.pivot.at.x, grid),
      z: onGrid(at.z, hold.pivot.at.z, grid),
    };
    const { at: last } = this.#state;
    if (last !== undefined && last.x === place.x && last.z === place.z) return;
    const { x, z } = hold.pivot;
    const settings = hold.means.settingsFor([
      { knob: x, to: place.x },
      { knob: z, to: place.z },
    ]);
    hold.leaving = false;
    this.#change({ ...this.#state, held: name, at: place, shown: this.#state.shown ?? hold.pivot.at });
    this.#ask(hold, settings, place);
  }

  /**
   * Lets go: the last place that gave an answer goes into the document, as one edit. When the answer to the last place
   * of all is still on its way, that is waited for.
   */
  keep(): void {
    const hold = this.#hold;
    if (hold === undefined) return;
    if (hold.answered < hold.asked) hold.leaving = true;
    else this.#finish(hold);
  }

  #finish(hold: Hold): void {
    this.#letGo();
    const changes = changesFor(hold);
    if (changes.length > 0) editAll(this.#tools.documents, changes, `move ${hold.pivot.name}`);
    if (changes.length === 0 && hold.shown !== undefined) this.#tools.desk.restore(hold.shown, hold.before);
  }

  /** Gives up: what was on show before comes back. */
  restore(): void {
    const hold = this.#hold;
    if (hold === undefined) return;
    this.#letGo();
    if (hold.shown !== undefined) this.#tools.desk.restore(hold.shown, hold.before);
  }

  /** The document has become another one: nothing is held any more. */
  forget(): void {
    if (this.#hold !== undefined) this.#letGo();
  }

  #take(pivot: Pin): Hold | undefined {
    if (this.#hold?.leaving === true) this.#finish(this.#hold);
    this.restore();
    const { drawn, solved, before, mode } = this.#tools.desk.state();
    const means = this.#tools.means();
    if (means === undefined || drawn === undefined || mode === 'drive') return undefined;
    const document = this.#tools.documents.getState().raw;
    this.#hold = {
      means,
      pivot,
      drawn,
      document,
      shown: solved,
      before,
      good: [],
      leaving: false,
      asked: 0,
      answered: 0,
    };
    return this.#hold;
  }

  #ask(hold: Hold, settings: readonly Setting[], place: Vec2): void {
    const { mode } = this.#tools.desk.state();
    if (mode === 'drive') return;
    hold.asked += 1;
    const asked = hold.asked;
    this.#tools.live.put(hold.document, mode, settings, (outcome) => {
      if (this.#hold !== hold || asked <= hold.answered) return;
      const isLast = asked === hold.asked;
      if (outcome.kind === 'cancelled' && !isLast) return;
      hold.answered = asked;
      if (outcome.kind === 'solved') this.#attempt(hold, settings, place, outcome);
      else if (outcome.kind !== 'cancelled') this.#change({ ...this.#state, why: whyNot(outcome) });
      if (isLast && hold.leaving) this.#finish(hold);
    });
  }

  #attempt(hold: Hold, settings: readonly Setting[], place: Vec2, solved: Solved): void {
    const { recording, report, took } = solved;
    const mechanism = hold.means.compiledWith(hold.drawn.scenario, settings);
    if (mechanism === undefined) return;
    hold.good = settings;
    const { ground } = hold.drawn;
    this.#tools.desk.attempt({ mechanism, ground, recording, report, took });
    this.#change({ ...this.#state, shown: place, why: undefined });
  }

  #letGo(): void {
    this.#hold = undefined;
    this.#change(NOTHING);
  }

  #change(state: DragState): void {
    this.#state = state;
    for (const tell of this.#watchers) tell();
  }
}

type Solved = Extract<LiveOutcome, { kind: 'solved' }>;

function whyNot(outcome: Exclude<LiveOutcome, { kind: 'solved' | 'cancelled' }>): string {
  // Where it stands in the file is of no use to a hand on the picture.
  if (outcome.kind === 'impossible') return outcome.why.replace(/(^|; )vehicle[.[][^: ]*: /g, '$1');
  if (outcome.kind === 'failed') return outcome.message;
  return outcome.problems.map(({ message }) => message).join('; ');
}

/** The last good place as edits of the document, in the units that it has; none when it is where it was. */
function changesFor({ means, document, good, drawn, pivot }: Hold): readonly Change[] {
  const moved = good.some(({ path, value }) => {
    const axis = path.at(-1) as 'x' | 'z';
    return Math.abs(value - pivot.at[axis]) > 1e-3 * gridOf(drawn);
  });
  if (!moved) return [];
  return means.changesOf(document as Json, good);
}
