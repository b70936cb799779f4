import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { defineCriterion } from '../criterion.ts';
import { besideLimit, listWords } from '../words.ts';

const fields = z.strictObject({
  most: quantity('mass', 'Greatest mass of the whole vehicle with its wheels.', { above: 0, most: 1e8 }),
});

const massWords = (mass: number, digits = 3): string => formatQuantity(mass, 'mass', digits);

/** The vehicle comes out at no more than it is planned to. */
export const mass = defineCriterion({
  kind: 'mass',
  title: 'Comes out light enough',
  fields,
  sample: { most: '4.2 kg' },
  asks: ({ most }) => `The vehicle comes out at no more than ${massWords(most)}`,
  judge({ most }, { mechanism }) {
    const value = mechanism.mass;
    const shown = besideLimit(massWords, value, most);
    const says = `The vehicle comes out at ${shown} with its wheels.`;
    const heaviest = [...mechanism.bodies].sort((a, b) => b.mass - a.mass).slice(0, 3);
    const parts = heaviest.map((body) => `${body.name} ${massWords(body.mass)}`);
    const cause = `The heaviest, with the wheels on them: ${listWords(parts)}.`;
    return { pass: value <= most, value, limit: most, unit: 'kg', shown, says, cause };
  },
});
