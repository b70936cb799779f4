import { useEffect, useMemo, useSyncExternalStore } from 'react';
import type { Path } from '../../shared/path.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { compileChecked } from '../../sim/mechanism/compile.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import { useBench, useDesk, useDocument, type Workbench } from '../app/workbench.ts';
import type { DoneRun } from '../runs/desk.ts';
import { LiveSolver } from '../workers/live.ts';
import { Trials } from '../workers/trials.ts';
import { Diary } from './diary.ts';
import { freshStudy } from './draft.ts';
import { boundTo, Tuning, type TuningState } from './session.ts';

const noFiles = { file: () => undefined };

/** A run of a document with the vehicle that it has; undefined where it cannot be read. */
function runOf(document: unknown, came: Pick<DoneRun, 'recording' | 'report' | 'took'>): DoneRun | undefined {
  const read = readScenario(document, noFiles);
  const mechanism = read.ok ? compileChecked(read.value) : undefined;
  const ground = read.ok ? layGround(read.value.ground, noFiles) : undefined;
  if (mechanism?.ok !== true || ground?.ok !== true) return undefined;
  const { recording, report, took } = came;
  return { mechanism: mechanism.value, ground: ground.value, recording, report, took };
}

/** The study of this window; made when it is first asked for. */
export function tuningOf(bench: Workbench): Tuning {
  let diary: Promise<Diary> | undefined;
  bench.tuning ??= new Tuning({
    documents: bench.documents,
    desk: bench.desk,
    live: new LiveSolver(),
    diary: () => {
      diary ??= Diary.open(indexedDB);
      return diary;
    },
    trials: (study) => new Trials(study, Math.max(1, (navigator.hardwareConcurrency || 2) - 1)),
    runOf,
    now: () => performance.now(),
    later: (ms, then) => {
      const id = setTimeout(then, ms);
      return () => clearTimeout(id);
    },
  });
  return bench.tuning;
}

/** The study of the open document, looked up as soon as the document can be read. */
export function useTuning(): { readonly tuning: Tuning; readonly state: TuningState } {
  const bench = useBench();
  const tuning = tuningOf(bench);
  const state = useSyncExternalStore(tuning.watch, tuning.state);
  const id = useDocument((document) => document.id ?? `demo: ${document.name}`);
  const opening = useDocument((document) => document.opening);
  const ready = useDesk(({ drawn }) => drawn !== undefined);
  useEffect(() => {
    if (!ready) return;
    const { name, raw } = bench.documents.getState();
    const title = (raw as { title?: string } | null)?.title ?? name;
    void tuning.look(id, opening, freshStudy(title, name, bench.settings.getState().measure));
  }, [bench, tuning, id, opening, ready]);
  return { tuning, state };
}

/** Has a figure of the document vary, and goes to the study, unless the vehicle is being built. */
export function varyFigure(bench: Workbench, path: Path): void {
  tuningOf(bench).want(path);
  bench.notices.setState({ said: 'This figure varies in the study. See Tune.' });
  bench.settings.setState({ panel: 'tune' });
}

/** The study put together with the open document, or all that is wrong with it; undefined while there is neither. */
export function useBound({ study }: TuningState) {
  const scenario = useDesk(({ drawn }) => drawn?.scenario);
  return useMemo(
    () => (study === undefined || scenario === undefined ? undefined : boundTo(study, scenario)),
    [study, scenario],
  );
}
