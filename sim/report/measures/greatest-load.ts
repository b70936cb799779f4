import type { MeasureKind } from '../criterion.ts';
import { greatestLoad, type LoadPeak } from '../wheel-load.ts';
import { type MeasureHead, measured } from './measure.ts';

// Peak wheel force over static wheel force is a usual figure of dynamic wheel force work on heavy vehicles.
const source =
  'peak over static wheel force, as used for heavy vehicles (Davis and Bunker 2009, Load-sharing in heavy vehicle suspensions; definition from memory)';

const share: MeasureHead = {
  name: 'wheelGreatestLoadShare',
  title: 'Greatest share of the standing load',
  says: 'Greatest load of the axle line over its standing load.',
  source,
  unit: '1',
};

const overall: MeasureHead = {
  name: 'greatestLoadShare',
  title: 'Greatest share of the standing load, any wheel',
  says: 'Greatest load over standing load of all axle lines, and the line that had it.',
  source,
  unit: '1',
};

/** Greatest share of the standing load, of each wheel and of all. */
export const greatestLoadMeasure: MeasureKind = {
  name: 'greatestLoad',
  measure({ recording }) {
    const peaks = recording.wheels.map((_, wheel) => greatestLoad(recording, wheel));
    const most = peaks.reduce<LoadPeak | undefined>(
      (best, peak) =>
        peak?.share !== undefined && peak.share > (best?.share ?? Number.NEGATIVE_INFINITY) ? peak : best,
      undefined,
    );
    return [
      measured(overall, most?.share, { of: most && recording.wheels[most.wheel], moment: most?.moment }),
      ...recording.wheels.map((of, wheel) =>
        measured(share, peaks[wheel]?.share, { of, moment: peaks[wheel]?.moment }),
      ),
    ];
  },
};
