import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { gripCause } from '../causes/grip.ts';
import { defineCriterion } from '../criterion.ts';
import { mostGrip } from '../grip.ts';
import { because, unknownNames, withoutValue } from '../outcome.ts';
import { besideLimit, brokenOff, momentWords, shareWords, stationWords, theWheel } from '../words.ts';
import { chosenOf, none, unknownOf, wheelsField } from './chosen.ts';

const fields = z.strictObject({
  most: quantity('ratio', 'Greatest share of its grip that a wheel may use.', { least: 0, most: 1 }),
  wheels: wheelsField,
});

/** No wheel uses more of its grip than asked. */
export const gripUse = defineCriterion({
  kind: 'grip-use',
  title: 'Grip in reserve',
  fields,
  sample: { most: '90 %' },
  asks: ({ most, wheels }) =>
    `${none('wheel', wheels, 'uses', 'does not use')} more than ${shareWords(most)} of its grip`,
  judge({ most, wheels }, run) {
    const { recording } = run;
    const limit = { limit: most, unit: '1' };
    const unknown = unknownOf(recording.wheels, wheels);
    if (unknown.length > 0) return unknownNames('wheel', unknown, recording.wheels, limit);
    const worst = mostGrip(recording, chosenOf(recording.wheels, wheels));
    if (worst === undefined) return withoutValue(false, 'The run has no grip use to judge.', limit);
    const { value, moment } = worst;
    const of = recording.wheels[worst.wheel] ?? '';
    const shown = besideLimit(shareWords, value, most);
    const says = `${theWheel(of)} uses ${shown} of its grip at ${stationWords(run, worst.wheelStation)} (${momentWords(run, moment)}).${brokenOff(run)}`;
    const cause = because(gripCause(run, worst.wheel, moment.frame));
    return { pass: value <= most, value, ...limit, shown, says, ...cause, of, moment };
  },
});
