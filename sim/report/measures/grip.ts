import type { MeasureKind } from '../criterion.ts';
import { greatestGrip, mostGrip } from '../grip.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const each: MeasureHead = {
  name: 'wheelGripUse',
  title: 'Greatest grip use',
  says: 'Greatest tangential ground force over what grip allows at that load, 0 to 1.',
  source: ownDefinition,
  unit: '1',
};

const overall: MeasureHead = { ...each, name: 'greatestGripUse', title: 'Greatest grip use, any wheel' };

/** How much of their grip the wheels used, each and the most. */
export const gripMeasure: MeasureKind = {
  name: 'grip',
  measure({ recording }) {
    const most = mostGrip(
      recording,
      recording.wheels.map((_, wheel) => wheel),
    );
    return [
      measured(overall, most?.value, { of: most && recording.wheels[most.wheel], moment: most?.moment }),
      ...recording.wheels.map((of, wheel) => {
        const peak = greatestGrip(recording, wheel);
        return measured(each, peak?.value, { of, moment: peak?.moment });
      }),
    ];
  },
};
