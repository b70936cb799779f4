import type { LedgerLine } from '../../../shared/report.ts';
import { type Showing, showQuantity, showSentence } from '../../../shared/units.ts';
import { isOver } from '../../../sim/ledger/ledger.ts';
import { usedWords } from '../../../sim/ledger/words.ts';
import { useBench, useShowing } from '../../app/workbench.ts';
import { knownWords } from '../../driveline/PartNote.tsx';
import { figureWords } from '../figures.ts';
import { unbroken } from '../words.ts';
import { goToLine, selectLine } from './go.ts';
import { marginOf } from './table.ts';
import './ledger.css';

/** Bars end at this use: what is past its limit sticks out over the mark. */
const BAR_TO = 1.25;

const useText = ({ use }: LedgerLine): string =>
  use === null ? 'unknown' : use > 100 ? '> 10 000 %' : usedWords(use);

/** 'needs 1.9 N·m, has 1.5 N·m'. */
function figuresOf(line: LedgerLine, showing: Showing): string {
  const { carries, limit, unit, quantity, sort } = line;
  if (sort === 'balance') return '';
  const needs = `needs ${figureWords(carries, unit, quantity, showing)}`;
  if (limit === null) return `${needs}; what it may carry is not known`;
  const margin = marginOf(line) ?? 0;
  const left =
    margin < 0
      ? `short by ${figureWords(-margin, unit, quantity, showing)}`
      : `margin ${figureWords(margin, unit, quantity, showing)}`;
  return `${needs}, has ${figureWords(limit, unit, quantity, showing)}, ${left}`;
}

function Bar({ line }: { readonly line: LedgerLine }) {
  const { use } = line;
  const share = use === null ? 1 : Math.min(BAR_TO, use) / BAR_TO;
  const look = use === null ? 'unknown' : isOver(line) || use > 1 ? 'over' : 'holds';
  return (
    <span className="ledger-bar" data-look={look} aria-hidden="true">
      <span style={{ width: `${100 * share}%` }} />
    </span>
  );
}

interface RowProps {
  readonly line: LedgerLine;
  /** While building, a press selects, and the way to the moment is beside it. */
  readonly building: boolean;
}

function Row({ line, building }: RowProps) {
  const bench = useBench();
  const showing = useShowing();
  const { sort, of, quantity, moment, harmless } = line;
  const known = knownWords(line);
  return (
    <li className="ledger-line" data-over={isOver(line)} data-unknown={line.use === null}>
      <button
        type="button"
        className="ledger-main"
        title={unbroken(showSentence(line.says, showing))}
        onClick={() => (building ? selectLine(bench, line) : goToLine(bench, line))}
      >
        <span className="ledger-of">
          {of}{' '}
          <span className="soft">
            {sort === quantity ? '' : sort}
            {sort === quantity ? quantity : `, ${quantity}`}
          </span>
        </span>
        <b className="ledger-use">{useText(line)}</b>
        <Bar line={line} />
        <span className="ledger-figures soft">
          {unbroken(figuresOf(line, showing))}
          {known === '' || known === 'given' ? '' : ` (${known})`}
          {harmless ? '; ends nothing by itself' : ''}
          {building || moment === undefined ? '' : `, at ${showQuantity(moment.station, 'length', showing)}`}
        </span>
      </button>
      {building && moment !== undefined ? (
        <button
          type="button"
          className="jump ledger-when"
          title="Go to this moment of the crossing"
          onClick={() => goToLine(bench, line)}
        >
          {showQuantity(moment.station, 'length', showing)}
        </button>
      ) : null}
    </li>
  );
}

interface LinesProps {
  readonly lines: readonly LedgerLine[];
  readonly building?: boolean;
}

const keyOf = ({ sort, of, quantity }: LedgerLine): string => `${sort} ${of} ${quantity}`;

/** All lines of a ledger, the nearest to its limit first; those whose limit is not known come last and say so. */
export function Lines({ lines, building = false }: LinesProps) {
  const known = lines.filter(({ use }) => use !== null);
  const unknown = lines.filter(({ use }) => use === null);
  return (
    <>
      <ol className="ledger-lines">
        {known.map((line) => (
          <Row key={keyOf(line)} line={line} building={building} />
        ))}
      </ol>
      {unknown.length === 0 ? null : (
        <>
          <p className="soft ledger-unknown">Limit unknown: never taken for safe</p>
          <ol className="ledger-lines">
            {unknown.map((line) => (
              <Row key={keyOf(line)} line={line} building={building} />
            ))}
          </ol>
        </>
      )}
    </>
  );
}
