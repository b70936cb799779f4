/** The small truck with a drive line, for the tests beside this file. */
import { compile, loadScenario } from '../../../sim/index.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { type Loose, smallTruck } from '../small-truck.ts';

/** One motor, a gearbox, two shafts and two axle drives, all parts without mass. */
export const oneMotor = (): Loose => ({
  battery: { voltage: '7.4 V', resistance: '60 mohm' },
  parts: [
    {
      name: 'motor',
      kind: 'motor',
      stallTorque: '120 N mm',
      noLoadSpeed: '9000 rpm',
      stallCurrent: '20 A',
      noLoadCurrent: '0.5 A',
    },
    { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: 6, efficiency: 0.9 },
    { name: 'front shaft', kind: 'shaft', from: 'gearbox' },
    { name: 'rear shaft', kind: 'shaft', from: 'gearbox' },
    {
      name: 'front final',
      kind: 'reduction',
      mesh: 'bevel',
      from: 'front shaft',
      teeth: [10, 30],
      wheels: ['front'],
    },
    {
      name: 'rear final',
      kind: 'reduction',
      mesh: 'bevel',
      from: 'rear shaft',
      teeth: [10, 30],
      wheels: ['middle', 'rear'],
    },
  ],
});

/** The small truck compiled with a drive line. */
export function truckWith(driveline: Loose, spoil?: (truck: Loose) => void): Mechanism {
  const truck = smallTruck();
  truck.vehicle.driveline = driveline;
  delete truck.vehicle.drive.torquePerWheel;
  spoil?.(truck);
  const read = loadScenario(truck);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return compile(read.value);
}
