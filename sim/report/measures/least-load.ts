import type { MeasureKind } from '../criterion.ts';
import { flights } from '../flights.ts';
import { leastLoad, leastShare } from '../wheel-load.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const load: MeasureHead = {
  name: 'wheelLeastLoad',
  title: 'Least load',
  says: 'Least vertical ground force on the axle line, all its wheels together; 0 while it is off the ground.',
  source: ownDefinition,
  unit: 'N',
};

const share: MeasureHead = {
  name: 'wheelLeastLoadShare',
  title: 'Least share of the standing load',
  says: 'Least load of the axle line over its standing load.',
  source: ownDefinition,
  unit: '1',
};

const overall: MeasureHead = {
  name: 'leastLoadShare',
  title: 'Least share of the standing load, any wheel',
  says: 'Least load over standing load of all axle lines, and the line that had it.',
  source: ownDefinition,
  unit: '1',
};

/** Least load of each wheel, and its share of the standing load; the least share of all. */
export const leastLoadMeasure: MeasureKind = {
  name: 'leastLoad',
  measure({ recording }) {
    const all = flights(recording);
    const peaks = recording.wheels.map((_, wheel) => leastLoad(recording, wheel, all));
    const worst = leastShare(
      recording,
      recording.wheels.map((_, wheel) => wheel),
    );
    return [
      measured(overall, worst?.share, { of: worst && recording.wheels[worst.wheel], moment: worst?.moment }),
      ...recording.wheels.map((of, wheel) =>
        measured(load, peaks[wheel]?.load, { of, moment: peaks[wheel]?.moment }),
      ),
      ...recording.wheels.map((of, wheel) =>
        measured(share, peaks[wheel]?.share, { of, moment: peaks[wheel]?.moment }),
      ),
    ];
  },
};
