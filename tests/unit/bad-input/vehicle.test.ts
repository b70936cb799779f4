import { describe, expect, it } from 'vitest';
import type { Loose } from '../small-truck.ts';
import { rod, spoilt } from './told.ts';

describe('a vehicle that cannot be', () => {
  it.each<[string, (t: Loose) => void, string]>([
    [
      'no wheels',
      (t) => {
        t.vehicle.wheels = [];
      },
      'vehicle.wheels: has 0 entries, must have at least 1',
    ],
    [
      'seventeen axle lines',
      (t) => {
        t.vehicle.wheels = Array.from({ length: 17 }, (_, i) => ({ ...t.vehicle.wheels[0], name: `w${i}` }));
      },
      'vehicle.wheels: has 17 entries, must have at most 16',
    ],
    [
      'more than 64 bodies',
      (t) => {
        for (let i = 0; i < 62; i++)
          t.vehicle.members.push({ name: `h${i}`, kind: 'housing', pivot: { x: 0, z: 0.1 } });
      },
      'vehicle.members: make 65 bodies with the chassis, at most 64 are allowed (use rigid axles where nothing moves)',
    ],
    [
      'a wheel with its centre in the ground',
      (t) => {
        t.vehicle.wheels[0].at.z = '-20 mm';
      },
      "vehicle.wheels[0].at.z: is −20 mm, so the wheel's centre lies inside the ground (z counts from the drawn ground level: a wheel that stands on it has its hub one radius up)",
    ],
    [
      'a body without mass',
      (t) => {
        t.vehicle.members.push({ name: 'loose', kind: 'housing', pivot: { x: 0, z: 0.1 } });
      },
      'vehicle.masses: \'loose\' carries no mass (add a mass item with "on": "loose")',
    ],
    [
      'the centre of gravity ahead of all wheels',
      (t) => {
        t.vehicle.masses[0].at.x = '200 mm';
      },
      'vehicle.masses: put the centre of gravity at x = 112.5 mm, ahead of the foremost wheel: the vehicle cannot stand (it must lie between −310 mm and 0 mm)',
    ],
    [
      'a pivot beside its beam',
      (t) => {
        t.vehicle.members[1].pivot.x = '-100 mm';
      },
      'vehicle.members[1].pivot: lies outside the ends of its beam, so the beam cannot carry anything level (move the pivot between rear.x and front.x)',
    ],
    [
      'a pivot beside the wheels of its beam',
      (t) => {
        t.vehicle.wheels[2].at.x = '-240 mm';
      },
      'vehicle.members[1].pivot: is at x = −250 mm, outside of the wheels that the beam carries (−240 mm to −190 mm): it falls over (move the pivot between the wheels)',
    ],
    [
      'a rod within one body',
      (t) => {
        t.vehicle.members.push(rod('r', { on: 'chassis', x: 0, z: 0.1 }, { on: 'chassis', x: 1, z: 0.1 }));
      },
      'vehicle.members[2].to: lies on the same body as the other end, so the rod holds nothing (join two members that move against each other)',
    ],
    [
      'a rod without length',
      (t) => {
        t.vehicle.members.push(
          rod('r', { on: 'chassis', x: -0.1, z: 0.1 }, { on: 'bogie', x: -0.1, z: 0.1 }),
        );
      },
      'vehicle.members[2].to: lies on the other end, so the rod has no length (use a hinge (arm, beam or housing) for a pin)',
    ],
    [
      'two rods for one freedom',
      (t) => {
        for (const i of [0, 1])
          t.vehicle.members.push(
            rod(`r${i}`, { on: 'chassis', x: -0.1, z: 0.1 }, { on: 'bogie', x: -0.2, z: 0.1 + i / 50 }),
          );
      },
      "vehicle.members: 'r0', 'r1': 2 rods for 1 freedom of the parts that they join, so the loop cannot close once anything moves (leave out a rod, or hang a part on a housing)",
    ],
    [
      'a torsion bar on a guide',
      (t) => {
        t.vehicle.elements[0] = { name: 'bar', kind: 'torsion-bar', on: { member: 'front-axle' }, rate: 3 };
      },
      'vehicle.elements[0].on.member: a torsion-bar acts on a turn, and there is none here (name a member that turns: an arm, a beam or a housing)',
    ],
    [
      'a torsion bar between two points',
      (t) => {
        t.vehicle.elements[0] = {
          name: 'bar',
          kind: 'torsion-bar',
          on: { from: { on: 'chassis', x: 0, z: 0.1 }, to: { on: 'front-axle', x: 0, z: 0.05 } },
          rate: 3,
        };
      },
      'vehicle.elements[0].on: a torsion-bar acts on a turn, and there is none here (name a member that turns: an arm, a beam or a housing)',
    ],
    [
      'a spring along a turn',
      (t) => {
        t.vehicle.elements[0].on = { member: 'bogie' };
      },
      'vehicle.elements[0].on.member: a linear-spring acts along a line, and this member turns (give it two points, "from" and "to", or use an element that turns)',
    ],
    [
      'a spring within one body',
      (t) => {
        t.vehicle.elements[0].on = {
          from: { on: 'chassis', x: 0, z: 0.1 },
          to: { on: 'chassis', x: 0, z: 0.2 },
        };
      },
      'vehicle.elements[0].on.to.on: both ends lie on the same body, so the element never moves (join two members that move against each other)',
    ],
    [
      'a spring without length',
      (t) => {
        t.vehicle.elements[0].on = {
          from: { on: 'chassis', x: 0, z: 0.1 },
          to: { on: 'front-axle', x: 0, z: 0.1 },
        };
      },
      'vehicle.elements[0].on.to: lies on the other end, so the element has no direction (move one of the ends)',
    ],
    [
      'tyres as soft as air',
      (t) => {
        t.vehicle.wheels[0].tyre.stiffnessPerWheel = '100 N/m';
      },
      'vehicle.wheels[0].tyre.stiffnessPerWheel: lets the mean load press the tyre in by 131 % of its radius (is it the rate of ONE wheel, in the right unit?)',
    ],
  ])('%s', (_, spoil, says) => {
    expect(spoilt(spoil)).toEqual([`error: ${says}`]);
  });

  it('with a wheel, a mass and an element on a rod is told of each', () => {
    const lines = spoilt((t) => {
      t.vehicle.members.push(rod('r', { on: 'chassis', x: -0.1, z: 0.1 }, { on: 'bogie', x: -0.2, z: 0.1 }));
      t.vehicle.wheels[0].on = 'r';
      t.vehicle.masses[0].on = 'r';
      t.vehicle.elements[0].on = { member: 'r' };
    });
    expect(lines).toEqual([
      "error: vehicle.wheels[0].on: 'r' is a rod and carries nothing (hang it on a body that the rod joins)",
      "error: vehicle.masses[0].on: 'r' is a rod and carries nothing (hang it on a body that the rod joins)",
      'error: vehicle.elements[0].on.member: \'r\' (rod) has no travel of its own (give the element two points, "from" and "to")',
    ]);
  });
});
