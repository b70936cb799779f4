import { describe, expect, it } from 'vitest';
import { type Loose, smallTruck } from '../small-truck.ts';
import { spoilt, told } from './told.ts';

describe('a figure that cannot be', () => {
  it.each<[string, (t: Loose) => void, string]>([
    [
      'negative mass',
      (t) => {
        t.vehicle.masses[0].mass = '-3 kg';
      },
      'vehicle.masses[0].mass: is -3 kg, must be above 0 kg',
    ],
    [
      'zero wheel radius',
      (t) => {
        t.vehicle.wheels[1].radius = 0;
      },
      'vehicle.wheels[1].radius: is 0 m, must be above 0 m',
    ],
    [
      'wrong dimension',
      (t) => {
        t.vehicle.wheels[1].radius = '2 kg';
      },
      'vehicle.wheels[1].radius: "2 kg" is a mass, a length was wanted (write it like "45 mm")',
    ],
    [
      'NaN as text',
      (t) => {
        t.vehicle.drive.speed = 'NaN';
      },
      'vehicle.drive.speed: "NaN" is not a finite number, a speed was wanted (write it like "1.5 km/h")',
    ],
    [
      'NaN',
      (t) => {
        t.vehicle.drive.speed = Number.NaN;
      },
      'vehicle.drive.speed: is not a finite number, a speed was wanted: a number in m/s, or text like "1.5 km/h"',
    ],
    [
      '1e308',
      (t) => {
        t.gravity = 1e308;
      },
      'gravity: 1e+308 is too large to be a figure of a vehicle',
    ],
    [
      '1e308 as text',
      (t) => {
        t.gravity = '1e308 m/s^2';
      },
      'gravity: "1e308 m/s^2" is too large to be a figure of a vehicle',
    ],
    [
      'no unit',
      (t) => {
        t.vehicle.wheels[0].radius = '50';
      },
      'vehicle.wheels[0].radius: "50" has no unit, a length was wanted (write it like "45 mm", or as the number 50 without quotes for 50 m)',
    ],
    [
      'decimal comma',
      (t) => {
        t.vehicle.wheels[0].radius = '5,5 cm';
      },
      'vehicle.wheels[0].radius: "5,5 cm" has a comma in its number (write a decimal point: 5.5)',
    ],
    [
      'true',
      (t) => {
        t.vehicle.wheels[0].radius = true;
      },
      'vehicle.wheels[0].radius: is true or false, a length was wanted: a number in m, or text like "45 mm"',
    ],
    [
      'two hours',
      (t) => {
        t.run = { time: '2 h' };
      },
      'run.time: is 2 h, must be at most 3600 s',
    ],
    [
      'three wheels on a line',
      (t) => {
        t.vehicle.wheels[0].count = 3;
      },
      'vehicle.wheels[0].count: is 3, must be one of 1, 2, 4',
    ],
    [
      'half a spring',
      (t) => {
        t.vehicle.elements[0].count = 1.5;
      },
      'vehicle.elements[0].count: is 1.5, a whole number was wanted',
    ],
    [
      'no springs',
      (t) => {
        t.vehicle.elements[0].count = 0;
      },
      'vehicle.elements[0].count: is 0, must be at least 1',
    ],
  ])('%s', (_, spoil, says) => {
    expect(spoilt(spoil)).toEqual([`error: ${says}`]);
  });

  it('1e999 in a file, which JSON reads as infinity', () => {
    const text = JSON.stringify({ ...smallTruck(), gravity: 'X' }).replace('"X"', '1e999');
    expect(told(text)).toEqual([
      'error: gravity: is not a finite number, an acceleration was wanted: a number in m/s², or text like "9.81 m/s^2"',
    ]);
  });
});

describe('figures that do not go together', () => {
  it.each<[string, Loose, string]>([
    [
      'both ways to give a rate',
      {
        rate: '1 N/mm',
        wire: { diameter: '1 mm', coilDiameter: '9 mm', activeCoils: 6, shearModulus: '80 GPa' },
      },
      'has `rate` and `wire`',
    ],
    ['neither way', {}, 'needs `rate` or `wire`'],
    [
      'two ways to give a free length',
      { rate: '1 N/mm', preload: '5 N', freeAt: '-5 mm' },
      'has `preload` and `freeAt`',
    ],
  ])('%s is told at the element', (_, figures, says) => {
    const lines = spoilt((t) => {
      t.vehicle.elements[0] = {
        name: 'front springs',
        kind: 'linear-spring',
        on: { member: 'front-axle' },
        ...figures,
      };
    });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(`error: vehicle.elements[0]: ${says}`);
  });
});
