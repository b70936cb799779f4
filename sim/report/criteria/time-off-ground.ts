import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { defineCriterion } from '../criterion.ts';
import { flights, longestOf } from '../flights.ts';
import { momentAt } from '../moments.ts';
import { unknownNames } from '../outcome.ts';
import { brokenOff, listWords, momentWords, stationWords, theWheel } from '../words.ts';
import { chosenOf, unknownOf, wheelsField } from './chosen.ts';

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
      ? `${whichWheel(wheels)} leaves the ground`
      : `${whichWheel(wheels)} is off the ground longer than ${formatQuantity(longest, 'time')}`,
  judge({ longest, wheels }, run) {
    const { recording } = run;
    const limits = { limit: longest, unit: 's' };
    const unknown = unknownOf(recording.wheels, wheels);
    if (unknown.length > 0) return unknownNames('wheel', unknown, recording.wheels, longest, 's');
    const chosen = chosenOf(recording.wheels, wheels);
    const flight = longestOf(flights(recording).filter((f) => chosen.includes(f.wheel)));
    if (flight === undefined) {
      return {
        pass: true,
        value: 0,
        ...limits,
        shown: formatQuantity(0, 'time'),
        says: `${whichWheel(wheels)} leaves the ground.${brokenOff(run)}`,
      };
    }
    const name = recording.wheels[flight.wheel] ?? '';
    const moment = momentAt(recording, { time: flight.from, station: flight.station });
    const shown = formatQuantity(flight.duration, 'time');
    const open = flight.open ? ' and is still in the air at the end' : '';
    const says = `${theWheel(name)} is off the ground longest: ${shown} from ${stationWords(flight.wheelStation)} on${open} (${momentWords(moment)}).${brokenOff(run)}`;
    return {
      pass: flight.duration <= longest,
      value: flight.duration,
      ...limits,
      shown,
      says,
      of: name,
      moment,
    };
  },
});

/** 'No wheel', or 'None of front and rear'. */
function whichWheel(wheels: readonly string[] | undefined): string {
  return wheels === undefined ? 'No wheel' : `None of the wheels ${listWords(wheels)}`;
}
