import { useBench, useDesk } from '../app/workbench.ts';
import { keepRun, useBeforeName, useChanges } from './comparing.ts';
import type { Way } from './judge.ts';

const countWords = (changes: ReturnType<typeof useChanges>, pinned: boolean): string => {
  const name = pinned ? 'the kept run' : 'the run before';
  if (changes === undefined) return pinned ? 'This run is kept' : 'No run to compare with yet';
  const count = (wanted: Way) => changes.filter(({ way }) => way === wanted).length;
  if (changes.length === 0) return `Same as ${name}`;
  return `${count('better')} better, ${count('worse')} worse`;
};

/** One line between verdicts and panels: how this run compares, and what to compare with. */
export function Comparison() {
  const bench = useBench();
  const { desk } = bench;
  const name = useBeforeName();
  const changes = useChanges();
  const pinned = useDesk((state) => state.pinned);
  const has = useDesk((state) => state.before !== undefined);
  const ready = useDesk((state) => state.solved !== undefined);
  return (
    <div className="comparison">
      <span className="words" title={`Compared with ${name}`}>
        {countWords(changes, pinned)}
      </span>
      <button
        type="button"
        className="button small"
        title="Compare all further runs with this one (K)"
        disabled={!ready}
        onClick={() => keepRun(bench)}
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
