/** A small invented stock and a truck that takes parts from it, for tests. */
import { readScenario } from '../../../sim/scenario/read.ts';
import type { Scenario } from '../../../sim/scenario/schema.ts';
import { readStock } from '../../../sim/stock/read.ts';
import type { Stock } from '../../../sim/stock/stock.ts';
import { type Loose, smallTruck } from '../small-truck.ts';

/** A fresh copy of the stock, as a person writes it. */
export function drawer(): Loose {
  return {
    format: 'axlewright-stock',
    version: 1,
    title: 'Left drawer',
    springs: [
      { name: 'soft', count: 4, rate: '0.8 N/mm ± 5 %', freeLength: '60 mm', solidLength: '25 mm' },
      { name: 'middle', count: 2, rate: '1 N/mm', freeLength: '58 mm' },
      { name: 'hard', count: 1, rate: '1.6 N/mm', freeLength: '55 mm', solidLength: '48 mm' },
      {
        name: 'long wire',
        count: 8,
        wire: { diameter: '1 mm', coilDiameter: '10 mm', activeCoils: 12, shearModulus: '80 GPa' },
        freeLength: '70 mm',
      },
    ],
    bars: [
      {
        name: 'rod 2',
        count: 4,
        section: { shape: 'round', diameter: '2 mm' },
        material: 'spring-steel',
        lengths: ['80 mm', '96 mm'],
      },
      { name: 'measured', count: 2, rate: '1.2 N m/rad' },
    ],
    dampers: [{ name: 'thin oil', count: 4, bump: '4 N s/m' }],
    gears: [
      { name: 'g12', count: 3, teeth: 12, rating: '0.3 N m' },
      { name: 'g20', count: 2, teeth: 20 },
      { name: 'g36', count: 1, teeth: 36, rating: '0.8 N m' },
    ],
    joints: [{ name: 'uj', count: 4, mostAngle: '30 deg', rating: '0.5 N m' }],
    motors: [{ name: 'big', count: 1, stallTorque: '200 N mm', noLoadSpeed: '500 rpm', mass: '90 g' }],
    wheels: [
      { name: 'balloon', count: 6, radius: '60 mm', mass: '150 g', stiffness: '3 N/mm', load: '8 N' },
      { name: 'bare', count: 2, radius: '40 mm' },
    ],
  };
}

export function stocked(change: (stock: Loose) => void = () => {}): Stock {
  const document = drawer();
  change(document);
  const read = readStock(document);
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  return read.value;
}

/** The truck with a spring that the drawing measures, a bar, a damper and a drive line. */
export function truckFor(change: (truck: Loose) => void = () => {}): Scenario {
  const truck = smallTruck();
  truck.vehicle.members.push({
    name: 'tail',
    kind: 'arm',
    pivot: { x: '-300 mm', z: '120 mm' },
    end: { x: '-400 mm', z: '110 mm' },
  });
  truck.vehicle.masses.push({ name: 'tail', on: 'tail', mass: '50 g', at: { x: '-400 mm', z: '110 mm' } });
  truck.vehicle.elements.push(
    {
      name: 'strut',
      kind: 'linear-spring',
      on: {
        from: { on: 'chassis', x: '-380 mm', z: '150 mm' },
        to: { on: 'tail', x: '-380 mm', z: '110 mm' },
      },
      rate: '1 N/mm',
    },
    { name: 'tail bars', kind: 'torsion-bar', on: { member: 'tail' }, count: 2, rate: 2, preload: '0.1 N m' },
    { name: 'dampers', kind: 'damper', on: { member: 'front-axle' }, count: 2, bump: 8, rebound: 12 },
  );
  truck.vehicle.driveline = {
    battery: { voltage: '7.4 V' },
    parts: [
      {
        name: 'motor',
        kind: 'motor',
        stallTorque: '120 N mm',
        noLoadSpeed: '900 rpm',
        mass: '60 g',
        at: { x: 0, z: '80 mm' },
      },
      { name: 'stage', kind: 'reduction', from: 'motor', teeth: [12, 36], rating: '1 N m' },
      {
        name: 'cross',
        kind: 'universal-joint',
        from: 'stage',
        angle: '5 deg',
        count: 2,
        ratingAtAngle: [{ angle: '20 deg', share: 0.5 }],
      },
      {
        name: 'bevel',
        kind: 'reduction',
        mesh: 'bevel',
        from: 'cross',
        ratio: 3,
        wheels: ['front', 'middle', 'rear'],
      },
    ],
  };
  change(truck);
  const read = readScenario(truck, { file: () => undefined });
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  return read.value;
}
