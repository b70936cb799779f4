import type { Recording } from '../../shared/recording.ts';
import type { Ledger } from '../../shared/report.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { ledgerOf } from './ledger.ts';
import { keptOffStops } from './stops-kept.ts';

/** A run with its ledger, which is made once, when something first asks for it. */
export function runOf(
  { criteria }: { readonly criteria: readonly { readonly kind: string }[] },
  mechanism: Mechanism,
  recording: Recording,
): Run {
  let ledger: Ledger | undefined;
  return {
    mechanism,
    recording,
    ledger() {
      ledger ??= ledgerOf(mechanism, recording, { noStops: keptOffStops(criteria, mechanism.members) });
      return ledger;
    },
  };
}
