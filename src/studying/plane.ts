import type { Dial } from '../../sim/tuning/dial.ts';
import type { Goal } from '../../sim/tuning/goal.ts';
import { compare } from '../../sim/tuning/rank.ts';
import type { Sample } from '../../sim/tuning/sample.ts';

/** Cells along a number of which samples lie anywhere. */
const bins = 24;
/** Most different values that get a place of their own. */
const mostPlaces = 41;

/** One side of a picture: places in their order, each with the entry that it stands for. */
export interface SideOf {
  readonly dial: Dial;
  readonly entries: readonly number[];
  /** Place of an entry, as a fraction between those that it lies between. */
  place(entry: number): number;
}

/** The best design at each place of two numbers, whatever the others are. */
export interface Spread {
  readonly x: SideOf;
  readonly z: SideOf;
  /** By row and column, from the least of both; undefined where none was tried. */
  readonly cells: readonly (Sample | undefined)[];
}

/** Places along a number: its values where they are few, even bins otherwise. */
export function sideOf(dial: Dial, d: number, samples: readonly Sample[]): SideOf {
  const { values } = dial;
  const seen = [...new Set(samples.map(({ design }) => design[d] as number))].sort((a, b) => a - b);
  if (values.kind === 'list') {
    const entries = values.values.map((_, i) => i);
    return { dial, entries, place: (entry) => entry };
  }
  if (seen.length <= mostPlaces && even(seen)) {
    const [first = 0] = seen;
    const step = seen.length < 2 ? 1 : (seen[1] as number) - first;
    return { dial, entries: seen, place: (entry) => (entry - first) / step };
  }
  const width = (values.to - values.from) / bins;
  const entries = Array.from({ length: bins }, (_, i) => values.from + (i + 0.5) * width);
  return { dial, entries, place: (entry) => (entry - values.from) / width - 0.5 };
}

/** Whether figures lie evenly, but for rounding. */
function even(values: readonly number[]): boolean {
  const [first = 0] = values;
  const last = values.at(-1) ?? 0;
  const step = (last - first) / Math.max(1, values.length - 1);
  return values.every((value, i) => Math.abs(value - first - i * step) <= 1e-6 * Math.abs(step));
}

const nearest = (side: SideOf, entry: number): number =>
  Math.min(side.entries.length - 1, Math.max(0, Math.round(side.place(entry))));

/** Samples spread over two numbers, given by their places in the study. */
export function spreadOver(
  samples: readonly Sample[],
  dials: readonly Dial[],
  [a, b]: readonly [number, number],
  goals: readonly Goal[],
): Spread | undefined {
  const [first, second] = [dials[a], dials[b]];
  if (first === undefined || second === undefined) return undefined;
  const [x, z] = [sideOf(first, a, samples), sideOf(second, b, samples)];
  const cells: (Sample | undefined)[] = Array.from({ length: x.entries.length * z.entries.length });
  for (const sample of samples) {
    const at =
      nearest(z, sample.design[b] as number) * x.entries.length + nearest(x, sample.design[a] as number);
    const there = cells[at];
    if (there === undefined || compare(goals, sample, there) < 0) cells[at] = sample;
  }
  return { x, z, cells };
}

/** The best design at each value of one number, in its order. */
export function lineOver(
  samples: readonly Sample[],
  dial: Dial,
  d: number,
  goals: readonly Goal[],
): readonly Sample[] {
  const best = new Map<number, Sample>();
  for (const sample of samples) {
    const at = sample.design[d] as number;
    const there = best.get(at);
    if (there === undefined || compare(goals, sample, there) < 0) best.set(at, sample);
  }
  const order = dial.values.kind === 'list' && dial.turns.kind !== 'options';
  const figure = (entry: number) =>
    order ? ((dial.values as { values: readonly number[] }).values[entry] as number) : entry;
  return [...best.values()].sort((p, q) => figure(p.design[d] as number) - figure(q.design[d] as number));
}

/** About so many places of a side that get a label: the first, the last, and even ones between. */
export function labelled(count: number, most: number): readonly number[] {
  if (count <= most) return Array.from({ length: count }, (_, i) => i);
  const step = Math.ceil((count - 1) / (most - 1));
  const places: number[] = [];
  for (let i = 0; i < count; i += step) places.push(i);
  return places;
}
