import { demos, flagship } from '../documents/demos.ts';
import type { Json } from '../documents/json.ts';
import type { Beginning } from '../keeping/begin.ts';
import { type Marker, readMarker } from '../keeping/marker.ts';
import type { Known } from '../store/document.ts';
import type { Progress } from '../workers/protocol.ts';
import { type Outcome, Solver } from '../workers/solver.ts';

type Tell = (progress: Progress) => void;

/** What the window opens with; it is being driven before the window is there to show it. */
export interface Opening {
  readonly name: string;
  readonly text: string;
  readonly written: Json;
  readonly known: Known;
  /** What was found in the browser's database on the way; undefined on a first visit, which does not look there. */
  readonly beginning?: Beginning;
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
    this.#early = {
      document,
      outcome: this.#solver.solve(document, (progress) => this.#tell(progress), true),
    };
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
async function openDemo(head: HeadStart, wanted: string): Promise<Opening | undefined> {
  const demo = demos.find(({ name }) => name === wanted) ?? demos[0];
  try {
    const text = (await demo?.load()) ?? '';
    const written = JSON.parse(text) as Json;
    head.begin(written);
    return demo === undefined ? undefined : { name: demo.name, text, written, known: { demo: true } };
  } catch {
    return undefined;
  }
}

/** Opens what a link carries or what was open last; where that cannot be had, a demo, together with the reason. */
async function openLast(head: HeadStart, marker: Marker): Promise<Opening | undefined> {
  const { begin } = await import('../keeping/begin.ts');
  const beginning = await begin(location.hash, marker);
  const { begun } = beginning;
  if (begun !== undefined) {
    head.begin(begun.known.raw ?? begun.written);
    return { ...begun, beginning };
  }
  const demo = await openDemo(head, flagship);
  return demo === undefined ? undefined : { ...demo, beginning };
}

/** Starts the engine on what the app opens with: a demo on a first visit, later what was open last. */
export function startEngine(): {
  readonly solver: HeadStart;
  readonly opening: Promise<Opening | undefined>;
} {
  const solver = new HeadStart(new Solver());
  const marker = readMarker();
  const isFirst = marker.id === undefined && location.hash.length < 2;
  const opening = isFirst ? openDemo(solver, marker.demo ?? flagship) : openLast(solver, marker);
  return { solver, opening };
}
