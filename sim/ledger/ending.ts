import type { LedgerLine } from '../../shared/report.ts';
import type { Run } from '../report/criterion.ts';
import { momentAt } from '../report/moments.ts';
import { stationWords } from '../report/words.ts';

/**
 * Why the run itself went no further, where that is no part's or tyre's limit: it tipped over, or no balance was left. At
 * 100 % of what there was; a crawl that was held up by grip or torque has their lines.
 */
export function endingLine(run: Run): LedgerLine | undefined {
  const { recording } = run;
  const { end } = recording;
  if (end.kind !== 'tipped' && end.kind !== 'stuck') return undefined;
  if (end.kind === 'stuck' && end.by !== undefined) return undefined;
  const place = stationWords(run, end.station);
  const moment = recording.frames === 0 ? undefined : momentAt(recording, end);
  return {
    sort: end.kind === 'tipped' ? 'tipping' : 'balance',
    of: 'vehicle',
    quantity: 'balance',
    use: 1,
    carries: 1,
    limit: 1,
    unit: '1',
    says:
      end.kind === 'tipped' ? `It tips over at ${place}.` : `It gets no further at ${place}: ${end.cause}.`,
    ...(moment === undefined ? {} : { moment, gives: moment }),
  };
}
