import type { Verdict } from '../../shared/report.ts';
import { listWords } from './words.ts';

/** What a criterion hands back: a verdict without its place in the scenario. */
export type Outcome = Omit<Verdict, 'index' | 'kind' | 'asks'>;

/** The outcome for names that the vehicle does not have: it fails, and says which names there are. */
export function unknownNames(
  what: 'wheel' | 'member',
  unknown: readonly string[],
  known: readonly string[],
  limit: number | null,
  unit: string,
): Outcome {
  const there = known.length === 0 ? 'none' : listWords(known);
  return {
    pass: false,
    value: null,
    limit,
    unit,
    shown: '–',
    says: `The vehicle has no ${what} called ${listWords(unknown)}; its ${what}s are: ${there}.`,
  };
}

/** The outcome where the run has nothing to measure. */
export function nothingToJudge(pass: boolean, says: string, limit: number | null, unit: string): Outcome {
  return { pass, value: null, limit, unit, shown: '–', says };
}
