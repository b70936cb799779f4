import type { Report } from '../../shared/report.ts';

/** What the command tells the shell. */
export const exits = {
  /** Everything held. */
  pass: 0,
  /** A criterion failed, or the vehicle got stuck or tipped over. */
  failed: 1,
  /** Bad input, or a run that could not be finished. */
  unusable: 2,
} as const;

export type Exit = (typeof exits)[keyof typeof exits];

/**
 * Exit code of a report. A run whose figures ran away is not a result (2). Getting stuck and tipping over are results:
 * they fail even when no criterion asks about them, for nobody sends a truck over a step to leave it there (1).
 */
export function exitOf(report: Report): Exit {
  if (report.end?.kind === 'diverged') return exits.unusable;
  const stranded = report.end?.kind === 'stuck' || report.end?.kind === 'tipped';
  return stranded || !report.pass || report.verdicts.some((verdict) => !verdict.pass)
    ? exits.failed
    : exits.pass;
}
