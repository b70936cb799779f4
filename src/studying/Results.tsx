import { type ReactNode, useEffect, useState } from 'react';
import { formatShare } from '../../shared/units.ts';
import { judgeWords } from '../../sim/tuning/criteria.ts';
import type { Sample } from '../../sim/tuning/sample.ts';
import { useBench, useDesk, useShowing } from '../app/workbench.ts';
import type { Look } from '../solved.ts';
import { useTuning } from './bench.ts';
import type { Findings } from './course.ts';
import { FieldPlot } from './FieldPlot.tsx';
import { LinePlot } from './LinePlot.tsx';
import { Samples } from './Samples.tsx';
import type { Shown, Tuning, TuningState } from './session.ts';
import { entryWords, goalWords, outcomeWords } from './words.ts';
import './studying.css';

/** What all plots and the table are made from. */
export interface ViewProps {
  readonly findings: Findings;
  /** Grows with the findings. */
  readonly grown: number;
  readonly unit: string;
  readonly title: string;
  readonly picked: Sample | undefined;
  readonly look: Look;
  readonly onPick: (sample: Sample) => void;
}

/** The study in a sentence or two: how many hold, the best, and what rules most out where none does. */
function Summary({ findings, unit, title }: Pick<ViewProps, 'findings' | 'grown' | 'unit' | 'title'>) {
  const showing = useShowing();
  const { tally, study, today } = findings;
  const asks = judgeWords(study.scenario.criteria);
  const [best] = tally.best;
  const [goal] = study.goals;
  const say = (value: number | null | undefined) => goalWords(value ?? null, unit, goal?.text ?? '', showing);
  const near = tally.leastViolated;
  const most = tally.missed.reduce((at, count, i) => (count > (tally.missed[at] ?? 0) ? i : at), 0);
  const [failure] = tally.reasons;
  return (
    <p className="study-summary">
      {tally.held} of {tally.tried} designs hold all that is asked (
      {formatShare(tally.tried === 0 ? 0 : tally.held / tally.tried, 2)}).{' '}
      {best?.holds === true
        ? `Best: design ${best.n + 1}, ${title.toLowerCase()} ${say(best.goals[0])}${today === undefined ? '' : `; today ${say(today.goals[0])}`}. `
        : near === undefined
          ? ''
          : `None holds. Most are ruled out by: ${asks[most]}. Design ${near.n + 1} misses least. `}
      {failure === undefined ? '' : `${tally.failed} could not be judged: ${failure.why}.`}
    </p>
  );
}

/** The design that was picked, with what it came to and the way to take it. */
function Card({
  shown,
  tuning,
  findings,
  unit,
}: {
  readonly shown: Shown;
  readonly tuning: Tuning;
  readonly findings: Findings;
  readonly unit: string;
}) {
  const showing = useShowing();
  const { notices } = useBench();
  const mode = useDesk((state) => state.mode);
  const { sample, state } = shown;
  const { dials, goals, scenario } = findings.study;
  const driven = findings.driven.get(sample.n);
  const asks = judgeWords(scenario.criteria);
  return (
    <section className="picked-design" aria-label={`Design ${sample.n + 1}`}>
      <h2>Design {sample.n + 1}</h2>
      <dl className="figures-list">
        {dials.map((dial, d) => (
          <div key={dial.name}>
            <dt>{dial.name}</dt>
            <dd>
              {entryWords(dial, sample.design[d] as number, showing)}
              {dial.now === null ? null : (
                <span className="soft"> today {entryWords(dial, nowEntry(dial), showing)}</span>
              )}
            </dd>
          </div>
        ))}
        {goals.map((goal, g) => (
          <div key={goal.text}>
            <dt>{g === 0 ? 'goal' : 'second goal'}</dt>
            <dd>{goalWords(sample.goals[g] ?? null, g === 0 ? unit : '1', goal.text, showing)}</dd>
          </div>
        ))}
      </dl>
      <p className={sample.holds ? 'holds' : 'misses'}>
        {outcomeWords(sample, asks)}
        {driven === undefined ? '' : `; driven: ${outcomeWords(driven, asks)}`}
      </p>
      <p className="soft" role="status">
        {state === 'asked'
          ? 'on its way …'
          : state === 'shown'
            ? `On the picture, ${mode === 'stand' ? 'standing' : 'crawling'}; the ghost is today's.`
            : `It cannot be shown: ${state.why}`}
      </p>
      <div className="group">
        <button
          type="button"
          className="button strong"
          onClick={() => {
            if (tuning.take(sample)) notices.setState({ said: `Design ${sample.n + 1} taken` });
          }}
        >
          Take this design
        </button>
        <button type="button" className="button" onClick={() => tuning.back()}>
          Back to today's
        </button>
      </div>
    </section>
  );
}

