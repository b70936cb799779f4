/*
 * What the solver of equilibrium finds, against levers, springs and free bodies worked out by hand. The same published
 * figures as in standing-loads.test.ts, where the engine of the dynamics answers to them; here the bar is ten times
 * lower, 0.01 % of a load, because nothing has to come to rest. Tyres of 10,000 N/mm sink by 1 µm under 10 N.
 *
 * Seen red: the pivot of every bogie 0.1 mm off.
 */
import { describe, expect, it } from 'vitest';
import { compile } from '../../sim/mechanism/compile.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { Balance } from '../../sim/statics/balance.ts';
import { Solver } from '../../sim/statics/solve.ts';
import { standAt } from '../../sim/statics/stand.ts';
import { g, groundOf, type Rig, type RigAxle, scenarioOf, slope } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const radius = 0.04;

/** An axle line of a gram on a tyre as hard as steel. */
const axle = (name: string, x: number, more: Partial<RigAxle> = {}): RigAxle => ({
  name,
  at: { x, z: radius },
  radius,
  mass: 0.001,
  stiffness: 1e7,
  load: 10,
  ...more,
});
const ownWeight = 0.001 * g;

const partsOf = (rig: Rig) => {
  const scenario = scenarioOf(rig);
  const ground = groundOf(scenario.ground);
  return { mechanism: compile(scenario), ground, start: courseOf(scenario, ground).start };
};

function standOf(rig: Rig) {
  const { mechanism, ground, start } = partsOf(rig);
  const found = standAt(mechanism, ground, start);
  if (found.kind !== 'stands') throw new Error(JSON.stringify(found));
  return found.standing;
}

/** Loads of the axle lines less what a wheel weighs itself. */
const carried = (rig: Rig) => standOf(rig).loads.map((load) => load - ownWeight);

function agree(found: readonly number[], expected: readonly number[], within = 1e-4): void {
  expect(found.length).toBe(expected.length);
  found.forEach((load, i) => {
    expect(Math.abs(load / (expected[i] as number) - 1), `${load} N for ${expected[i]} N`).toBeLessThan(
      within,
    );
  });
}

/** A bogie with its pivot at (x, height), arms forward and back, and a beam of a tenth of a gram. */
function bogie(name: string, pivot: number, front: number, rear: number, height = radius, on = 'chassis') {
  return {
    member: {
      name,
      kind: 'bogie-beam' as const,
      on,
      pivot: { x: pivot, z: height },
      front: { x: pivot + front, z: radius },
      rear: { x: pivot - rear, z: radius },
    },
    mass: { on: name, mass: 1e-4, at: { x: pivot, z: height }, inertia: 1e-7 },
    axles: [
      axle(`${name} leading`, pivot + front, { on: name }),
      axle(`${name} trailing`, pivot - rear, { on: name }),
    ],
  };
}

