import type { Change } from '../../sim/report/changes.ts';
import { Icon } from '../app/Icon.tsx';
import { useChanges } from './comparing.ts';
import { differenceWords, figureWords } from './figures.ts';
import type { Way } from './judge.ts';

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

/** A change that its words do not show is none to a reader. */
function shows(change: Change): boolean {
  const { was, is } = wordsOf(change);
  return was !== is || (change.kind === 'verdict' && change.turn !== 'same');
}

function ChangeList({ way, changes: all }: { readonly way: Way; readonly changes: readonly Change[] }) {
  const changes = all.filter(shows);
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
