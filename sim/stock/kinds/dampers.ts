import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineStock, known, putsOf } from '../kind.ts';
import { elementAt, entryWords } from '../place.ts';

const rate = (says: string) => quantity('damping', says, { least: 0, most: 1e9 });

/** Dampers. */
export const dampers = defineStock({
  list: 'dampers',
  one: 'damper',
  title: 'Dampers',
  fields: z.strictObject({
    bump: rate('Damping rate of ONE damper in bump.'),
    rebound: rate('Damping rate of ONE damper in rebound; that of bump when left out.').optional(),
  }),
  words: { damping: ['bump'], 'bump rate': ['bump'], 'rebound rate': ['rebound'] },
  figures: [
    { key: 'bump', says: 'damping in bump', dimension: 'damping', at: ['bump'], instead: [] },
    { key: 'rebound', says: 'damping in rebound', dimension: 'damping', at: ['rebound'], instead: [] },
  ],
  refuses: (place) => (elementAt(place)?.kind === 'damper' ? undefined : `${entryWords(place)} is no damper`),
  choices: (items, place) =>
    items.map(({ name, bump, rebound }) => ({
      label: name,
      items: [name],
      puts: putsOf(place, { bump, rebound }),
      figures: known({ bump, rebound: rebound ?? bump }),
      notes: [],
    })),
  sample: { name: 'oil 30', count: 6, bump: '8 N s/m', rebound: '14 N s/m' },
});
