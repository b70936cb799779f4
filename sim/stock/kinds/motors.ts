import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineStock, putsOf } from '../kind.ts';
import { entryWords, massPuts, partAt } from '../place.ts';

const torque = (says: string) => quantity('torque', says, { above: 0, most: 1e7 });
const current = (says: string) => quantity('current', says, { least: 0, most: 1e5 });

/** Electric motors. */
export const motors = defineStock({
  list: 'motors',
  one: 'motor',
  title: 'Motors',
  fields: z
    .strictObject({
      stallTorque: torque('Torque of ONE motor at standstill.'),
      noLoadSpeed: quantity('spin', 'Speed without load.', { above: 0, most: 1e5 }),
      stallCurrent: current('Current at standstill.').optional(),
      noLoadCurrent: current('Current without load.').optional(),
      voltage: quantity('voltage', 'Voltage of these figures; that of the battery when left out.', {
        above: 0,
        most: 1e5,
      }).optional(),
      currentLimit: current('Current that it allows.').optional(),
      continuousTorque: torque('Torque that it can hold without getting too hot.').optional(),
      rating: torque('Torque that its output may carry.').optional(),
      inertia: quantity('inertia', 'Inertia of its rotor.', { least: 0, most: 1e4 }).optional(),
      mass: quantity('mass', 'Mass of ONE.', { least: 0, most: 1e6 }).optional(),
    })
    .superRefine(({ stallCurrent, noLoadCurrent }, context) => {
      if (stallCurrent !== undefined && noLoadCurrent !== undefined && noLoadCurrent >= stallCurrent)
        context.addIssue({
          code: 'custom',
          message: 'must be below the current at standstill',
          path: ['noLoadCurrent'],
        });
    }),
  words: {
    'stall torque': ['stallTorque'],
    'no-load speed': ['noLoadSpeed'],
    'stall current': ['stallCurrent'],
    'no-load current': ['noLoadCurrent'],
    'torque rating': ['rating'],
  },
  figures: [
    {
      key: 'stallTorque',
      says: 'torque at standstill',
      dimension: 'torque',
      at: ['stallTorque'],
      instead: [],
    },
    { key: 'noLoadSpeed', says: 'speed without load', dimension: 'spin', at: ['noLoadSpeed'], instead: [] },
  ],
  refuses: (place) =>
    partAt(place)?.kind === 'motor' ? undefined : `${entryWords(place)} is no electric motor`,
  choices(items, place) {
    const part = partAt(place);
    if (part === undefined) return [];
    return items.map((item) => {
      const { name, stallTorque, noLoadSpeed, inertia, mass } = item;
      const { stallCurrent, noLoadCurrent, voltage, continuousTorque, rating, currentLimit } = item;
      return {
        label: name,
        items: [name],
        puts: [
          ...putsOf(place, { stallTorque, noLoadSpeed, stallCurrent, noLoadCurrent, voltage }),
          ...putsOf(place, { continuousTorque, rating }),
          // A limit may be the controller's: it stays where the motor says nothing.
          ...putsOf(place, { currentLimit }, ['currentLimit']),
          { path: [...place.path, 'inertia'], value: inertia ?? 0, field: ['inertia'] },
          // How fast it gets hot was known of the motor before it.
          { path: [...place.path, 'thermal'], value: undefined },
          ...massPuts(place, part, mass),
        ],
        figures: { stallTorque, noLoadSpeed },
        notes:
          continuousTorque === undefined ? ['what it can hold without getting too hot is not known'] : [],
      };
    });
  },
  sample: {
    name: 'large motor',
    count: 2,
    stallTorque: '180 N mm',
    noLoadSpeed: '600 rpm',
    voltage: '7.4 V',
  },
});
