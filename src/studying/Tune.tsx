import { useEffect, useMemo } from 'react';
import { judgeWords } from '../../sim/tuning/criteria.ts';
import { useDesk } from '../app/workbench.ts';
import { ProblemList } from '../panels/Problems.tsx';
import { useBound, useTuning } from './bench.ts';
import { Files } from './Files.tsx';
import { Goals, Method } from './Goals.tsx';
import { Numbers } from './Numbers.tsx';
import { RunControls } from './RunControls.tsx';
import { errorsOf } from './session.ts';
import '../panels/studies.css';
import './studying.css';

/** What must hold, as the document asks for it. */
function MustHold() {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const asks = useMemo(
    () => [...new Set(scenario === undefined ? [] : judgeWords(scenario.criteria))],
    [scenario],
  );
  return (
    <section className="measure">
      <h3>What must hold</h3>
      <ul className="must-hold">
        {asks.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

/** The study of the open document: which numbers vary, what is wanted of them, and its run. Results lie under the picture. */
export function Tune() {
  const { tuning, state } = useTuning();
  const bound = useBound(state);
  const { study, wanted } = state;
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  const size = useDesk(({ drawn }) => drawn?.mechanism.size);
  useEffect(() => {
    if (study !== undefined && wanted.length > 0 && scenario !== undefined && size !== undefined)
      tuning.takeUp(scenario, size);
  }, [tuning, study, wanted, scenario, size]);
  if (study === undefined || bound === undefined) return null;
  const errors = study.vary.length === 0 ? [] : errorsOf(bound);
  return (
    <div className="measures tune">
      <Numbers tuning={tuning} study={study} problems={errors} />
      <Goals tuning={tuning} study={study} />
      <MustHold />
      <Method tuning={tuning} study={study} />
      {errors.length === 0 ? null : <ProblemList problems={errors} />}
      <RunControls tuning={tuning} state={state} bound={bound.ok ? bound.value : undefined} />
      <Files tuning={tuning} study={study} />
    </div>
  );
}