describe('levers', () => {
  it('a bogie with arms of 55 and 45 mm shares 12 N as 5.4 and 6.6 N', () => {
    // Lever rule: leading wheel 12·45/100. The front axle takes 8 N.
    const b = bogie('bogie', -0.4, 0.055, 0.045);
    const mass = 20 / g + 3e-3 + 1e-4;
    const x = (-0.4 * (12 + 1e-4 * g) - ownWeight * (0.345 + 0.445)) / (mass * g);
    const [front, leading, trailing] = carried({
      mass,
      cg: { x, z: 0.08 },
      axles: [axle('front', 0), ...b.axles],
      members: [b.member],
      masses: [b.mass],
    });
    agree([front, leading, trailing] as number[], [8, 5.4, 6.6]);
  });

  it('a rocker two to one with a bogie loads its three wheels with 5 N each', () => {
    // 15 N at the rocker's pivot, 120 mm to its wheel, 60 mm to the bogie's pivot, bogie arms 45 mm. Lever rule.
    const rocker = {
      name: 'rocker',
      kind: 'bogie-beam' as const,
      pivot: { x: -0.4, z: 0.07 },
      front: { x: -0.28, z: radius },
      rear: { x: -0.46, z: radius },
    };
    const b = bogie('bogie', -0.46, 0.045, 0.045, radius, 'rocker');
    const mass = 25 / g + 4e-3 + 2e-4;
    const x = (-0.4 * (15 + 2e-4 * g) - ownWeight * (0.28 + 0.415 + 0.505)) / (mass * g);
    const loads = carried({
      mass,
      cg: { x, z: 0.08 },
      axles: [axle('front', 0), axle('rocker front', -0.28, { on: 'rocker' }), ...b.axles],
      members: [rocker, b.member],
      masses: [b.mass, { on: 'rocker', mass: 1e-4, at: { x: -0.34, z: radius }, inertia: 1e-7 }],
    });
    // beams of a tenth of a gram each are in the pivot's load
    const each = (15 + 2e-4 * g) / 3;
    agree(loads, [10, each, each, each]);
  });

  it.each([
    { lean: 10, pivot: radius, leading: 5, trailing: 5 },
    { lean: 10, pivot: radius + 0.015, leading: 4.7355095, trailing: 5.2644905 },
    { lean: 25, pivot: radius + 0.015, leading: 4.3005385, trailing: 5.6994615 },
  ])(
    'a bogie with its pivot $pivot m up, leaning $lean degrees on level treads, shares 10 N',
    ({ lean, pivot, leading, trailing }) => {
      // Statics of a massless beam with vertical contacts: Nf·(a·cos t + e·sin t) = Nr·(a·cos t − e·sin t).
      const rise = 0.1 * Math.sin(lean * degree);
      const b = bogie('bogie', 0, 0.05, 0.05, pivot);
      const { loads } = standOf({
        mass: 30 / g,
        cg: { x: 1, z: pivot },
        axles: [axle('front', 3), ...b.axles.map((a) => ({ ...a, stiffness: 1e6 }))],
        members: [b.member],
        masses: [b.mass],
        ground: [
          { kind: 'flat', length: 50 },
          { kind: 'step', height: rise, length: 50 },
        ],
        run: { start: 50 - (pivot - radius) * Math.sin(lean * degree) },
      });
      const [, front, rear] = loads.map((load) => load - ownWeight) as [number, number, number];
      // wheels of a gram stand by themselves; the rest are shares of the pivot's load
      agree([front / (front + rear), rear / (front + rear)], [leading / 10, trailing / 10]);
    },
  );

  it('a bogie half on a slope of 20 degrees shares by the cosines of its contacts', () => {
    // Moments about the pivot at hub height: Nf·cos(αf − t) = Nr·cos(αr − t), leading wheel on the level top (0), the
    // trailing one on the slope (20°). With the beam at 10° both are 5.155456 N of 10 N, and push back by 1.7632698 N.
    const b = bogie('bogie', 0, 0.05, 0.05);
    const { mechanism, ground } = partsOf({
      mass: 30 / g,
      cg: { x: -1, z: radius },
      axles: [axle('front', -3), ...b.axles],
      members: [b.member],
      masses: [b.mass],
      // the far axle stands as high as the bogie's pivot does when the beam leans by 10°
      ground: [
        { kind: 'flat', length: 47.5 },
        { kind: 'ramp', length: 2.5, angle: 20 * degree },
        { kind: 'flat', length: 50 },
      ],
    });
    const balance = new Balance(mechanism, ground, { thrust: { kind: 'none' }, sense: 0, relaxed: true });
    const solver = new Solver(balance);
    const at = (station: number) => {
      const y = new Float64Array(balance.count);
      y[0] = 0.9;
      y[1] = 0.3;
      expect(solver.sink(y, station, 2000).found).toBe(true);
      return { lean: (y[1] as number) + (y[2] as number), wheels: balance.wheels.map((w) => ({ ...w })) };
    };
    let [low, high] = [49.93, 50.03];
    for (let n = 0; n < 40; n++) {
      const middle = 0.5 * (low + high);
      if (at(middle).lean > 10 * degree) low = middle;
      else high = middle;
    }
    const { wheels } = at(low);
    const [leading, trailing] = [wheels[1], wheels[2]] as [(typeof wheels)[0], (typeof wheels)[0]];
    const weight = leading.fz + trailing.fz - 2 * ownWeight;
    // the wheels' own gram counts on its own: 1e-3 of the loads, which the shares are free of to first order
    agree([leading.normal / trailing.normal], [1], 1e-3);
    agree([leading.normal / weight, -trailing.fx / weight], [0.5155456, 0.17632698], 1.5e-3);
  });
});

