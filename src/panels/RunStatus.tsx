import { formatNumber, formatQuantity, formatShare } from '../../shared/units.ts';
import { useBench, useDesk } from '../app/workbench.ts';
import type { DeskState } from '../runs/desk.ts';

/** What the desk is doing, in a few words. */
export function statusWords({ phase, solved, stale, problems }: DeskState): string {
  switch (phase.kind) {
    case 'waiting':
      return 'Changed';
    case 'running': {
      const { share, time } = phase.progress;
      return share === 0
        ? 'Driving …'
        : `Driving: ${formatShare(share, 2)}, ${formatQuantity(time, 'time', 3, 's')}`;
    }
    case 'cancelled':
      return 'Cancelled';
    case 'failed':
      return `The engine failed: ${phase.message}`;
    case 'idle':
      if (stale && problems.length > 0) return 'Not driven, see above';
      if (solved === undefined) return '';
      return `Driven in ${formatNumber(solved.took, 2)} ms`;
  }
}

/** One line of fixed height: progress and its cancel button, or how the last run went. */
export function RunStatus() {
  const { desk } = useBench();
  const state = useDesk((now) => now);
  const { phase } = state;
  const share = phase.kind === 'running' ? phase.progress.share : 0;
  const again = phase.kind === 'cancelled' || phase.kind === 'failed';
  return (
    <div className="run-status" data-phase={phase.kind}>
      <span className="words" title={statusWords(state)}>
        {statusWords(state)}
      </span>
      {phase.kind === 'running' ? (
        <button type="button" className="button small" onClick={() => desk.cancel()}>
          Cancel
        </button>
      ) : null}
      {again ? (
        <button type="button" className="button small" onClick={() => desk.again()}>
          Drive again
        </button>
      ) : null}
      <div
        className="progress"
        role="progressbar"
        aria-label="Run"
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(share * 100)}
        hidden={phase.kind !== 'running'}
        style={{ transform: `scaleX(${share})` }}
      />
    </div>
  );
}
