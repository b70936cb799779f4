import { useDeferredValue, useMemo, useState } from 'react';
import type { LedgerLine } from '../../../shared/report.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { storedEnergies } from '../../../sim/strength/energy.ts';
import { useDesk, useDocument, useFigures } from '../../app/workbench.ts';
import { saveByDownload } from '../../documents/files.ts';
import { unbroken } from '../words.ts';
import { Lines } from './Lines.tsx';
import { Mass } from './Mass.tsx';
import { Remedies } from './Remedies.tsx';
import { ledgerCsv, ledgerTabs } from './table.ts';
import '../studies.css';
import './ledger.css';

/** A vehicle of this mass or more is no model, kg: definition of our own. */
const FULL_SIZE = 100;

/** What to take care of with such a drive line. */
function cautionsOf({ driveline, mass }: Mechanism): readonly string[] {
  if (driveline === undefined) return [];
  const rated = driveline.parts.some(({ rating }) => rating?.how === 'measured');
  const estimated = driveline.parts.some(({ rating }) => rating?.how === 'estimate');
  return [
    'A motor that is held near standstill gets hot within seconds, its controller and wires too: it burns fingers and melts plastics.',
    ...(driveline.supply === undefined
      ? []
      : ['Lithium cells burn when shorted, overcharged or drawn from beyond their limit.']),
    ...(rated ? ['Ratings were measured on parts that may break: wear eye protection for that.'] : []),
    ...(estimated ? ['Estimates have a wide spread: test your own parts before you rely on them.'] : []),
    ...(mass >= FULL_SIZE
      ? ['Full-size vehicles: local codes and licensed practice decide, not these figures.']
      : []),
  ];
}

/** What springs and bars store at most, and what that means; and what else to take care of. */
function Care() {
  const solved = useDeferredValue(useDesk((state) => state.solved));
  const stored = useMemo(
    () => (solved === undefined ? [] : storedEnergies(solved.mechanism, solved.recording)),
    [solved],
  );
  const most = [...stored].sort((a, b) => b.all - a.all).slice(0, 3);
  const cautions = solved === undefined ? [] : cautionsOf(solved.mechanism);
  if (most.length + cautions.length === 0) return null;
  return (
    <section className="measure" aria-label="Take care">
      <h3>Take care</h3>
      <ul className="ledger-care">
        {most.map(({ of, says }) => (
          <li key={of}>
            {of}: {unbroken(says)}.
          </li>
        ))}
        {cautions.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

/** Copies the table, or saves it as CSV. */
function TakeAway({ lines }: { readonly lines: readonly LedgerLine[] }) {
  const name = useDocument((state) => state.name);
  const [said, setSaid] = useState('');
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(ledgerTabs(lines));
      setSaid('copied');
    } catch {
      setSaid('the browser allows no copying here; save it as CSV instead');
    }
  };
  return (
    <div className="group ledger-tools">
      <button type="button" className="button small" onClick={() => void copy()}>
        Copy the table
      </button>
      <button
        type="button"
        className="button small"
        onClick={() =>
          saveByDownload({
            name: `${name.replace(/\.json$/, '') || 'vehicle'}-ledger.csv`,
            text: ledgerCsv(lines),
          })
        }
      >
        Save as CSV
      </button>
      <span className="soft" role="status">
        {said}
      </span>
    </div>
  );
}

/** All that could end the crossing in one sorted list; how heavy the vehicle may come out; what would help. */
export function Ledger() {
  const report = useDesk(({ solved }) => solved?.report);
  const mode = useDesk((state) => state.mode);
  const stale = useDesk((state) => state.stale);
  const { say } = useFigures();
  const ledger = useDeferredValue(report?.ledger);
  if (ledger === undefined)
    return (
      <div className="measures ledger">
        <p className="soft">
          {mode === 'stand'
            ? 'The ledger is that of a crossing: look at it while crawling or driving.'
            : 'There is a ledger for a vehicle with a drive line or with strength figures. Both are added where the vehicle is built.'}
        </p>
      </div>
    );
  const over = ledger.lines.some(({ gives }) => gives !== undefined);
  return (
    <div className="measures ledger">
      <p className={over ? 'ledger-says over' : 'ledger-says'}>{unbroken(say(ledger.says))}</p>
      <TakeAway lines={ledger.lines} />
      <div data-stale={stale}>
        <Lines lines={ledger.lines} />
      </div>
      <Mass />
      <Remedies />
      <Care />
    </div>
  );
}
