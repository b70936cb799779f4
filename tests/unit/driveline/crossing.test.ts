/*
 * What a drive line does to a crawl: where reactions go, what ends it, where parts sit.
 * Seen red: the sense of a gear train turned round; the clutch left out of the limits; 'on' of a hub reduction at the chassis.
 */
import { describe, expect, it } from 'vitest';
import { crossingFigures } from '../../../sim/driveline/crossing.ts';
import { compile, crawl, loadScenario } from '../../../sim/index.ts';
import { type Loose, smallTruck } from '../small-truck.ts';
import { oneMotor, truckWith } from './document.ts';

const read = (spoil: (truck: Loose) => void) => {
  const truck = smallTruck();
  delete truck.vehicle.drive.torquePerWheel;
  truck.vehicle.driveline = oneMotor();
  spoil(truck);
  const found = loadScenario(truck);
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.value;
};

describe('reactions', () => {
  const shareOn = (driveline: Loose, line: string, on: string): number => {
    const mechanism = truckWith(driveline);
    const body = mechanism.bodies.findIndex(({ name }) => name === on);
    const wheel = mechanism.wheels.find(({ name }) => name === line);
    return wheel?.reactions.find((r) => r.body === body)?.share ?? 0;
  };

  it('go to the housing of the last bevel stage, whole', () => {
    const driveline = oneMotor();
    driveline.parts[4].on = 'front-axle';
    expect(shareOn(driveline, 'front', 'front-axle')).toBeCloseTo(1, 12);
    expect(shareOn(driveline, 'front', 'chassis')).toBe(0);
  });

  it('of a hub reduction are shared by carrier and axle drive: 1 − 1/i and 1/i, turned round by a plain pair', () => {
    const hub = (teeth: number[]) => {
      const driveline = oneMotor();
      driveline.parts[4] = { ...driveline.parts[4], wheels: [] };
      driveline.parts.push({
        name: 'hub',
        kind: 'hub-reduction',
        from: 'front final',
        teeth,
        efficiency: 1,
        wheels: ['front'],
      });
      return driveline;
    };
    // the front final sits on the chassis here: what the half shafts bring is held there
    expect(shareOn(hub([10, 20]), 'front', 'front-axle')).toBeCloseTo(1 + 1 / 2, 12);
    expect(shareOn(hub([10, 20]), 'front', 'chassis')).toBeCloseTo(-1 / 2, 12);
    expect(shareOn(hub([10, 15, 20]), 'front', 'front-axle')).toBeCloseTo(1 - 1 / 2, 12);
  });

  it('of a gear train in a beam are those of the older field: 1 − 1/i on the beam', () => {
    const driveline = oneMotor();
    driveline.parts[5] = { ...driveline.parts[5], wheels: [] };
    driveline.parts.push({
      name: 'train',
      kind: 'reduction',
      from: 'rear final',
      on: 'bogie',
      teeth: [20, 25, 30, 25, 40],
      efficiency: 1,
      wheels: ['middle', 'rear'],
    });
    const older = compile(
      read((truck) => {
        delete truck.vehicle.driveline;
        truck.vehicle.drive.torquePerWheel = 1;
        for (const i of [1, 2]) truck.vehicle.wheels[i].reaction = { train: 'bogie', ratio: 2 };
      }),
    );
    const bogie = older.bodies.findIndex(({ name }) => name === 'bogie');
    expect(shareOn(driveline, 'rear', 'bogie')).toBeCloseTo(
      older.wheels[2]?.reactions.find(({ body }) => body === bogie)?.share ?? Number.NaN,
      12,
    );
  });
});

describe('where parts sit', () => {
  it('their mass lies: a motor moved to the axle is unsprung', () => {
    const withMotor = (on: string) => {
      const driveline = oneMotor();
      Object.assign(driveline.parts[0], { on, mass: '300 g', at: { x: 0, z: '50 mm' } });
      return truckWith(driveline);
    };
    const massOf = (on: string, body: string) =>
      withMotor(on).bodies.find(({ name }) => name === body)?.mass ?? 0;
    expect(massOf('front-axle', 'front-axle') - massOf('chassis', 'front-axle')).toBeCloseTo(0.3, 12);
    expect(withMotor('chassis').mass).toBeCloseTo(withMotor('front-axle').mass, 12);
  });
});

describe('a crawl', () => {
  it('ends where a clutch slips', () => {
    const scenario = read(({ vehicle }) => {
      vehicle.driveline.parts.push({ name: 'slipper', kind: 'clutch', from: 'motor', slipTorque: '20 N mm' });
      vehicle.driveline.parts[1].from = 'slipper';
    });
    expect(crawl(scenario).end).toMatchObject({
      kind: 'stuck',
      by: 'torque',
      cause: expect.stringMatching(/^slipper needs 0\.02\d* N·m and has 0\.02/),
    });
  });

  it('down a slope asks nothing of a motor behind a worm that locks itself, and something behind gears', () => {
    const down = (mesh: Loose) =>
      read((truck) => {
        const { parts } = truck.vehicle.driveline;
        parts[0].stallTorque = '4 N mm';
        parts[0].stallCurrent = '2 A';
        parts[1] = { name: 'gearbox', kind: 'reduction', from: 'motor', ...mesh };
        parts[0].axis = mesh.mesh === 'worm' ? 'across' : 'lengthwise';
        truck.ground = [{ kind: 'ramp', length: 4, angle: '-15 deg' }];
        truck.run = { start: 1, until: 1.5 };
      });
    expect(crawl(down({ mesh: 'worm', ratio: 6 })).end.kind).toBe('arrived');
    expect(crawl(down({ mesh: 'spur', ratio: 6 })).end).toMatchObject({ kind: 'stuck', by: 'torque' });
  });

  it('gives mean power and running time', () => {
    const scenario = read(({ vehicle }) => {
      vehicle.driveline.battery.capacity = '1000 mA h';
    });
    const figures = crossingFigures(compile(scenario), crawl(scenario));
    expect(figures?.duty?.power).toBeGreaterThan(0);
    expect(figures?.duty?.time).toBeCloseTo((0.8 * 3600) / (figures?.duty?.current ?? 0), 6);
    expect(figures?.windUp[0]?.lines.map(({ of }) => of)).toEqual(['front', 'middle', 'rear']);
  });
});