/** A rigid body of 29.43 N on sprung axles of 1 g; centre of gravity at hub height. */
function onSprings(places: readonly number[], cg: number, rate: number, ground?: Rig['ground']): Rig {
  const name = (i: number) => `axle ${i + 1}`;
  const mass = 3 + 0.001 * places.length;
  return {
    mass,
    cg: { x: (3 * cg + 0.001 * places.reduce((a, b) => a + b, 0)) / mass, z: radius },
    axles: places.map((x, i) => axle(name(i), x, { on: name(i), mass: 0.0005 })),
    members: places.map((x, i) => ({ name: name(i), kind: 'guided-axle' as const, at: { x, z: radius } })),
    elements: places.map((_, i) => ({
      name: `${name(i)} spring`,
      kind: 'linear-spring' as const,
      on: { member: name(i) },
      rate,
      preload: 7,
    })),
    masses: places.map((x, i) => ({ on: name(i), mass: 0.0005, at: { x, z: radius }, inertia: 1e-7 })),
    ...(ground ? { ground } : {}),
  };
}

describe('springs', () => {
  it('three equal ones share by their places', () => {
    // Jazar, Vehicle Dynamics, multi-axle loads (place from memory); solved by hand
    agree(carried(onSprings([0.18, -0.1, -0.2], 0, 8000)), [13.147423, 8.899794, 7.382784]);
  });

  it('four of 800 N/m share by their places, and a rise of 10 mm under the second moves load to it', () => {
    // A rigid beam on springs, small angles. With the rise the body pitches by 1/60 rad, which its true angle feels as
    // (1/60)²/2 of the levers: 1.4e-4, and the guides lean with it: 5e-4 of the loads is kept from that.
    const ground = [
      { kind: 'flat' as const, length: 50.05 },
      { kind: 'step' as const, height: 0.01, length: 0.1 },
      { kind: 'step' as const, height: -0.01, length: 50 },
    ];
    agree(carried(onSprings([0.2, 0.1, -0.1, -0.2], 0.01, 800)), [7.9461, 7.6518, 7.0632, 6.7689]);
    agree(
      carried(onSprings([0.2, 0.1, -0.1, -0.2], 0.01, 800, ground)),
      [4.3461, 12.8518, 5.8632, 6.3689],
      1e-2,
    );
  });

  it('two bogies in their place feel nothing of that rise, and centre of gravity height h moves W·h/60/0.3 m', () => {
    const ground = [
      { kind: 'flat' as const, length: 50.05 },
      { kind: 'step' as const, height: 0.01, length: 0.1 },
      { kind: 'step' as const, height: -0.01, length: 50 },
    ];
    const [a, b] = [bogie('front', 0.15, 0.05, 0.05), bogie('rear', -0.15, 0.05, 0.05)];
    const mass = 3 + 4e-3 + 2e-4;
    const loads = (height: number, uneven: boolean) =>
      carried({
        mass,
        cg: { x: (3 * 0.01) / mass, z: radius + height },
        axles: [...a.axles, ...b.axles],
        members: [a.member, b.member],
        masses: [a.mass, b.mass],
        ...(uneven ? { ground } : {}),
      }) as [number, number, number, number];
    const bare = [7.848, 7.848, 6.867, 6.867].map((load) => load);
    agree(loads(0, false), bare, 2e-4);
    agree(loads(0, true), bare, 5e-4);
    // pitch of 5 mm over 300 mm, nose up: 29.43·0.05/60/0.3 = 0.08175 N from the front bogie to the rear one
    const [even, uneven] = [loads(0.05, false), loads(0.05, true)];
    expect((even[0] + even[1] - uneven[0] - uneven[1]) / 0.08175).toBeCloseTo(1, 2);
  });
});

