import { useMemo } from 'react';
import { pathText } from '../../shared/path.ts';
import { type Showing, showSentence } from '../../shared/units.ts';
import type { Influence, Influences } from '../../sim/studies/matters.ts';
import { findField } from '../app/actions.ts';
import { useBench, useDocument, useShowing, useStudies } from '../app/workbench.ts';
import { formOf } from './fields/layout.ts';
import { differenceWords, figureWords } from './figures.ts';
import { JobStatus } from './JobStatus.tsx';
import { MapControls } from './MapControls.tsx';
import { MeasurePicker, useChoice } from './measureChoice.tsx';
import './studies.css';

/** Longest list that is laid out. */
const MOST_ROWS = 40;

interface RowProps {
  readonly influence: Influence;
  readonly result: Influences;
  /** What the form calls the figures, by their places. */
  readonly names: ReadonlyMap<string, string>;
}

/** A single figure is called as in the form; what turns several of them has a name of its own. */
function nameOf({ knob }: Influence, names: RowProps['names']): string {
  const [first, second] = knob.moves;
  if (first === undefined || second !== undefined) return knob.name;
  return names.get(pathText(first.path)) ?? knob.name;
}

/** Names of all figures of the form: 'middle torsion bars: bar section diameter'. */
function useNames(): RowProps['names'] {
  const raw = useDocument((state) => state.raw);
  return useMemo(() => {
    if (raw === null) return new Map();
    const entries = formOf(raw).flatMap(({ title, blocks }) =>
      blocks.flatMap((block) =>
        block.rows.flatMap(({ label, fields }) =>
          fields.map(({ path, part }): [string, string] => [
            pathText(path),
            `${block.title || title}: ${label} ${part}`.trim(),
          ]),
        ),
      ),
    );
    return new Map(entries);
  }, [raw]);
}

function Row({ influence, result, names }: RowProps) {
  const bench = useBench();
  const showing = useShowing();
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
        <span className="name">{nameOf(influence, names)}</span>
        <b>{differenceWords(change, result.unit, result.choice.text, result.today.value, showing)}</b>
        <span className="soft per">for {showSentence(per, showing)} more</span>
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
function basis({ worst, by, why, unit, choice, today }: Influences, showing: Showing): string {
  const now = figureWords(worst?.value ?? today.value, unit, choice.text, showing);
  const where = worst?.of === undefined ? '' : ` (${worst.of})`;
  const how =
    by === 'derivative'
      ? 'exact derivatives of the balance at its worst place, looked for between stations too'
      : `differences between whole crossings${why === undefined ? '' : `: ${why}`}`;
  return `Today ${now}${where}. By ${how}.`;
}

function Found({ result }: { readonly result: Influences }) {
  const names = useNames();
  return (
    <>
      <p className="soft">{basis(result, useShowing())}</p>
      <ol className="influences">
        {result.list.slice(0, MOST_ROWS).map((influence) => (
          <Row key={influence.knob.name} influence={influence} result={result} names={names} />
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
