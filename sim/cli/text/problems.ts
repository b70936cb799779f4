import { type Problem, problemLine } from '../../../shared/problem.ts';
import { clean } from './clean.ts';
import { count } from './figures.ts';

/** Lines shown to a person; a broken table can have as many problems as it has lines. */
const MOST_LINES = 40;

/**
 * Problems for people: a head that names the document and counts them, then one line each, `path: message (hint)`.
 * Errors come first. Past 40 lines the rest is counted.
 */
export function problemText(source: string, problems: readonly Problem[]): string {
  const sorted = [
    ...problems.filter((p) => p.severity === 'error'),
    ...problems.filter((p) => p.severity === 'warning'),
  ];
  const shown = sorted
    .slice(0, MOST_LINES)
    .map((p) => `  ${p.severity === 'warning' ? 'warning: ' : ''}${clean(problemLine(p))}`);
  const rest = sorted.length - shown.length;
  const more = rest > 0 ? [`  … and ${rest} more; --json lists them all`] : [];
  return `${[`${clean(source)}: ${says(sorted)}`, ...shown, ...more].join('\n')}\n`;
}

/** `3 problems`, `1 problem and 2 warnings`, `1 warning`. */
function says(problems: readonly Problem[]): string {
  const errors = problems.filter((p) => p.severity === 'error').length;
  const warnings = problems.length - errors;
  const parts = [errors > 0 ? count(errors, 'problem') : '', warnings > 0 ? count(warnings, 'warning') : ''];
  return parts.filter((part) => part !== '').join(' and ');
}
