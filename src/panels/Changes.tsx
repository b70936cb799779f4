import { useMemo } from 'react';
import { type Change, compareReports } from '../../sim/report/changes.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useDesk } from '../app/workbench.ts';
import { differenceWords, figureWords } from './figures.ts';
import { type Way, wayOf } from './judge.ts';

/** Changes with the way each of them goes; undefined while there is no run to compare with. */
export function useChanges(): readonly { readonly change: Change; readonly way: Way }[] | undefined {
  const before = useDesk((state) => state.before?.report);
  const after = useDesk((state) => state.solved?.report);
  return useMemo(() => {
    if (before === undefined || after === undefined || before === after) return undefined;
    return compareReports(before, after).map((change) => ({ change, way: wayOf(change) }));
  }, [before, after]);
}

function titleOf(change: Change): string {
  if (change.kind === 'verdict') return change.asks;
  return change.of === undefined ? change.title : `${change.title}, ${change.of}`;
}

/** 'was → is' and the difference, in words. */
function wordsOf(change: Change): { readonly was: string; readonly is: string; readonly by: string } {
  if (change.kind === 'verdict') {
    const { before, after, difference, turn } = change;
    const unit = (after ?? before)?.unit ?? '1';
    const by = turn === 'same' ? differenceWords(difference, unit, 'verdict', after?.value ?? null) : turn;
    return { was: before?.shown ?? '–', is: after?.shown ?? '–', by };
  }
  const { before, after, difference, unit, name } = change;
  return {
    was: figureWords(before, unit, name),
    is: figureWords(after, unit, name),
    by: differenceWords(difference, unit, name, after),
  };
}

const wayTitles: Readonly<Record<Way, string>> = { better: 'Better', worse: 'Worse', moved: 'Also moved' };

function ChangeList({ way, changes }: { readonly way: Way; readonly changes: readonly Change[] }) {
  if (changes.length === 0) return null;
  return (
    <section className={`changes ${way}`}>
      <h3>
        {way === 'moved' ? null : <Icon name={way} />}
        {wayTitles[way]} <span className="count">{changes.length}</span>
      </h3>
      <ul>
        {changes.map((change) => {
          const { was, is, by } = wordsOf(change);
          return (
            <li key={`${change.kind} ${titleOf(change)}`}>
              <span className="title">{titleOf(change)}</span>
              <b className="by">{by}</b>
              <span className="from-to">
                {was} → {is}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** What the last change did: verdicts and measures against the run before it, or the one that was kept. */
export function Changes() {
  const changes = useChanges();
  if (changes === undefined) {
    return (
      <p className="soft pad">
        Change a figure, and what it did to every verdict and measure is listed here. The run before stays in
        the picture as faint lines.
      </p>
    );
  }
  if (changes.length === 0) return <p className="soft pad">Nothing changed: both runs came out the same.</p>;
  const ways: readonly Way[] = ['better', 'worse', 'moved'];
  return ways.map((way) => (
    <ChangeList
      key={way}
      way={way}
      changes={changes.filter((each) => each.way === way).map(({ change }) => change)}
    />
  ));
}

const countWords = (changes: ReturnType<typeof useChanges>, pinned: boolean): string => {
  const name = pinned ? 'the kept run' : 'the run before';
  if (changes === undefined)
    return pinned ? 'This run is kept to compare with' : 'No run to compare with yet';
  const count = (wanted: Way) => changes.filter(({ way }) => way === wanted).length;
  if (changes.length === 0) return `Same as ${name}`;
  return `${count('better')} better, ${count('worse')} worse than ${name}`;
};

/** One line between verdicts and panels: how this run compares, and what to compare with. */
export function Comparison() {
  const { desk } = useBench();
  const changes = useChanges();
  const pinned = useDesk((state) => state.pinned);
  const has = useDesk((state) => state.before !== undefined);
  const ready = useDesk((state) => state.solved !== undefined);
  return (
    <div className="comparison">
      <span className="words">{countWords(changes, pinned)}</span>
      <button
        type="button"
        className="button small"
        title="Compare all further runs with this one (K)"
        disabled={!ready}
        onClick={() => desk.keep()}
      >
        Keep
      </button>
      <button
        type="button"
        className="button small"
        title="Compare with no run (C)"
        disabled={!has}
        onClick={() => desk.clear()}
      >
        Clear
      </button>
    </div>
  );
}
