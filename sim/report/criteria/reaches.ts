import { z } from 'zod';
import { column } from '../../../shared/recording.ts';
import { quantity } from '../../../shared/schema/quantity.ts';
import { endCause } from '../causes/grip.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { momentAt, momentOf } from '../moments.ts';
import { because, type Outcome } from '../outcome.ts';
import { furthestStation, senseOf } from '../way.ts';
import { besideLimit, endWords, lengthWords, placeWords, stationWords, timeWords } from '../words.ts';

const fields = z.strictObject({
  station: quantity(
    'length',
    "Station that the vehicle's reference point must reach; the end of the run when left out.",
    {
      least: -1e6,
      most: 1e6,
    },
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
      ? 'The vehicle reaches the end of its run'
      : `The vehicle reaches station ${lengthWords(station)}`,
  judge({ station }, run) {
    const furthest = furthestStation(run).value;
    // A goal at the very station where the run ended counts as reached: slack of a millionth of a wheel radius.
    const reached =
      station === undefined
        ? run.recording.end.kind === 'arrived'
        : senseOf(run) * (furthest - station) >= -1e-6 * run.mechanism.size;
    return reached ? arrived(run, station, furthest) : fellShort(run, station, furthest);
  },
});

function arrived(run: Run, station: number | undefined, furthest: number): Outcome {
  const { recording } = run;
  const sense = senseOf(run);
  const frame =
    station === undefined ? -1 : column(recording, 'station').findIndex((x) => sense * (x - station) >= 0);
  const moment = frame < 0 ? momentAt(recording, recording.end) : momentOf(recording, frame);
  const after = run.recording.mode === 'crawl' ? '' : ` after ${timeWords(moment.time)}`;
  const says = `The vehicle reaches ${stationWords(run, station ?? furthest)}${after}.`;
  return {
    pass: true,
    value: furthest,
    limit: station ?? null,
    unit: 'm',
    shown: placeWords(run, furthest),
    says,
    moment,
  };
}

function fellShort(run: Run, station: number | undefined, furthest: number): Outcome {
  const { end } = run.recording;
  const words = (value: number, digits?: number) => placeWords(run, value, digits);
  const cause = endWords(run) ?? 'the run was over';
  return {
    pass: false,
    value: furthest,
    limit: station ?? null,
    unit: 'm',
    shown: station === undefined ? words(furthest) : besideLimit(words, furthest, station),
    says: `The vehicle gets only to ${stationWords(run, furthest)}: ${run.recording.mode === 'crawl' ? '' : `after ${timeWords(end.time)} `}${cause}.`,
    ...because(endCause(run)),
    moment: momentAt(run.recording, end),
  };
}
