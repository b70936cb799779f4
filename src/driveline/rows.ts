import type { Tree, TreePart } from './tree.ts';

/** Parts that turn each other one after the other and lie one after the other along the vehicle. */
interface Run {
  readonly parts: number[];
  /** 1 when it goes forward (to larger x), −1 rearward, 0 as long as all of it lies at one place. */
  way: -1 | 0 | 1;
  /** Where it begins: the row of the part that turns it. */
  readonly parent: number | undefined;
}

/** Cuts a drive line into runs, from each source on; a run ends where it branches off, turns back or is full. */
class Cutter {
  readonly runs: Run[] = [];
  readonly #tree: Tree;
  readonly #x: readonly number[];
  readonly #most: number;
  readonly #done = new Set<number>();

  constructor(tree: Tree, x: readonly number[], most: number) {
    this.#tree = tree;
    this.#x = x;
    this.#most = most;
  }

  all(): readonly Run[] {
    const { parts } = this.#tree;
    for (const { index, inputs } of parts) if (inputs.length === 0) this.#begin(index, undefined);
    for (const { index } of parts) if (!this.#done.has(index)) this.#begin(index, undefined);
    return this.runs;
  }

  #begin(part: number, parent: number | undefined): void {
    if (this.#done.has(part)) return;
    const run: Run = { parts: [], way: 0, parent };
    this.runs.push(run);
    this.#follow(run, part);
  }

  #follow(run: Run, part: number): void {
    this.#done.add(part);
    run.parts.push(part);
    const next = (this.#tree.parts[part]?.outputs ?? []).filter((output) => !this.#done.has(output));
    const on = next
      .filter((output) => this.#goesOn(run, part, output))
      .sort((a, b) => this.#reach(b) - this.#reach(a))[0];
    if (on !== undefined && run.parts.length < this.#most) {
      if (run.way === 0) run.way = this.#wayTo(part, on);
      this.#follow(run, on);
    }
    for (const output of next) this.#begin(output, part);
  }

  #wayTo(from: number, to: number): Run['way'] {
    return Math.sign((this.#x[to] as number) - (this.#x[from] as number)) as Run['way'];
  }

  #goesOn(run: Run, from: number, to: number): boolean {
    const way = this.#wayTo(from, to);
    return way === 0 || run.way === 0 || way === run.way;
  }

  /** How many parts follow behind one. */
  #reach(part: number, depth = 0): number {
    const outputs = this.#tree.parts[part]?.outputs ?? [];
    if (depth > this.#tree.parts.length) return 0;
    return outputs.reduce((sum, output) => sum + this.#reach(output, depth + 1), 1);
  }
}

/** A run that has found its row. */
interface Laid {
  readonly run: Run;
  readonly from: number;
  readonly to: number;
}

/**
 * The rows of a drive line, the sources in the first: every part in one of them, in the order in which they lie along the
 * vehicle, with no run between the parts of another. What a part turns is in its own row or a later one. No row has more
 * than `most` parts. Depends on where parts are drawn only, so that nothing jumps while the picture moves.
 * @param x where each part is drawn, m
 */
export function rowsOf(tree: Tree, x: readonly number[], most: number): readonly (readonly number[])[] {
  const rows: Laid[][] = [];
  const rowOf = new Map<number, number>();
  for (const run of new Cutter(tree, x, most).all()) {
    const places = run.parts.map((part) => x[part] as number);
    const laid: Laid = { run, from: Math.min(...places), to: Math.max(...places) };
    let row = run.parent === undefined ? 0 : (rowOf.get(run.parent) ?? 0);
    while (!fits(rows[row] ?? [], laid, most)) row += 1;
    rows[row] = [...(rows[row] ?? []), laid];
    for (const part of run.parts) rowOf.set(part, row);
  }
  return rows.map((row) =>
    [...row].sort((a, b) => a.from - b.from || a.to - b.to).flatMap(({ run }) => alongVehicle(run)),
  );
}

const alongVehicle = ({ parts, way }: Run): readonly number[] => (way < 0 ? [...parts].reverse() : parts);

function fits(row: readonly Laid[], laid: Laid, most: number): boolean {
  const count = row.reduce((sum, { run }) => sum + run.parts.length, 0);
  const clear = row.every(({ from, to }) => laid.to < from || laid.from > to);
  return row.length === 0 || (clear && count + laid.run.parts.length <= most);
}

/** The row that each part is in. */
export function rowNumbers(
  rows: readonly (readonly number[])[],
  parts: readonly TreePart[],
): readonly number[] {
  return parts.map(({ index }) =>
    Math.max(
      0,
      rows.findIndex((row) => row.includes(index)),
    ),
  );
}
