import { type ReactNode, useEffect, useState } from 'react';
import { formatShare } from '../../shared/units.ts';
import { judgeWords } from '../../sim/tuning/criteria.ts';
import type { Sample } from '../../sim/tuning/sample.ts';
import { useBench, useDesk, useShowing } from '../app/workbench.ts';
import type { Look } from '../solved.ts';
import type { About } from '../workers/trial-protocol.ts';
import { useTuning } from './bench.ts';
import type { Brush } from './brush.ts';
import type { Findings } from './course.ts';
import { FieldPlot } from './FieldPlot.tsx';
import { FrontPlot } from './FrontPlot.tsx';
import { LinePlot } from './LinePlot.tsx';
import { LinesPlot } from './LinesPlot.tsx';
import { Samples } from './Samples.tsx';
import type { Shown, Tuning, TuningState } from './session.ts';
import type { ViewProps } from './view.ts';
import { entryWords, goalWords, outcomeWords, todayWords } from './words.ts';
import './studying.css';

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
  about,
}: {
  readonly shown: Shown;
  readonly tuning: Tuning;
  readonly findings: Findings;
  readonly about: About;
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
              {dial.now === null ? null : <span className="soft"> today {todayWords(dial, showing)}</span>}
            </dd>
          </div>
        ))}
        {goals.map((goal, g) => (
          <div key={goal.text}>
            <dt>{about[g]?.title ?? goal.text}</dt>
            <dd>
              {goalWords(sample.goals[g] ?? null, about[g]?.unit ?? '1', goal.text, showing)}
              {findings.today === undefined ? null : (
                <span className="soft">
                  {' '}
                  today{' '}
                  {goalWords(findings.today.goals[g] ?? null, about[g]?.unit ?? '1', goal.text, showing)}
                </span>
              )}
            </dd>
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

/** What the samples can be looked at as. */
const pictures = [
  { id: 'field', title: 'Field', least: { dials: 1, goals: 1 } },
  { id: 'lines', title: 'All numbers', least: { dials: 1, goals: 1 } },
  { id: 'front', title: 'Trade-off', least: { dials: 1, goals: 2 } },
] as const;
type PictureId = (typeof pictures)[number]['id'];

function PictureSwitch({
  findings,
  chosen,
  onChoose,
}: {
  readonly findings: Findings;
  readonly chosen: PictureId;
  readonly onChoose: (id: PictureId) => void;
}) {
  const { goals } = findings.study;
  return (
    <fieldset className="segments">
      <legend className="unseen">Picture of the study</legend>
      {pictures
        .filter(({ least }) => goals.length >= least.goals)
        .map(({ id, title }) => (
          <label key={id}>
            <input type="radio" name="study-picture" checked={id === chosen} onChange={() => onChoose(id)} />
            <span>{title}</span>
          </label>
        ))}
    </fieldset>
  );
}

/** A sample that was picked is shown as soon as a crossing in balance is on show: only balances answer at once. */
function usePick(tuning: Tuning): (sample: Sample) => void {
  const { settings } = useBench();
  const [wish, setWish] = useState<Sample>();
  const ready = useDesk(({ mode, solved, stale }) => mode !== 'drive' && solved !== undefined && !stale);
  useEffect(() => {
    if (wish === undefined || !ready) return;
    setWish(undefined);
    void tuning.show(wish);
  }, [wish, ready, tuning]);
  return (sample) => {
    if (settings.getState().mode === 'drive') settings.setState({ mode: 'crawl' });
    setWish(sample);
  };
}

interface FoundProps {
  readonly tuning: Tuning;
  readonly state: TuningState;
  readonly findings: Findings;
  readonly look: Look;
}

function Found({ tuning, state, findings, look }: FoundProps) {
  const [over, setOver] = useState<readonly [number, number]>([0, 1]);
  const [chosen, setChosen] = useState<PictureId>('field');
  const [brush, setBrush] = useState<Brush>({});
  const pick = usePick(tuning);
  const { study, samples } = findings;
  const about = state.about ?? [];
  const picture = chosen === 'front' && study.goals.length < 2 ? 'field' : chosen;
  const view: ViewProps = {
    findings,
    grown: state.grown,
    unit: about[0]?.unit ?? '1',
    title: about[0]?.title ?? study.goals[0]?.text ?? '',
    about,
    brush,
    picked: state.picked?.sample,
    look,
    onPick: pick,
  };
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls when the window is low, so the keyboard must reach it.
    <section className="record study-results" aria-label="What the study found" tabIndex={0}>
      <div className="study-head">
        <Summary {...view} />
        <PictureSwitch findings={findings} chosen={picture} onChoose={setChosen} />
      </div>
      <div className="study-columns">
        <div className="study-plot">
          {picture === 'lines' ? (
            <LinesPlot {...view} onBrush={setBrush} />
          ) : picture === 'front' ? (
            <FrontPlot {...view} />
          ) : study.dials.length === 1 ? (
            <LinePlot {...view} />
          ) : (
            <FieldPlot {...view} over={over} />
          )}
          {picture === 'field' ? <Over findings={findings} over={over} onOver={setOver} /> : null}
        </div>
        <div className="study-side">
          {state.picked === undefined ? null : (
            <Card shown={state.picked} tuning={tuning} findings={findings} about={about} />
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