describe('tilting', () => {
  it('gives the height of the centre of gravity from the rear load with the front axle lifted by 20 degrees', () => {
    // Weigh and tilt: ISO 10392 (procedure, from memory). W 29.43 N, L 320 mm, rear scale 16.723433 N: 60.0000 mm.
    const [length, lean] = [0.32, 20 * degree];
    const { loads } = standOf({
      mass: 3,
      cg: { x: -0.16, z: radius + 0.06 },
      axles: [axle('front', 0), axle('rear', -length)],
      ground: [
        { kind: 'flat', length: 50 },
        { kind: 'step', height: length * Math.sin(lean), length: 50 },
      ],
      run: { start: 50 + 0.5 * length * Math.cos(lean) },
    });
    const rear = loads[1] as number;
    agree([rear], [16.723433]);
    expect(((rear * length) / 29.43 - 0.5 * length) / Math.tan(lean)).toBeCloseTo(0.06, 4);
  });

  it('says when a truck tips backwards: beyond atan(b/h)', () => {
    // centre of gravity mid-wheelbase, 120 mm of 320 up: 53.1301°. Gillespie, Wong (places from memory); by moments.
    const rig = (angle: number): Rig => ({
      mass: 3,
      cg: { x: -0.16, z: 0.12 },
      axles: [axle('front', 0, { grip: 3 }), axle('rear', -0.32, { grip: 3 })],
      ground: slope(angle * degree),
    });
    const kind = (angle: number) => {
      const { mechanism, ground, start } = partsOf(rig(angle));
      return standAt(mechanism, ground, start).kind;
    };
    expect(kind(53)).toBe('stands');
    expect(kind(53.3)).toBe('tips');
  });
});

describe('angles of approach and breakover with real wheels', () => {
  // ISO 612 and SAE J1100 define both by planes tangent to the loaded tyres (from memory); geometry by hand.
  const wheel = 0.06;
  const truck = (belly: readonly { x: number; z: number }[], ground: Rig['ground'], start: number) => {
    const scenario = scenarioOf({
      mass: 3,
      cg: { x: -0.16, z: 0.1 },
      axles: [0, -0.32].map((x, i) =>
        axle(i === 0 ? 'front' : 'rear', x, { at: { x, z: wheel }, radius: wheel }),
      ),
      ...(ground ? { ground } : {}),
      run: { start },
    });
    const vehicle = { ...scenario.vehicle, bodywork: { ...scenario.vehicle.bodywork, belly: [...belly] } };
    return { mechanism: compile({ ...scenario, vehicle }), ground: groundOf(scenario.ground), start };
  };
  const gapOf = (parts: ReturnType<typeof truck>) => {
    const balance = new Balance(parts.mechanism, parts.ground, {
      thrust: { kind: 'none' },
      sense: 0,
      relaxed: true,
    });
    const y = new Float64Array(balance.count);
    y[0] = 0.02;
    expect(new Solver(balance).sink(y, parts.start).found).toBe(true);
    const { x, z, angle } = {
      x: balance.state.x[1] as number,
      z: balance.state.z[1] as number,
      angle: balance.state.angle[1] as number,
    };
    const point = parts.mechanism.belly.points[0] as { x: number; z: number };
    return {
      x: x + Math.cos(angle) * point.x - Math.sin(angle) * point.z,
      z: z + Math.sin(angle) * point.x + Math.cos(angle) * point.z,
    };
  };

  it('a point 100 mm ahead and 70 mm up meets a slope of 42.3675 degrees together with the wheel', () => {
    const angle = 42.3675 * degree;
    // the wheel touches level and slope when its hub is r·tan(α/2) before the foot; a hair before that
    const start = 50 - wheel * Math.tan(angle / 2) - 1e-6;
    const point = gapOf(
      truck(
        [{ x: 0.1, z: 0.07 }],
        [
          { kind: 'flat', length: 50 },
          { kind: 'ramp', length: 10, angle },
        ],
        start,
      ),
    );
    expect(point.z - (point.x - 50) * Math.tan(angle)).toBeCloseTo(0, 5);
  });

  it('a belly 60 mm up mid-wheelbase rests on a ridge of 44.0486 degrees', () => {
    const angle = 0.5 * 44.0486 * degree;
    const ridge: Rig['ground'] = [
      { kind: 'ramp', length: 50, angle },
      { kind: 'ramp', length: 50, angle: -angle },
    ];
    const parts = truck([{ x: -0.16, z: 0.06 }], ridge, 50.16);
    const top = 50 * Math.tan(angle);
    const balance = new Balance(parts.mechanism, parts.ground, {
      thrust: { kind: 'none' },
      sense: 0,
      relaxed: true,
    });
    const y = Float64Array.of(top + 0.01, 0);
    expect(new Solver(balance).sink(y, parts.start).found).toBe(true);
    expect((y[0] as number) + 0.06 - top).toBeCloseTo(0, 5);
  });
});
