/** Documents for the tests of the diagram. All invented. */
import type { Json } from '../../../src/documents/json.ts';

/** A document with two wheels on the chassis and these parts of a drive line. */
export function withParts(parts: readonly Json[]): Json {
  return {
    vehicle: {
      wheels: [
        { name: 'front', at: { x: 0, z: '50 mm' } },
        { name: 'rear', at: { x: '-300 mm', z: '50 mm' } },
      ],
      driveline: { parts },
    },
  };
}

const axles = [0, -140, -340, -480];
const names = ['first', 'second', 'third', 'fourth'];

/** What turns all axles: two pairs of motors, a clutch, a shiftable pair, three differentials. */
const common: readonly Json[] = [
  { name: 'left motors', kind: 'motor', count: 2, at: { x: '-60 mm', z: '80 mm' } },
  { name: 'right motors', kind: 'motor', count: 2, at: { x: '-80 mm', z: '80 mm' } },
  {
    name: 'collecting gears',
    kind: 'reduction',
    from: ['left motors', 'right motors'],
    at: { x: '-130 mm', z: '78 mm' },
  },
  { name: 'slipping clutch', kind: 'clutch', from: 'collecting gears' },
  { name: 'range gears', kind: 'reduction', from: 'slipping clutch' },
  { name: 'transfer shaft', kind: 'shaft', from: 'range gears' },
  {
    name: 'centre differential',
    kind: 'differential',
    from: 'transfer shaft',
    at: { x: '-220 mm', z: '76 mm' },
  },
  { name: 'front output shaft', kind: 'shaft', from: 'centre differential' },
  {
    name: 'front differential',
    kind: 'differential',
    from: 'front output shaft',
    at: { x: '-70 mm', z: '76 mm' },
  },
  { name: 'rear output shaft', kind: 'shaft', from: 'centre differential' },
  {
    name: 'rear differential',
    kind: 'differential',
    from: 'rear output shaft',
    at: { x: '-410 mm', z: '76 mm' },
  },
];

/** Seven parts to each axle. */
const axleParts = (name: string, i: number): readonly Json[] => [
  {
    name: `${name} upper joint`,
    kind: 'universal-joint',
    from: i < 2 ? 'front differential' : 'rear differential',
  },
  { name: `${name} propeller shaft`, kind: 'shaft', from: `${name} upper joint` },
  { name: `${name} lower joint`, kind: 'universal-joint', from: `${name} propeller shaft` },
  { name: `${name} pinion shaft`, kind: 'shaft', from: `${name} lower joint` },
  {
    name: `${name} final drive`,
    kind: 'reduction',
    from: `${name} pinion shaft`,
    at: { x: `${axles[i]} mm`, z: '50 mm' },
  },
  { name: `${name} half shafts`, kind: 'shaft', count: 2, from: `${name} final drive` },
  {
    name: `${name} hub reductions`,
    kind: 'hub-reduction',
    count: 2,
    from: `${name} half shafts`,
    wheels: [name],
  },
];

/** An eight-wheeler whose drive line has forty parts; figures that a diagram does not need are left out. */
export function fortyParts(): Json {
  const parts = [
    ...common,
    ...names.flatMap(axleParts),
    { name: 'take-off clutch', kind: 'clutch', from: 'range gears' },
  ];
  const wheels = names.map((name, i) => ({ name, at: { x: `${axles[i]} mm`, z: '50 mm' } }));
  return { vehicle: { wheels, driveline: { parts } } };
}
