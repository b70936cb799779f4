import type { Checked } from '../../shared/problem.ts';
import type { Drawn } from '../workers/told.ts';

type Admit = typeof import('./admit.ts');
type Means = typeof import('../runs/means.ts');

/** What reads documents in the window: schema, checks and compiler, which the first view does without. */
export class Reader {
  #admit: Admit | undefined;
  #means: Means | undefined;
  #loading: Promise<void> | undefined;

  /** Reads and compiles a document; undefined as long as the means to do that are not loaded. */
  readonly prepare = (document: unknown): Checked<Drawn> | undefined => this.#admit?.prepare(document);

  /** What turns figures into vehicles and edits; undefined as long as it is not loaded. */
  readonly means = (): Means | undefined => this.#means;

  /** Loads what it takes, once; tried again after it has failed. */
  readonly load = (): Promise<void> => {
    this.#loading ??= Promise.all([import('./admit.ts'), import('../runs/means.ts')]).then(
      ([admit, means]) => {
        this.#admit = admit;
        this.#means = means;
      },
      (error: unknown) => {
        this.#loading = undefined;
        throw error;
      },
    );
    return this.#loading;
  };
}
