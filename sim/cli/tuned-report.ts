import type { Problem } from '../../shared/problem.ts';
import type { StudyResults } from '../tuning/results.ts';

/** What `study --json` prints. */
export interface StudyReport extends StudyResults {
  readonly mode: 'study';
  readonly answer: readonly string[];
  readonly problems: readonly Problem[];
  /** A design holds all criteria, driven too where that was asked. */
  readonly pass: boolean;
}
