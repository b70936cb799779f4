/** Documents for the tests of the app. All invented. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Text of a scenario that ships. */
export function shippedText(name: string): string {
  return readFileSync(fileURLToPath(new URL(`../../scenarios/${name}`, import.meta.url)), 'utf8');
}

const long = (words: string, number: number): string =>
  `${words} ${number}`.padEnd(60, ' of the very long vehicle').slice(0, 60);

/** The largest vehicle with the longest names: sixteen sprung axle lines, forty criteria. */
export function longVehicle(criteria = 40): string {
  const axles = Array.from({ length: 16 }, (_, i) => ({ i, x: -i * 0.8, name: long('sprung axle', i + 1) }));
  return JSON.stringify({
    format: 'axlewright-scenario',
    version: 1,
    title:
      'Sixteen axle lines with the longest names that a document may have, to see that nothing is cut off or laid over something else, whatever the size of the window may be, from the smallest to the largest',
    vehicle: {
      name: long('vehicle', 1),
      masses: [{ name: long('frame', 1), mass: '32 t', at: { x: -6, z: 1 }, inertia: 500000 }],
      members: axles.map(({ x, name }) => ({
        name,
        kind: 'guided-axle',
        at: { x, z: 0.4 },
        bump: '120 mm',
        droop: '120 mm',
      })),
      elements: axles.flatMap(({ i, name }) => [
        {
          name: long('spring', i + 1),
          kind: 'linear-spring',
          on: { member: name },
          count: 2,
          rate: '100 N/mm',
          preload: '9 kN',
        },
        {
          name: long('damper', i + 1),
          kind: 'damper',
          on: { member: name },
          count: 2,
          bump: '8 kN s/m',
          rebound: '8 kN s/m',
        },
      ]),
      wheels: axles.map(({ i, x, name }) => ({
        name: long('wheels', i + 1),
        on: name,
        at: { x, z: 0.4 },
        radius: '400 mm',
        massPerWheel: '100 kg',
        tyre: { stiffnessPerWheel: '500 N/mm' },
      })),
      drive: { torquePerWheel: '8 kN m', speed: '1.5 m/s', acceleration: '1 m/s^2' },
    },
    ground: [
      { kind: 'flat', length: '15 m' },
      { kind: 'ramp', length: '2 m', height: '120 mm' },
      { kind: 'flat', length: '3 m' },
    ],
    run: { frames: 60 },
    criteria: Array.from({ length: criteria }, (_, i) => ({ kind: 'wheel-load', least: `${i + 1} %` })),
  });
}
