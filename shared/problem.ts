/** One thing that is wrong (or doubtful) with a document, in words that say where it is and what to do. */
export interface Problem {
  /** Where: the path in the document, `vehicle.wheels[2].radius`; `line 12` for a CSV; empty for the whole document. */
  readonly path: string;
  /** What is wrong, as a sentence without the path. */
  readonly message: string;
  /** What to do about it, where we know. */
  readonly hint?: string;
  /** A warning lets the document through; an error does not. */
  readonly severity: 'error' | 'warning';
}

/** A value, or everything that is wrong with it. Warnings may come with either. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Collects problems while a reader goes on to the end of the document. */
export class Problems {
  readonly #list: Problem[] = [];

  /** Adds an error at `path`. */
  error(path: string, message: string, hint?: string): void {
    this.#list.push({ path, message, severity: 'error', ...(hint === undefined ? {} : { hint }) });
  }

  /** Adds a warning at `path`. */
  warn(path: string, message: string, hint?: string): void {
    this.#list.push({ path, message, severity: 'warning', ...(hint === undefined ? {} : { hint }) });
  }

  /** Adds problems that were found elsewhere. */
  add(problems: readonly Problem[]): void {
    // One by one: spread arguments would overflow the stack where a file of nonsense has a problem on every line.
    for (const problem of problems) this.#list.push(problem);
  }

  /** True once any error was added. */
  get failed(): boolean {
    return this.#list.some((p) => p.severity === 'error');
  }

  /** All problems in the order in which they were found. */
  get list(): readonly Problem[] {
    return [...this.#list];
  }

  /** The value if no error was added, the problems otherwise. */
  check<T>(value: T): Checked<T> {
    return this.failed ? { ok: false, problems: this.list } : { ok: true, value, problems: this.list };
  }
}

/** One problem on one line: `vehicle.wheels[2].radius: must be above 0 m (hint)`. */
export function problemLine(p: Problem): string {
  const where = p.path === '' ? '' : `${p.path}: `;
  return `${where}${p.message}${p.hint === undefined ? '' : ` (${p.hint})`}`;
}
