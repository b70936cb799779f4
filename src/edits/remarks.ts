import type { Problem } from '../../shared/problem.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Json } from '../documents/json.ts';

/** What the user should be told about an edit: a loop that no longer closes, a name that was changed. */
export interface Remark {
  /** Written path in the document after the edit. */
  readonly path: string;
  /** What is so, as a sentence without the path. */
  readonly message: string;
  readonly severity: 'error' | 'warning';
}

/** A problem without its figures and indices: the same one a little further on is not a new one. */
const kindOf = ({ path, message, severity }: Problem): string =>
  `${severity} ${path.replace(/\[\d+\]/g, '')} ${message.replace(/[-−]?\d+(?:\.\d+)?/g, '#')}`;

const problemsOf = (document: Json): readonly Problem[] =>
  readScenario(document, { file: () => undefined }).problems;

/** A sentence of a problem with its hint. */
const sentence = ({ message, hint }: Problem): string =>
  hint === undefined ? message : `${message}: ${hint}`;

/** Problems of a document that the one before it did not have. */
export function newProblems(before: Json, after: Json): readonly Remark[] {
  if (before === after) return [];
  const had = problemsOf(before).map(kindOf);
  return problemsOf(after).flatMap((problem): Remark[] => {
    const at = had.indexOf(kindOf(problem));
    if (at >= 0) {
      had.splice(at, 1);
      return [];
    }
    return [{ path: problem.path, message: sentence(problem), severity: problem.severity }];
  });
}
