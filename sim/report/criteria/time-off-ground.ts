import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { type Flight, flights, longestOf } from '../flights.ts';
import { lostLoad } from '../lost-load.ts';
import { meanwhile } from '../meanwhile.ts';
import { momentAt } from '../moments.ts';
import { type Outcome, unknownNames } from '../outcome.ts';
import { besideLimit, brokenOff, momentWords, stationWords, theWheel, timeWords } from '../words.ts';
import { chosenOf, none, unknownOf, wheelsField } from './chosen.ts';

const fields = z.strictObject({
  longest: quantity('time', 'Longest time that a wheel may be off the ground at a stretch.', {
    least: 0,
    most: 3600,
  }),
  wheels: wheelsField,
});

/** No wheel is off the ground longer than asked, at a stretch. */
export const timeOffGround = defineCriterion({
  kind: 'time-off-ground',
  title: 'Wheels stay on the ground',
  fields,
  sample: { longest: '50 ms' },
  asks: ({ longest, wheels }) =>
    longest === 0
      ? staysDown(wheels)
      : `${none('wheel', wheels, 'is', 'is not')} off the ground longer than ${timeWords(longest)}`,
  judge({ longest, wheels }, run) {
    const { recording } = run;
    const limit = { limit: longest, unit: 's' };
    const unknown = unknownOf(recording.wheels, wheels);
    if (unknown.length > 0) return unknownNames('wheel', unknown, recording.wheels, limit);
    const chosen = chosenOf(recording.wheels, wheels);
    const flight = longestOf(flights(recording).filter((f) => chosen.includes(f.wheel)));
    if (flight !== undefined) return verdictOf(run, flight, longest);
    const says = `${staysDown(wheels)}.${brokenOff(run)}`;
    return { pass: true, value: 0, ...limit, shown: timeWords(0), says };
  },
});

const staysDown = (wheels: readonly string[] | undefined) =>
  none('wheel', wheels, 'leaves the ground', 'does not leave the ground');

function verdictOf(run: Run, flight: Flight, longest: number): Outcome {
  const { recording } = run;
  const of = recording.wheels[flight.wheel] ?? '';
  const moment = momentAt(recording, { time: flight.from, station: flight.station });
  const shown = besideLimit(timeWords, flight.duration, longest);
  const why = flight.duration > longest ? meanwhile(run, flight.wheel, moment.frame) : '';
  const cause = lostLoad(run, flight.wheel, moment.frame);
  const open = flight.open ? ', until the end' : '';
  const says =
    `${theWheel(of)} is off the ground for ${shown} from ${stationWords(run, flight.wheelStation)} on${open} ` +
    `(${momentWords(run, moment)}).${why}${brokenOff(run)}`;
  return {
    pass: flight.duration <= longest,
    value: flight.duration,
    limit: longest,
    unit: 's',
    shown,
    says,
    ...(cause === undefined ? {} : { cause }),
    of,
    moment,
  };
}
