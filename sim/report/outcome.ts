import type { Verdict } from '../../shared/report.ts';
import { listWords } from './words.ts';

/** What a criterion hands back: a verdict without its place in the scenario. */
export type Outcome = Omit<Verdict, 'index' | 'kind' | 'asks'>;

/** The limit that a value is held against, SI, and the unit of both. */
export interface Limit {
  readonly limit: number | null;
  readonly unit: string;
}

/** A verdict's sentence of cause, where the numbers give one. */
export const because = (cause: string | undefined): Pick<Outcome, 'cause'> =>
  cause === undefined ? {} : { cause };

/** The outcome for names that the vehicle does not have: it fails, and says which names there are. */
export function unknownNames(
  what: 'wheel' | 'member' | 'bogie' | 'part',
  unknown: readonly string[],
  known: readonly string[],
  limit: Limit,
): Outcome {
  const there = known.length === 0 ? `it has no ${what}s` : `its ${what}s: ${listWords(known)}`;
  return withoutValue(false, `The vehicle has no ${what} called ${listWords(unknown)}; ${there}.`, limit);
}

/** The outcome where there is nothing to measure. */
export function withoutValue(pass: boolean, says: string, limit: Limit): Outcome {
  return { pass, value: null, ...limit, shown: '—', says };
}
