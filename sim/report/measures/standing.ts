import type { Standing } from '../../../shared/recording.ts';
import type { Measure } from '../../../shared/report.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const pitch: MeasureHead = {
  name: 'standingPitch',
  title: 'Standing pitch',
  says: 'Chassis pitch of the standing vehicle against the drawn position, nose-up positive.',
  source: ownDefinition,
  unit: 'rad',
};

const stored: MeasureHead = {
  name: 'standingEnergy',
  title: 'Energy stored when standing',
  says: 'Energy in springs and bars of the standing vehicle: what can fly free when something is taken apart.',
  source: ownDefinition,
  unit: 'J',
};

const residual: MeasureHead = {
  name: 'standingResidual',
  title: 'Unbalanced force when standing',
  says: 'Largest unbalanced force over the weight when the search for the standing position ended.',
  source: ownDefinition,
  unit: '1',
};

/** Figures of a vehicle that stands. */
export function standingMeasures(standing: Standing): readonly Measure[] {
  return [
    measured(pitch, standing.pitch),
    measured(stored, standing.stored),
    measured(residual, standing.residual),
  ];
}
