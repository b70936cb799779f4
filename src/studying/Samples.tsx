import { useMemo, useState } from 'react';
import { judgeWords } from '../../sim/tuning/criteria.ts';
import { compare } from '../../sim/tuning/rank.ts';
import { useShowing } from '../app/workbench.ts';
import { axesOf, within } from './brush.ts';
import type { ViewProps } from './view.ts';
import { entryWords, goalWords, outcomeWords } from './words.ts';

/** Rows that are laid out at first, and with each further look. */
const page = 50;

/** All designs that were tried as a table, the best first; a row is picked by its button. */
export function Samples({ findings, grown, about, brush, unit, title, picked, onPick }: ViewProps) {
  const showing = useShowing();
  const [rows, setRows] = useState(page);
  const [holding, setHolding] = useState(false);
  const { study, samples } = findings;
  const { dials, goals } = study;
  const asks = useMemo(() => judgeWords(study.scenario.criteria), [study]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is the same object while it grows.
  const sorted = useMemo(() => {
    const named = goals.map(({ text }, g) => ({ title: about[g]?.title ?? text }));
    const axes = axesOf(dials, named, samples);
    return samples
      .filter((sample) => (sample.holds || !holding) && within(brush, axes, sample))
      .sort((a, b) => compare(goals, a, b));
  }, [samples, dials, goals, about, brush, grown, holding]);
  return (
    <div className="samples">
      <label className="check">
        <input
          type="checkbox"
          checked={holding}
          onChange={(event) => setHolding(event.currentTarget.checked)}
        />
        only designs where all holds
      </label>
      <table className="samples-table">
        <caption className="unseen">Designs that were tried, the best first</caption>
        <thead>
          <tr>
            <th scope="col">Design</th>
            {dials.map(({ name }) => (
              <th scope="col" key={name} title={name}>
                {name}
              </th>
            ))}
            <th scope="col">{title}</th>
            {goals.slice(1).map(({ text }, g) => (
              <th scope="col" key={text}>
                {about[g + 1]?.title ?? text}
              </th>
            ))}
            <th scope="col">Outcome</th>
          </tr>
        </thead>
        <tbody>
          {sorted.slice(0, rows).map((sample) => (
            <tr key={sample.n} data-picked={sample === picked} data-holds={sample.holds}>
              <th scope="row">
                <button
                  type="button"
                  className="button small"
                  aria-pressed={sample === picked}
                  aria-label={`Show design ${sample.n + 1}`}
                  onClick={() => onPick(sample)}
                >
                  {sample.n + 1}
                </button>
              </th>
              {dials.map((dial, d) => (
                <td key={dial.name}>{entryWords(dial, sample.design[d] as number, showing)}</td>
              ))}
              <td>{goalWords(sample.goals[0] ?? null, unit, goals[0]?.text ?? '', showing)}</td>
              {goals.slice(1).map(({ text }, g) => (
                <td key={text}>
                  {goalWords(sample.goals[g + 1] ?? null, about[g + 1]?.unit ?? '1', text, showing)}
                </td>
              ))}
              <td className="outcome">{outcomeWords(sample, asks)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {sorted.length <= rows ? null : (
        <button type="button" className="button small" onClick={() => setRows((now) => now + page)}>
          {Math.min(page, sorted.length - rows)} more of {sorted.length}
        </button>
      )}
    </div>
  );
}
