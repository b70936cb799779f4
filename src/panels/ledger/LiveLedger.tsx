import { useDeferredValue } from 'react';
import { useDesk, useFigures } from '../../app/workbench.ts';
import { unbroken } from '../words.ts';
import { Lines } from './Lines.tsx';

/** The ledger beside the drawing: it follows what is changed; nothing for a vehicle that has none. */
export function LiveLedger() {
  // The drawing goes first while something is dragged.
  const ledger = useDeferredValue(useDesk(({ solved }) => solved?.report.ledger));
  const { say } = useFigures();
  const stale = useDesk((state) => state.stale);
  if (ledger === undefined) return null;
  const over = ledger.lines.some(({ gives }) => gives !== undefined);
  return (
    <section className="verdicts ledger" aria-labelledby="live-ledger-title" data-stale={stale}>
      <div className="verdicts-head">
        <h2 id="live-ledger-title">Ledger</h2>
      </div>
      <p className={over ? 'ledger-says over' : 'ledger-says'}>{unbroken(say(ledger.says))}</p>
      <Lines lines={ledger.lines} building />
    </section>
  );
}
