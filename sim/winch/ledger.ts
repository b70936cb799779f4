import type { LedgerLine } from '../../shared/report.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { haulageOf } from './haulage.ts';

/**
 * Lines of the ledger for the winches whose task the document says: use of anchor, rope, brake, reduction and motor for
 * that task, not for the crossing. Winches without a task are asked for nothing and have none.
 */
export function winchLines(mechanism: Mechanism): LedgerLine[] {
  return (mechanism.winches ?? []).flatMap(({ task, ...winch }) =>
    task === undefined ? [] : haulageOf(mechanism, { ...winch, task }).uses,
  );
}