/** Today's entry in the terms in which designs have theirs. */
function nowEntry({ now, values, turns }: Findings['study']['dials'][number]): number {
  if (values.kind !== 'list' || turns.kind === 'options') return now ?? 0;
  const at = values.values.indexOf(now ?? Number.NaN);
  return at;
}

/** Which two numbers the field lies over. */
function Over({
  findings,
  over,
  onOver,
}: {
  readonly findings: Findings;
  readonly over: readonly [number, number];
  readonly onOver: (over: [number, number]) => void;
}) {
  const { dials } = findings.study;
  if (dials.length < 3) return null;
  return (
    <div className="group over">
      {(['Across', 'Up'] as const).map((label, side) => (
        <label key={label} className="picker">
          <span>{label}</span>
          <select
            value={over[side]}
            onChange={({ currentTarget }) => {
              const next = Number(currentTarget.value);
              const other = over[1 - side] as number;
              const pair: [number, number] =
                next === other ? [over[1], over[0]] : side === 0 ? [next, other] : [other, next];
              onOver(pair);
            }}
          >
            {dials.map(({ name }, d) => (
              <option key={name} value={d}>
                {name}
              </option>
            ))}
          </select>
        </label>
      ))}
    </div>
  );
}

function Found({
  tuning,
  state,
  findings,
  look,
}: {
  readonly tuning: Tuning;
  readonly state: TuningState;
  readonly findings: Findings;
  readonly look: Look;
}) {
  const { settings } = useBench();
  const [over, setOver] = useState<readonly [number, number]>([0, 1]);
  const { study, samples } = findings;
  const [about] = state.about ?? [];
  const [wish, setWish] = useState<Sample>();
  const ready = useDesk(({ mode, solved, stale }) => mode !== 'drive' && solved !== undefined && !stale);
  const pick = (sample: Sample): void => {
    // Only balances answer at once: a design that is picked beside a drive is shown as soon as the crawl is there.
    if (settings.getState().mode === 'drive') settings.setState({ mode: 'crawl' });
    setWish(sample);
  };
  useEffect(() => {
    if (wish === undefined || !ready) return;
    setWish(undefined);
    void tuning.show(wish);
  }, [wish, ready, tuning]);
  const view: ViewProps = {
    findings,
    grown: state.grown,
    unit: about?.unit ?? '1',
    title: about?.title ?? study.goals[0]?.text ?? '',
    picked: state.picked?.sample,
    look,
    onPick: pick,
  };
  return (
    <section className="record study-results" aria-label="What the study found">
      <Summary {...view} />
      <div className="study-columns">
        <div className="study-plot">
          {study.dials.length === 1 ? <LinePlot {...view} /> : <FieldPlot {...view} over={over} />}
          <Over findings={findings} over={over} onOver={setOver} />
        </div>
        <div className="study-side">
          {state.picked === undefined ? null : (
            <Card shown={state.picked} tuning={tuning} findings={findings} unit={view.unit} />
          )}
          {samples.length === 0 ? null : <Samples {...view} />}
        </div>
      </div>
    </section>
  );
}

/** What the study found, in the place of bands and strips while the study is looked at. */
export function Results({ look, children }: { readonly look: Look; readonly children: ReactNode }) {
  const { tuning, state } = useTuning();
  const { findings } = state;
  if (findings === undefined) return children;
  return <Found tuning={tuning} state={state} findings={findings} look={look} />;
}
