import { bogiesOf } from '../bogies.ts';
import type { MeasureKind } from '../criterion.ts';
import { spreadOf } from '../load-spread.ts';
import { momentOf } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const greatest: MeasureHead = {
  name: 'bogieLoadSpread',
  title: 'Greatest load spread in the bogie',
  says: 'Greatest difference between the loads on one wheel of the most and of the least loaded axle line of the bogie, over its mean standing load per wheel.',
  source: ownDefinition,
  unit: '1',
};

const mean: MeasureHead = {
  name: 'bogieMeanLoadSpread',
  title: 'Mean load spread in the bogie',
  says: 'The load spread of the bogie, meant over the frames of the run.',
  source: ownDefinition,
  unit: '1',
};

/** How unevenly the wheels of each bogie are loaded. One row without a value when the vehicle has no bogie. */
export const loadSpreadMeasure: MeasureKind = {
  name: 'loadSpread',
  measure(run) {
    const bogies = bogiesOf(run.mechanism);
    if (bogies.length === 0) return [measured(greatest, undefined), measured(mean, undefined)];
    return bogies.flatMap((bogie) => {
      const spread = spreadOf(run, bogie);
      const moment = spread && momentOf(run.recording, spread.peak.frame);
      return [
        measured(greatest, spread?.peak.value, { of: bogie.name, moment }),
        measured(mean, spread?.mean, { of: bogie.name }),
      ];
    });
  },
};
