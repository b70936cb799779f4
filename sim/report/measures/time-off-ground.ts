import type { MeasureKind } from '../criterion.ts';
import { flights, longestOf, shareOfTime } from '../flights.ts';
import { momentAt } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const share: MeasureHead = {
  name: 'wheelTimeOff',
  title: 'Share of time off the ground',
  says: 'Time between lift-off and touch-down, summed, over the time of the run; from events, so finer than frames.',
  source: ownDefinition,
  unit: '1',
};

const longest: MeasureHead = {
  name: 'wheelLongestOff',
  title: 'Longest time off the ground',
  says: 'Longest time between a lift-off and its touch-down, or the end of the run.',
  source: ownDefinition,
  unit: 's',
};

const overall: MeasureHead = {
  name: 'longestOff',
  title: 'Longest time off the ground, any wheel',
  says: 'Longest time that any axle line was off the ground at a stretch, and the line.',
  source: ownDefinition,
  unit: 's',
};

/** How long the wheels were off the ground. */
export const timeOffGroundMeasure: MeasureKind = {
  name: 'timeOffGround',
  measure({ recording }) {
    const all = flights(recording);
    const most = longestOf(all);
    const begun = (flight: typeof most) =>
      flight && momentAt(recording, { time: flight.from, station: flight.station });
    return [
      measured(overall, most?.duration ?? 0, {
        of: most && recording.wheels[most.wheel],
        moment: begun(most),
      }),
      ...recording.wheels.map((of, wheel) => measured(share, shareOfTime(recording, wheel, all), { of })),
      ...recording.wheels.map((of, wheel) => {
        const flight = longestOf(all.filter((f) => f.wheel === wheel));
        return measured(longest, flight?.duration ?? 0, { of, moment: begun(flight) });
      }),
    ];
  },
};
