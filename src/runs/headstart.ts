import { type Demo, demos, flagship } from '../documents/demos.ts';
import type { Json } from '../documents/json.ts';
import type { Progress } from '../workers/protocol.ts';
import { type Outcome, Solver } from '../workers/solver.ts';

type Tell = (progress: Progress) => void;

/** A demo that is being driven before the window is there to show it. */
export interface Opening {
  readonly name: string;
  readonly text: string;
  readonly raw: Json;
}

/**
 * A solver that begins with one document before anybody asks for it, and hands that run out when it is asked for:
 * engine and window load side by side instead of one after the other.
 */
export class HeadStart {
  readonly #solver: Pick<Solver, 'solve' | 'cancel'>;
  #early: { readonly document: unknown; readonly outcome: Promise<Outcome> } | undefined;
  #tell: Tell = () => undefined;

  constructor(solver: Pick<Solver, 'solve' | 'cancel'>) {
    this.#solver = solver;
  }

  /** Drives a document that will be asked for. */
  begin(document: unknown): void {
    this.#early = { document, outcome: this.#solver.solve(document, (progress) => this.#tell(progress)) };
  }

  solve(document: unknown, tell: Tell): Promise<Outcome> {
    const early = this.#early;
    this.#early = undefined;
    if (early === undefined || early.document !== document) return this.#solver.solve(document, tell);
    this.#tell = tell;
    return early.outcome;
  }

  /** Calls a run off that was asked for. */
  cancel(): void {
    if (this.#early === undefined) this.#solver.cancel();
  }
}

/** Loads a demo and begins to drive it; undefined when it can't be loaded. */
async function openEarly(head: HeadStart, { name, load }: Demo): Promise<Opening | undefined> {
  try {
    const text = await load();
    const raw = JSON.parse(text) as Json;
    head.begin(raw);
    return { name, text, raw };
  } catch {
    return undefined;
  }
}

/** Starts the engine on what the app opens with. */
export function startEngine(): {
  readonly solver: HeadStart;
  readonly opening: Promise<Opening | undefined>;
} {
  const solver = new HeadStart(new Solver());
  const demo = demos.find(({ name }) => name === flagship) ?? demos[0];
  return { solver, opening: demo === undefined ? Promise.resolve(undefined) : openEarly(solver, demo) };
}
