import type { Report } from '../../shared/report.ts';
import { useDesk } from './workbench.ts';

/** The outcome of a run in a sentence or two, to be read aloud. */
export function announcement({ verdicts, end }: Pick<Report, 'verdicts' | 'end'>): string {
  const failed = verdicts.filter(({ pass }) => !pass);
  const whole = end?.kind === 'diverged' ? 'The run diverged. ' : '';
  if (verdicts.length === 0) return `${whole}Driven. Nothing was asked for.`;
  const held = `${verdicts.length - failed.length} of ${verdicts.length} verdicts hold.`;
  return `${whole}${held} ${failed.map(({ asks, says }) => `Fails: ${asks}. ${says}`).join(' ')}`.trim();
}

/** Says each new result to a screen reader, politely. */
export function Announcer() {
  const report = useDesk(({ solved }) => solved?.report);
  return (
    <div className="unseen" role="status" aria-live="polite">
      {report === undefined ? '' : announcement(report)}
    </div>
  );
}
