import type { LedgerLine } from '../../../shared/report.ts';
import type { Ground } from '../../ground/ground.ts';
import { compileChecked } from '../../mechanism/compile.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { crossRegardless, type LedgerCrossing } from '../crossing.ts';
import { keyOf } from '../ledger.ts';
import { narrow, type Tried } from '../root.ts';

/** A figure of the document set to another value, for `--set`. */
export interface Put {
  readonly path: string;
  readonly value: number | string;
}

/** A change that may help. */
export interface Change {
  /** What is changed, as a sentence with its figures. */
  readonly says: string;
  /** The vehicle with it. */
  readonly scenario: Scenario;
  /** Figures that change; empty where more than figures do. */
  readonly sets: readonly Put[];
  /** Lines that are taken to hold then, by their keys: of a part that is to be replaced by a strong enough one. */
  readonly mended?: readonly string[];
}

/** What gives, where, and the means to try something else. */
export interface Trouble {
  readonly scenario: Scenario;
  readonly ground: Ground;
  readonly stations: number;
  readonly today: LedgerCrossing;
  /** The line that gives first. */
  readonly first: LedgerLine;
}

/** One kind of change that may help the part that gives first. One file each; one line in registry.ts. */
export interface Remedy {
  /** Name in JSON, lower case with hyphens. */
  readonly kind: string;
  readonly title: string;
  /** The changes of this kind that apply; none when it does not. */
  find(trouble: Trouble): readonly Change[];
}

/** Crosses the same ground with another vehicle; undefined when it is none or does not stand. */
export function tryOut(
  { ground, stations }: Pick<Trouble, 'ground' | 'stations'>,
  scenario: Scenario,
): LedgerCrossing | undefined {
  const compiled = compileChecked(scenario);
  if (!compiled.ok) return undefined;
  const crossed = crossRegardless(scenario, ground, stations, compiled.value);
  return crossed.recording.frames === 0 ? undefined : crossed;
}

/** Use of the line that gives today, with another vehicle: 0 where it is gone, infinite where it cannot cross at all. */
export function stillUsed(trouble: Trouble, crossed: LedgerCrossing | undefined): number {
  if (crossed === undefined || crossed.recording.end.kind !== 'arrived') return Number.POSITIVE_INFINITY;
  const wanted = keyOf(trouble.first);
  return crossed.ledger.lines.find((line) => keyOf(line) === wanted)?.use ?? 0;
}

/** How near to its limit a part is brought by a figure that is looked for. */
const near = 2e-3;

/**
 * The least factor above 1 by which a figure has to change so that the line that gives first holds, to 0.2 %; undefined
 * when none up to `most` does it.
 */
export function leastFactor(
  trouble: Trouble,
  vehicleWith: (factor: number) => Scenario,
  most = 12,
): number | undefined {
  const attempt = (at: number): Tried<undefined> => ({
    at,
    over: stillUsed(trouble, tryOut(trouble, vehicleWith(at))) - 1,
    found: undefined,
  });
  let fails: Tried<undefined> = { at: 1, over: (trouble.first.use ?? 1) - 1, found: undefined };
  for (let at = Math.max(1.1, 1.05 * (trouble.first.use ?? 1)); at <= most; at *= 1.3) {
    const tried = attempt(at);
    if (tried.over <= 0) return narrow(attempt, tried, fails, { near, width: near }).holds.at;
    fails = tried;
  }
  return undefined;
}
