import { formatQuantity } from '../../shared/units.ts';
import { useDesk } from '../app/workbench.ts';
import { LiveLedger } from '../panels/ledger/LiveLedger.tsx';
import { Standing } from '../panels/Standing.tsx';
import { Verdicts } from '../panels/Verdicts.tsx';

/** Energy above which the fingers of a builder are worth a word, J: common practice, no source. */
const WORTH_A_WORD = 0.3;

/** Energy in springs as the height from which a bag of sugar falls: standard gravity, 1 kg. */
const asFall = (energy: number): string => formatQuantity(energy / 9.80665, 'length', 2);

/** What wound-up springs hold, in plain words; nothing while there is little. */
function Stored() {
  const stored = useDesk(({ solved }) => solved?.recording.standing.stored) ?? 0;
  if (!(stored > WORTH_A_WORD)) return null;
  return (
    <p className="stored" role="note">
      Standing, the springs hold {formatQuantity(stored, 'energy', 2)}, as much as 1 kg that falls{' '}
      {asFall(stored)}. A pin that is pulled lets it go at once: unload springs and bars first, keep fingers
      out of the links, protect your eyes. For full-size vehicles this is work for a licensed workshop.
    </p>
  );
}

/** The live answers beside the drawing: how it stands, and whether it crosses its ground as it must. */
export function Answers() {
  const ledger = useDesk(({ solved }) => solved?.report.ledger !== undefined);
  return (
    <section className={ledger ? 'answers with-ledger' : 'answers'} aria-label="Answers">
      <div>
        <Standing status={false} />
        <Stored />
      </div>
      <Verdicts />
      <LiveLedger />
    </section>
  );
}
