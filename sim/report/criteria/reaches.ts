import { z } from 'zod';
import { column } from '../../../shared/recording.ts';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { greatestOf, momentAt, momentOf } from '../moments.ts';
import type { Outcome } from '../outcome.ts';
import { endWords, stationWords } from '../words.ts';

const fields = z.strictObject({
  station: quantity(
    'length',
    "Station that the vehicle's reference point must reach; where the run ends by itself when left out.",
    { least: -1e6, most: 1e6 },
  ).optional(),
});

/** The vehicle gets to a station, or to the goal of its run. */
export const reaches = defineCriterion({
  kind: 'reaches',
  title: 'Gets there',
  fields,
  sample: { station: '2.4 m' },
  asks: ({ station }) =>
    station === undefined
      ? 'The vehicle reaches the end of the run'
      : `The vehicle reaches ${stationWords(station)}`,
  judge({ station }, run) {
    const { end } = run.recording;
    const furthest = Math.max(
      end.station,
      greatestOf(column(run.recording, 'station'))?.value ?? end.station,
    );
    // A goal at the very station where the run ended counts as reached: slack of a millionth of a wheel radius.
    const reached =
      station === undefined ? end.kind === 'arrived' : furthest >= station - 1e-6 * run.mechanism.size;
    return reached ? arrived(run, station, furthest) : fellShort(run, station, furthest);
  },
});

function arrived(run: Run, station: number | undefined, furthest: number): Outcome {
  const { recording } = run;
  const frame = station === undefined ? -1 : column(recording, 'station').findIndex((x) => x >= station);
  const moment = frame < 0 ? momentAt(recording, recording.end) : momentOf(recording, frame);
  const at = stationWords(station ?? furthest);
  return {
    pass: true,
    value: furthest,
    limit: station ?? null,
    unit: 'm',
    shown: formatQuantity(furthest, 'length'),
    says: `The vehicle reaches ${at} after ${formatQuantity(moment.time, 'time')}.`,
    moment,
  };
}

function fellShort(run: Run, station: number | undefined, furthest: number): Outcome {
  const { recording } = run;
  const cause = endWords(run) ?? 'the run was over';
  return {
    pass: false,
    value: furthest,
    limit: station ?? null,
    unit: 'm',
    shown: formatQuantity(furthest, 'length'),
    says: `The vehicle gets only to ${stationWords(furthest)}: after ${formatQuantity(recording.end.time, 'time')} ${cause}.`,
    moment: momentAt(recording, recording.end),
  };
}
