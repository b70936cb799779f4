import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineStock, known, putsOf } from '../kind.ts';
import { entryWords, massPuts, partAt } from '../place.ts';

const kinds = { universal: 'universal-joint', 'constant-velocity': 'constant-velocity-joint' } as const;

/** Joints of shafts. */
export const joints = defineStock({
  list: 'joints',
  one: 'joint',
  title: 'Joints of shafts',
  fields: z.strictObject({
    joint: z
      .enum(['universal', 'constant-velocity'])
      .default('universal')
      .meta({ description: 'Which sort of joint.' }),
    mostAngle: quantity('angle', 'Angle that it can take.', { least: 0, most: Math.PI / 2 }).optional(),
    rating: quantity('torque', 'Torque that ONE may carry straight.', { above: 0, most: 1e9 }).optional(),
    efficiency: quantity('ratio', 'Share of the power that passes.', { above: 0, most: 1 }).optional(),
    mass: quantity('mass', 'Mass of ONE.', { least: 0, most: 1e6 }).optional(),
  }),
  words: {
    'greatest angle': ['mostAngle'],
    angle: ['mostAngle'],
    'torque rating': ['rating'],
    sort: ['joint'],
  },
  figures: [
    { key: 'rating', says: 'torque it may carry', dimension: 'torque', at: ['rating'], instead: [] },
    { key: 'mostAngle', says: 'greatest angle', dimension: 'angle', at: ['mostAngle'], instead: [] },
  ],
  refuses: (place) =>
    Object.values(kinds).some((kind) => kind === partAt(place)?.kind)
      ? undefined
      : `${entryWords(place)} is no joint of a shaft`,
  choices(items, place) {
    const part = partAt(place);
    if (part === undefined) return [];
    return items
      .filter(({ joint }) => kinds[joint] === part.kind)
      .map(({ name, mostAngle, rating, efficiency, mass }) => ({
        label: name,
        items: [name],
        // The table of ratings by angle was that of the joint before it.
        puts: [
          ...putsOf(place, { mostAngle, rating, efficiency }),
          { path: [...place.path, 'ratingAtAngle'], value: undefined },
          ...massPuts(place, part, mass),
        ],
        figures: known({ rating, mostAngle }),
        notes: rating === undefined ? ['what it may carry is not known'] : [],
      }));
  },
  sample: { name: 'short universal joint', count: 6, mostAngle: '30 deg', rating: '0.5 N m' },
});
