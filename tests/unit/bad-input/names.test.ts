import { describe, expect, it } from 'vitest';
import type { Loose } from '../small-truck.ts';
import { spoilt } from './told.ts';

describe('names', () => {
  it.each<[string, (t: Loose) => void, string]>([
    [
      'two members with one name',
      (t) => {
        t.vehicle.members.push({ ...t.vehicle.members[0] });
      },
      "vehicle.members[2].name: is 'front-axle', as vehicle.members[0] is called already (give each its own name)",
    ],
    [
      'two mass items with one name',
      (t) => {
        t.vehicle.masses[1].name = 'frame';
      },
      "vehicle.masses[1].name: is 'frame', as vehicle.masses[0] is called already (give each its own name)",
    ],
    [
      'two elements with one name',
      (t) => {
        t.vehicle.elements.push({ ...t.vehicle.elements[0] });
      },
      "vehicle.elements[1].name: is 'front springs', as vehicle.elements[0] is called already (give each its own name)",
    ],
    [
      'a wheel with the name of a member',
      (t) => {
        t.vehicle.wheels[0].name = 'front-axle';
      },
      "vehicle.wheels[0].name: is 'front-axle', as vehicle.members[0] is called already (give each its own name)",
    ],
    [
      'a wheel called chassis',
      (t) => {
        t.vehicle.wheels[0].name = 'chassis';
      },
      "vehicle.wheels[0].name: no other part may be called 'chassis' (give the wheel another name)",
    ],
    [
      'an unknown parent',
      (t) => {
        t.vehicle.members[0].on = 'chasis';
      },
      'vehicle.members[0].on: the vehicle has no member called \'chasis\' (did you mean "chassis"?)',
    ],
    [
      'an unknown carrier of a wheel',
      (t) => {
        t.vehicle.wheels[0].on = 'front-axel';
      },
      'vehicle.wheels[0].on: the vehicle has no member called \'front-axel\' (did you mean "front-axle"?)',
    ],
    [
      'an unknown reaction',
      (t) => {
        t.vehicle.wheels[0].reaction = 'gearbox';
      },
      "vehicle.wheels[0].reaction: the vehicle has no member called 'gearbox' (known: chassis, front-axle, bogie)",
    ],
    [
      'an unknown driven wheel',
      (t) => {
        t.vehicle.drive.driven = ['front', 'raer'];
      },
      'vehicle.drive.driven[1]: the vehicle has no wheel called \'raer\' (did you mean "rear"?)',
    ],
    [
      'an element on the chassis',
      (t) => {
        t.vehicle.elements[0].on = { member: 'chassis' };
      },
      "vehicle.elements[0].on.member: the vehicle has no member called 'chassis' (known: front-axle, bogie)",
    ],
    [
      'an outline on nothing',
      (t) => {
        t.vehicle.bodywork = {
          outlines: [
            {
              on: 'cab',
              points: [
                { x: 0, z: 0 },
                { x: 1, z: 0 },
              ],
            },
          ],
        };
      },
      "vehicle.bodywork.outlines[0].on: the vehicle has no member called 'cab' (known: chassis, front-axle, bogie)",
    ],
    [
      'a criterion on no wheel',
      (t) => {
        t.criteria[0].wheels = ['midle'];
      },
      "criteria[0].wheels: the vehicle has no wheel called 'midle' (its wheels are front, middle and rear)",
    ],
    [
      'members in a circle',
      (t) => {
        t.vehicle.members[0].on = 'bogie';
        t.vehicle.members[1].on = 'front-axle';
      },
      "vehicle.members[0].on: 'front-axle' hangs on itself through its parents (let one of the circle hang on 'chassis')",
    ],
    [
      'a member on itself',
      (t) => {
        t.vehicle.members[1].on = 'bogie';
      },
      "vehicle.members[1].on: 'bogie' hangs on itself through its parents (let one of the circle hang on 'chassis')",
    ],
  ])('%s', (_, spoil, says) => {
    expect(spoilt(spoil)).toEqual([`error: ${says}`]);
  });
});
