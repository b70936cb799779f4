import { formatNumber, formatQuantity, formatShare } from '../../shared/units.ts';
import { useBench, useDesk } from '../app/workbench.ts';
import type { DeskState } from '../runs/desk.ts';
import { modeOf } from '../runs/mode.ts';

/** What the desk is doing, in a few words. */
export function statusWords({
  phase,
  solved,
  stale,
  mode,
}: Pick<DeskState, 'phase' | 'solved' | 'stale' | 'mode'>): string {
  switch (phase.kind) {
    case 'waiting':
      return 'changed';
    case 'running': {
      const { share, time } = phase.progress;
      return share === 0
        ? modeOf(mode).doing
        : `${formatShare(share, 2)}, ${formatQuantity(time, 'time', 2, 's')}`;
    }
    case 'cancelled':
      return 'cancelled';
    case 'failed':
      return 'failed';
    case 'idle':
      if (stale) return 'not solved';
      return solved === undefined ? '' : `in ${formatNumber(solved.took, 2)} ms`;
  }
}

/** What the words mean, for those who ask. */
function statusSays({ phase, solved, stale, mode }: DeskState): string {
  if (phase.kind === 'failed') return phase.message;
  if (phase.kind === 'idle' && stale)
    return 'The document has problems: still on show is the last run without one.';
  if (phase.kind !== 'idle' || solved === undefined) return '';
  const took = formatNumber(solved.took, 3);
  if (mode !== 'drive') return `The balance took ${took} ms at ${solved.recording.frames} stations.`;
  return `The engine took ${took} ms for ${formatQuantity(solved.recording.end.time, 'time', 3, 's')} of driving.`;
}

/** Beside the verdicts' title: progress and its cancel button, or how long the last run took. */
export function RunStatus() {
  const { desk } = useBench();
  const state = useDesk((now) => now);
  const { phase } = state;
  const share = phase.kind === 'running' ? phase.progress.share : 0;
  const again = phase.kind === 'cancelled' || phase.kind === 'failed';
  return (
    <div className="run-status" data-phase={phase.kind}>
      <span className="words" title={statusSays(state)}>
        {statusWords(state)}
      </span>
      {phase.kind === 'running' ? (
        <button type="button" className="button small late" onClick={() => desk.cancel()}>
          Cancel
        </button>
      ) : null}
      {again ? (
        <button type="button" className="button small" onClick={() => desk.again()}>
          {state.mode === 'drive' ? 'Drive again' : 'Try again'}
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
