import { type Showing, showSentence } from '../../shared/units.ts';
import type { Change } from '../../sim/report/changes.ts';
import { Icon } from '../app/Icon.tsx';
import { useBench, useShowing } from '../app/workbench.ts';
import { changeTitle } from '../reading/sheets.ts';
import { useBeforeName, useChanges } from './comparing.ts';
import { differenceWords, figureWords } from './figures.ts';
import type { Way } from './judge.ts';

interface Words {
  readonly was: string;
  readonly is: string;
  readonly by: string;
}

/** What it was, what it is, and the difference, in words. */
function wordsOf(change: Change, showing: Showing): Words {
  if (change.kind === 'verdict') {
    const { before, after, difference, turn } = change;
    const unit = (after ?? before)?.unit ?? '1';
    const by =
      turn === 'same' ? differenceWords(difference, unit, 'verdict', after?.value ?? null, showing) : turn;
    const shown = (text: string | undefined) => (text === undefined ? '–' : showSentence(text, showing));
    return { was: shown(before?.shown), is: shown(after?.shown), by };
  }
  const { before, after, difference, unit, name } = change;
  return {
    was: figureWords(before, unit, name, showing),
    is: figureWords(after, unit, name, showing),
    by: differenceWords(difference, unit, name, after, showing),
  };
}

const wayTitles: Readonly<Record<Way, string>> = { better: 'Better', worse: 'Worse', moved: 'Also moved' };

/** A change that its words do not show is none to a reader. */
function shows(change: Change, showing: Showing): boolean {
  const { was, is } = wordsOf(change, showing);
  return was !== is || (change.kind === 'verdict' && change.turn !== 'same');
}

function ChangeList({ way, changes: all }: { readonly way: Way; readonly changes: readonly Change[] }) {
  const showing = useShowing();
  const changes = all.filter((change) => shows(change, showing));
  if (changes.length === 0) return null;
  return (
    <section className={`changes ${way}`}>
      <h3>
        {way === 'moved' ? null : <Icon name={way} />}
        {wayTitles[way]} <span className="count">{changes.length}</span>
      </h3>
      <ul>
        {changes.map((change) => {
          const { was, is, by } = wordsOf(change, showing);
          const title = changeTitle(change);
          return (
            <li key={`${change.kind} ${title}`}>
              <span className="title">{showSentence(title, showing)}</span>
              <b className="by">{by}</b>
              <span className="from-to">
                <span className="named">before</span> {was} <span className="named">now</span> {is}
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
  const { notices } = useBench();
  const changes = useChanges();
  const name = useBeforeName();
  if (changes === undefined) {
    return (
      <p className="soft pad">
        Change a figure, and what it did to every verdict and measure is listed here. The run before stays in
        the picture as faint lines. Keep a run (K) to hold all further ones against it.
      </p>
    );
  }
  if (changes.length === 0) return <p className="soft pad">Nothing changed: both runs came out the same.</p>;
  const ways: readonly Way[] = ['better', 'worse', 'moved'];
  return (
    <>
      <div className="panel-tools">
        <span className="soft">Against {name}</span>
        <button
          type="button"
          className="button small"
          title="All differences as a table, to be copied or saved as CSV"
          onClick={() => notices.setState({ table: 'changes' })}
        >
          Table
        </button>
      </div>
      {ways.map((way) => (
        <ChangeList
          key={way}
          way={way}
          changes={changes.filter((each) => each.way === way).map(({ change }) => change)}
        />
      ))}
    </>
  );
}
