/** A small invented six-wheeler that reads without a word: the clean start of tests that spoil one thing. */

/** JSON that a test may change at will. */
// biome-ignore lint/suspicious/noExplicitAny: tests put all sorts of wrong values into it
export type Loose = any;

const tyre = () => ({ stiffnessPerWheel: '5 N/mm' });
const wheel = (name: string, on: string, x: string) => ({
  name,
  on,
  at: { x, z: '50 mm' },
  radius: '50 mm',
  massPerWheel: '100 g',
  tyre: tyre(),
});

/** A fresh copy of the document, as a person writes it. */
export function smallTruck(): Loose {
  return {
    format: 'axlewright-scenario',
    version: 1,
    title: 'A small truck on a step',
    vehicle: {
      name: 'Small truck',
      masses: [
        { name: 'frame', mass: '3 kg', at: { x: '-150 mm', z: '90 mm' }, inertia: '0.02 kg m^2' },
        { name: 'beam', on: 'bogie', mass: '200 g', at: { x: '-250 mm', z: '70 mm' } },
        { name: 'axle', on: 'front-axle', mass: '200 g', at: { x: 0, z: '50 mm' } },
      ],
      members: [
        { name: 'front-axle', kind: 'guided-axle', at: { x: 0, z: '50 mm' }, bump: '15 mm', droop: '15 mm' },
        {
          name: 'bogie',
          kind: 'bogie-beam',
          pivot: { x: '-250 mm', z: '70 mm' },
          front: { x: '-190 mm', z: '50 mm' },
          rear: { x: '-310 mm', z: '50 mm' },
        },
      ],
      elements: [
        {
          name: 'front springs',
          kind: 'linear-spring',
          on: { member: 'front-axle' },
          count: 2,
          rate: '1 N/mm',
          preload: '5 N',
        },
      ],
      wheels: [
        wheel('front', 'front-axle', '0 mm'),
        wheel('middle', 'bogie', '-190 mm'),
        wheel('rear', 'bogie', '-310 mm'),
      ],
      drive: { torquePerWheel: '0.4 N m', speed: '0.2 m/s' },
    },
    ground: [
      { kind: 'flat', length: '600 mm' },
      { kind: 'step', height: '20 mm', length: '1 m' },
    ],
    criteria: [{ kind: 'wheel-load', least: '20 %' }, { kind: 'reaches' }],
  };
}
