import type { Influence, Influences } from '../../sim/studies/matters.ts';
import { findField } from '../app/actions.ts';
import { useBench, useDocument, useStudies } from '../app/workbench.ts';
import { differenceWords, figureWords } from './figures.ts';
import { JobStatus } from './JobStatus.tsx';
import { MapControls } from './MapControls.tsx';
import { MeasurePicker, useChoice } from './measureChoice.tsx';
import './studies.css';

/** Longest list that is laid out. */
const MOST_ROWS = 40;

function Row({ influence, result }: { readonly influence: Influence; readonly result: Influences }) {
  const bench = useBench();
  const { knob, per, change } = influence;
  const most = Math.abs(result.list[0]?.change ?? 1);
  const isBetter = change > 0 === (result.choice.better === 'more');
  const path = knob.moves[0]?.path;
  return (
    <li>
      <button
        type="button"
        className="influence"
        title="Go to this figure"
        disabled={path === undefined}
        onClick={() => path !== undefined && findField(bench, path)}
      >
        <span className="name">{knob.name}</span>
        <b>{differenceWords(change, result.unit, result.choice.text, result.today.value)}</b>
        <span className="soft per">for {per} more</span>
        <span
          className={`bar ${isBetter ? 'better' : 'worse'}`}
          aria-hidden="true"
          style={{ transform: `scaleX(${Math.abs(change) / most})` }}
        />
        <span className="unseen">{isBetter ? 'Better.' : 'Worse.'}</span>
      </button>
    </li>
  );
}

/** Where the measure is decided, and how the list was found. */
function basis({ worst, by, why, unit, choice, today }: Influences): string {
  const now = figureWords(worst?.value ?? today.value, unit, choice.text);
  const where = worst?.of === undefined ? '' : ` (${worst.of})`;
  const how =
    by === 'derivative'
      ? 'exact derivatives of the balance at its worst station'
      : `differences between whole crossings${why === undefined ? '' : `: ${why}`}`;
  return `Today ${now}${where}. By ${how}.`;
}

function Found({ result }: { readonly result: Influences }) {
  return (
    <>
      <p className="soft">{basis(result)}</p>
      <ol className="influences">
        {result.list.slice(0, MOST_ROWS).map((influence) => (
          <Row key={influence.knob.name} influence={influence} result={result} />
        ))}
      </ol>
      <p className="soft">
        {result.list.length > MOST_ROWS ? `${result.list.length - MOST_ROWS} more matter less. ` : ''}
        {result.idle} figures change nothing here.
      </p>
    </>
  );
}

/** What matters most to a measure of the crossing, figure by figure, and its map over the place of a pivot. */
export function Matters() {
  const { studies } = useBench();
  const raw = useDocument((state) => state.raw);
  const { matters } = useStudies();
  const choice = useChoice();
  const isNew =
    matters.kind !== 'none' &&
    matters.of === raw &&
    (matters.kind !== 'done' || matters.result.choice.text === choice?.text);
  return (
    <div className="measures matters">
      <MeasurePicker />
      <MapControls />
      <section className="measure">
        <h3>What matters most</h3>
        <p className="soft">
          How much the measure of the crossing in balance changes with each figure of the vehicle.
        </p>
        {isNew && matters.kind !== 'failed' ? null : (
          <button
            type="button"
            className="button"
            disabled={choice === undefined}
            onClick={() => choice !== undefined && studies.matters(raw, choice.text)}
          >
            {matters.kind === 'none' ? 'Find what matters' : 'Find again'}
          </button>
        )}
        <JobStatus job={matters} name="What matters most" onCancel={() => studies.cancel('matters')} />
        {matters.kind === 'done' ? (
          <div data-stale={!isNew}>
            <Found result={matters.result} />
          </div>
        ) : null}
      </section>
    </div>
  );
}
