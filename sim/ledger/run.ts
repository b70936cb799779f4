import type { Recording } from '../../shared/recording.ts';
import type { Ledger } from '../../shared/report.ts';
import type { Ground } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { ledgerOf } from './ledger.ts';
import { keptOffStops } from './stops-kept.ts';

interface Questions {
  readonly criteria: readonly { readonly kind: string }[];
  /** Pieces of the ground, as the schema reads them. */
  readonly ground?: Parameters<typeof layGround>[0];
}

/** The ground of a document; undefined where it names files, which are not here. */
function laid(pieces: Questions['ground']): Ground | undefined {
  const found = pieces && layGround(pieces, { file: () => undefined });
  return found?.ok === true ? found.value : undefined;
}

/** A run with its ledger, which is made once, when something first asks for it. */
export function runOf(
  { criteria, ground: pieces }: Questions,
  mechanism: Mechanism,
  recording: Recording,
): Run {
  let ledger: Ledger | undefined;
  let ground: { readonly is: Ground | undefined } | undefined;
  return {
    mechanism,
    recording,
    ledger() {
      ledger ??= ledgerOf(mechanism, recording, { noStops: keptOffStops(criteria, mechanism.members) });
      return ledger;
    },
    ground() {
      ground ??= { is: laid(pieces) };
      return ground.is;
    },
  };
}
