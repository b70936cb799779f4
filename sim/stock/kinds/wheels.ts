import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineStock, known, putsOf, type StockPut } from '../kind.ts';
import { entryWords, wheelAt } from '../place.ts';

const above = (most: number) => ({ above: 0, most });

/** Wheels with their tyres. */
export const wheels = defineStock({
  list: 'wheels',
  one: 'wheel',
  title: 'Wheels',
  fields: z.strictObject({
    radius: quantity('length', 'Unloaded radius.', above(10)),
    mass: quantity('mass', 'Mass of ONE wheel with its hub.', above(1e5)).optional(),
    width: quantity('length', 'Width of ONE wheel.', above(10)).optional(),
    inertia: quantity(
      'inertia',
      'Spin inertia of ONE wheel; that of a solid disc when left out.',
      above(1e6),
    ).optional(),
    stiffness: quantity('stiffness', 'Radial stiffness of ONE wheel.', above(1e9)).optional(),
    load: quantity('force', 'Load at which the stiffness was measured.', above(1e7)).optional(),
    grip: quantity('ratio', 'Coefficient of friction between tyre and ground.', {
      least: 0,
      most: 3,
    }).optional(),
    rolling: quantity('ratio', 'Rolling resistance as a share of the load.', {
      least: 0,
      most: 0.5,
    }).optional(),
  }),
  words: { 'radial stiffness': ['stiffness'], friction: ['grip'] },
  figures: [
    { key: 'radius', says: 'radius', dimension: 'length', at: ['radius'], instead: [] },
    { key: 'mass', says: 'mass', dimension: 'mass', at: ['massPerWheel'], instead: [] },
    {
      key: 'stiffness',
      says: 'radial stiffness',
      dimension: 'stiffness',
      at: ['tyre', 'stiffnessPerWheel'],
      instead: [],
    },
  ],
  refuses: (place) => (wheelAt(place) === undefined ? `${entryWords(place)} is no axle line` : undefined),
  choices: (items, place) =>
    items.map(({ name, radius, mass, width, inertia, stiffness, load, grip, rolling }) => {
      const into = (key: string, at: readonly string[], value: number | undefined): StockPut[] =>
        value === undefined ? [] : [{ path: [...place.path, ...at], value, field: [key] }];
      return {
        label: name,
        items: [name],
        puts: [
          ...putsOf(place, { radius, width }, ['width']),
          ...into('mass', ['massPerWheel'], mass),
          { path: [...place.path, 'inertiaPerWheel'], value: inertia, field: ['inertia'] },
          ...into('stiffness', ['tyre', 'stiffnessPerWheel'], stiffness),
          // Load and stiffness were measured together.
          ...(stiffness === undefined
            ? []
            : [{ path: [...place.path, 'tyre', 'loadPerWheel'], value: load, field: ['load'] }]),
          ...into('grip', ['tyre', 'grip'], grip),
          ...into('rolling', ['tyre', 'rolling'], rolling),
        ],
        figures: known({ radius, mass, stiffness }),
        notes: [
          ...(mass === undefined ? ['its mass is not known: that of the wheel before it stays'] : []),
          ...(stiffness === undefined
            ? ['its stiffness is not known: that of the wheel before it stays']
            : []),
        ],
      };
    }),
  sample: { name: 'soft, 110 mm', count: 6, radius: '55 mm', mass: '150 g', stiffness: '5 N/mm', grip: 0.8 },
});
