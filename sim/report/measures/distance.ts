import { column } from '../../../shared/recording.ts';
import type { MeasureKind } from '../criterion.ts';
import { momentOf } from '../moments.ts';
import { furthestStation, senseOf } from '../way.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const station: MeasureHead = {
  name: 'stationReached',
  title: 'Station reached',
  says: "Station of the vehicle's reference point that lies furthest along its way.",
  source: ownDefinition,
  unit: 'm',
};

const distance: MeasureHead = {
  name: 'distance',
  title: 'Distance reached',
  says: 'Way from the station at which the drive began to the station reached.',
  source: ownDefinition,
  unit: 'm',
};

/** How far the vehicle got. */
export const distanceMeasure: MeasureKind = {
  name: 'distance',
  measure(run) {
    const { recording } = run;
    const { value, moment } = furthestStation(run);
    const from = column(recording, 'station')[0] ?? momentOf(recording, 0).station;
    return [
      measured(station, value, { moment }),
      measured(distance, senseOf(run) * (value - from), { moment }),
    ];
  },
};
