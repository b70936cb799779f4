import { describe, expect, it } from 'vitest';
import type { Loose } from '../small-truck.ts';
import { rod, spoilt } from './told.ts';

describe('a ground and a run that cannot be', () => {
  it.each<[string, (t: Loose) => void, string]>([
    [
      'no ground',
      (t) => {
        t.ground = [];
      },
      'ground: has 0 entries, must have at least 1',
    ],
    [
      'a ground that rises above the axle where the vehicle starts',
      (t) => {
        t.ground[0].length = '200 mm';
        t.ground[1].height = '300 mm';
      },
      "ground: wheel 'middle' begins inside the ground: a face beside it is 300 mm high, above its axle (begin with a flat piece that is longer than the vehicle, or start elsewhere)",
    ],
    [
      'a wall between two wheels',
      (t) => {
        t.ground[0].length = '270 mm';
        t.ground[1].height = '80 mm';
      },
      "ground: between the wheels 'middle' and 'front' the ground begins with a face of 80 mm, above the axle (begin with a flat piece that is longer than the vehicle, or start elsewhere)",
    ],
    [
      'a start before a wall',
      (t) => {
        t.ground[1].height = '300 mm';
        t.run = { start: '580 mm' };
      },
      "run.start: wheel 'front' begins inside the ground: a face beside it is 300 mm high, above its axle (begin with a flat piece that is longer than the vehicle, or start elsewhere)",
    ],
    [
      '300,000 points',
      (t) => {
        t.ground = [
          {
            kind: 'table',
            points: Array.from({ length: 300_000 }, (_, i) => ({ station: i / 1000, height: 0 })),
          },
        ];
      },
      'ground[0]',
    ],
    [
      'a CSV file that is not there',
      (t) => {
        t.ground.push({ kind: 'csv', file: 'yard.csv', stationUnit: 'mm', heightUnit: 'mm' });
      },
      "ground[2].file: there is no file 'yard.csv' here",
    ],
    [
      'a CSV with letters',
      (t) => {
        t.ground.push({ kind: 'csv', text: 's;h\n0;0\nabc;5\n9;9\n', stationUnit: 'mm', heightUnit: 'mm' });
      },
      'ground[2].text, line 3',
    ],
    [
      'a CSV without its column',
      (t) => {
        t.ground.push({
          kind: 'csv',
          text: 's;h\n0;0\n9;9\n',
          stationUnit: 'mm',
          heightUnit: 'mm',
          heightColumn: 'z',
        });
      },
      'ground[2].heightColumn',
    ],
    [
      'a start outside of the ground',
      (t) => {
        t.run = { start: '5 m' };
      },
      'run.start: is station 5 m, and the ground goes from 0 mm to 1.6 m (choose a station on the ground, or lengthen the ground)',
    ],
    [
      'an end before the start',
      (t) => {
        t.run = { until: '100 mm' };
      },
      'run.until: the run ends at station 100 mm, which is not ahead of its start at 360 mm (swap them, or change the sign of the speed)',
    ],
    [
      'an end behind a vehicle that reverses',
      (t) => {
        t.vehicle.drive.speed = '-0.2 m/s';
        t.run = { start: '400 mm', until: '900 mm' };
      },
      'run.until: the run ends at station 900 mm, which is not behind its start at 400 mm (swap them, or change the sign of the speed)',
    ],
    [
      'a ground shorter than the vehicle',
      (t) => {
        t.ground = [{ kind: 'flat', length: '100 mm' }];
      },
      'ground: is 100 mm long, shorter than the vehicle, so there is no way to drive (add a flat piece before and after)',
    ],
    [
      'a crawl of three hours',
      (t) => {
        t.vehicle.drive.speed = '0.1 mm/s';
      },
      'run: takes 11900 s at the target speed, at most 3600 s are allowed (drive a shorter way or faster)',
    ],
  ])('%s', (_, spoil, says) => {
    const lines = spoilt(spoil);
    expect(lines).toHaveLength(1);
    expect(lines[0]?.startsWith(`error: ${says}`), lines[0]).toBe(true);
  });
});

describe('a scenario that is doubtful', () => {
  it.each<[string, (t: Loose) => void, string]>([
    [
      'nothing carries an axle',
      (t) => {
        t.vehicle.elements = [];
        delete t.vehicle.members[0].bump;
        delete t.vehicle.members[0].droop;
      },
      "vehicle.members[0]: nothing carries 'front-axle'",
    ],
    [
      'a rod leaves no motion',
      (t) => {
        t.vehicle.members.push(
          rod('r', { on: 'chassis', x: -0.1, z: 0.1 }, { on: 'bogie', x: -0.2, z: 0.1 }),
        );
      },
      "vehicle.members: 'r': these rods leave the parts that they join no motion at all",
    ],
    [
      'nothing is driven',
      (t) => {
        t.vehicle.drive.driven = [];
      },
      'vehicle.drive.driven: is empty, so nothing drives the vehicle',
    ],
    [
      'no torque',
      (t) => {
        t.vehicle.drive.torquePerWheel = 0;
      },
      'vehicle.drive.torquePerWheel: is 0, so nothing drives the vehicle',
    ],
    [
      'too little time',
      (t) => {
        t.run = { time: '2 s' };
      },
      'run.time: is 2 s, but the way takes 5.95 s at the target speed',
    ],
    [
      'soft tyres',
      (t) => {
        t.vehicle.wheels[0].tyre.stiffnessPerWheel = '200 N/m';
      },
      'vehicle.wheels[0].tyre.stiffnessPerWheel: lets the mean load press the tyre in by 65.4 %',
    ],
    [
      'a wheel drawn in the ground',
      (t) => {
        t.vehicle.wheels[0].at.z = '20 mm';
      },
      'vehicle.wheels[0].at.z: is 20 mm, so most of the wheel lies inside the ground',
    ],
  ])('%s: it reads with a warning', (_, spoil, says) => {
    const [reads, ...lines] = spoilt(spoil);
    expect(reads).toBe('reads');
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(`warning: ${says}`);
  });
});
