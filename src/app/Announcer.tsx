import type { Report } from '../../shared/report.ts';
import { showSentence } from '../../shared/units.ts';
import { useDesk, useDrag, useNotice, useShowing } from './workbench.ts';

/** The outcome of a run in a sentence or two, to be read aloud. */
export function announcement({ verdicts, end, mode }: Pick<Report, 'verdicts' | 'end' | 'mode'>): string {
  const failed = verdicts.filter(({ pass }) => !pass);
  const whole = end?.kind === 'diverged' ? 'The run diverged. ' : '';
  if (mode === 'stand') return 'Standing.';
  if (verdicts.length === 0)
    return `${whole}${mode === 'crawl' ? 'Crossed' : 'Driven'}. Nothing was asked for.`;
  const held = `${verdicts.length - failed.length} of ${verdicts.length} verdicts hold.`;
  return `${whole}${held} ${failed.map(({ asks, says }) => `Fails: ${asks}. ${says}`).join(' ')}`.trim();
}

/** Says each new result to a screen reader, politely. */
export function Announcer() {
  const report = useDesk(({ solved }) => solved?.report);
  const showing = useShowing();
  const said = useNotice((state) => state.said);
  // While something is dragged there is a new result with every frame: too much to be read aloud.
  const dragging = useDrag().held !== undefined;
  return (
    <div className="unseen" role="status" aria-live="polite">
      {dragging ? said : report === undefined ? '' : showSentence(announcement(report), showing)}
    </div>
  );
}
