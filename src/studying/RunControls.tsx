import { useMemo } from 'react';
import type { MethodKind } from '../../sim/searching/method.ts';
import { methodKinds } from '../../sim/searching/registry.ts';
import type { BoundStudy } from '../../sim/tuning/bind.ts';
import { useDesk } from '../app/workbench.ts';
import { sizeOf, type Tuning, type TuningState } from './session.ts';
import { leftWords } from './words.ts';

interface Props {
  readonly tuning: Tuning;
  readonly state: TuningState;
  /** The study as it is written, where it makes sense. */
  readonly bound: BoundStudy | undefined;
}

const counted = (count: number): string =>
  count === 1 ? '1 design' : `${count.toLocaleString('en-GB')} designs`;

/** How far it is, and what can be done about it. */
function Underway({ tuning, state }: Omit<Props, 'bound'>) {
  const { phase } = state;
  if (phase.kind !== 'running' && phase.kind !== 'paused') return null;
  const { step, left } = phase;
  const running = phase.kind === 'running';
  const says =
    step === undefined
      ? running
        ? 'beginning …'
        : 'paused'
      : `${step.what === 'driving' ? 'driving the best, ' : ''}${step.done} of ${step.all}`;
  return (
    <>
      <div className="job">
        <progress max={step?.all ?? 1} value={step?.done ?? 0} aria-label="Study" />
        <span className="soft">{says}</span>
      </div>
      <p className="soft">
        {running
          ? left === undefined
            ? ' '
            : leftWords(left)
          : 'Paused; it goes on from here, also after a reload.'}
      </p>
      <div className="group">
        <button
          type="button"
          className="button"
          onClick={() => (running ? tuning.pause() : void tuning.start())}
        >
          {running ? 'Pause' : 'Go on'}
        </button>
        <button type="button" className="button" onClick={() => tuning.cancel()}>
          Stop
        </button>
      </div>
    </>
  );
}

/** What changed since the journal was begun: nothing goes on with other numbers. */
function Changed({ changes, tuning }: { readonly changes: readonly string[]; readonly tuning: Tuning }) {
  return (
    <div className="refused changed" role="status">
      <p>This study was run on something else, so it does not go on:</p>
      <ul className="problems">
        {changes.map((change) => (
          <li key={change}>
            <span>{change}</span>
          </li>
        ))}
      </ul>
      <div className="group">
        <button type="button" className="button" onClick={() => void tuning.start(true)}>
          Run it anew
        </button>
      </div>
    </div>
  );
}

/** Begins, pauses and stops the study. */
export function RunControls({ tuning, state, bound }: Props) {
  const { phase, trouble } = state;
  const busy = phase.kind === 'running' || phase.kind === 'paused';
  const broken = useDesk(({ problems }) => problems.some(({ severity }) => severity === 'error'));
  const size = useMemo(() => (bound === undefined ? undefined : sizeOf(bound)), [bound]);
  const kinds = methodKinds as readonly unknown[] as readonly MethodKind[];
  const plan = kinds.some((each) => each.kind === bound?.document.method.kind && 'plan' in each);
  return (
    <section className="measure run-study" aria-label="Run">
      {phase.kind === 'changed' ? <Changed changes={phase.changes} tuning={tuning} /> : null}
      {phase.kind === 'failed' ? <p className="run-end">The study ended: {phase.message}</p> : null}
      {busy || phase.kind === 'changed' ? null : (
        <button
          type="button"
          className="button strong"
          disabled={size === undefined || broken}
          onClick={() => void tuning.start(phase.kind === 'done')}
        >
          {size === undefined
            ? 'Run'
            : `${phase.kind === 'done' ? 'Run again: ' : 'Try '}${plan ? '' : 'up to '}${counted(size)}`}
        </button>
      )}
      <Underway tuning={tuning} state={state} />
      {trouble === undefined ? null : (
        <p className="soft" role="status">
          This browser keeps nothing of the study ({trouble}). It is lost when the page is left; save it as a
          file.
        </p>
      )}
    </section>
  );
}
