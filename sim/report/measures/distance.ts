import { column } from '../../../shared/recording.ts';
import type { MeasureKind } from '../criterion.ts';
import { furthestStation, momentOf } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const station: MeasureHead = {
  name: 'stationReached',
  title: 'Station reached',
  says: "Greatest station of the vehicle's reference point.",
  source: ownDefinition,
  unit: 'm',
};

const distance: MeasureHead = {
  name: 'distance',
  title: 'Distance reached',
  says: 'Station reached less the station at which the drive began.',
  source: ownDefinition,
  unit: 'm',
};

/** How far the vehicle got. */
export const distanceMeasure: MeasureKind = {
  name: 'distance',
  measure({ recording }) {
    const { value, moment } = furthestStation(recording);
    const from = column(recording, 'station')[0] ?? momentOf(recording, 0).station;
    return [measured(station, value, { moment }), measured(distance, value - from, { moment })];
  },
};
