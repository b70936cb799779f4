/*
 * Standing wheel loads against statics worked out by hand. The bar is 0.1 % of the load.
 *
 * All rigs stand on hard tyres (100 N/mm for some 10 N: 0.1 mm deep, 1/900 of the lengths that they lean against), so
 * that the closed forms, which are for rigid wheels, hold to a few parts in 10⁵. What the tyres leave is argued where
 * it counts.
 *
 * Not here: one wheel of four raised across (a matter of the two sides of a vehicle; ours is one plane).
 *
 * Seen red: the pivot of a bogie 1 mm off; wheels 2 % heavier than they say; the moment of friction left out of the
 * locked wheel (slopes).
 */
import { describe, expect, it } from 'vitest';
import { standAt } from '../../sim/statics/stand.ts';
import { g, normalsOf, type Rig, type RigAxle, slope, standOf } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const radius = 0.04;

/** An axle line with a hard tyre and a light wheel, hub at wheel radius over the drawing's base line. */
const axle = (name: string, x: number, more: Partial<RigAxle> = {}): RigAxle => ({
  name,
  at: { x, z: radius },
  radius,
  mass: 0.02,
  stiffness: 1e5,
  load: 10,
  ...more,
});

/** Weight of one wheel of these rigs, N: it stands on the ground by itself, whatever carries the rest. */
const ownWeight = 0.02 * g;

/** Loads of a rig on its ground, N: let come to rest by the engine, and the same from the solver of equilibrium. */
function loadsOf(rig: Rig): readonly number[] {
  const { plant, standing } = standOf(rig);
  const found = standAt(plant.mechanism, plant.ground, standing.station);
  if (found.kind !== 'stands') throw new Error(`the solver of equilibrium says: ${found.kind}`);
  standing.loads.forEach((load, i) => {
    expect(Math.abs((found.standing.loads[i] as number) / load - 1)).toBeLessThan(1e-5);
  });
  return standing.loads;
}

/** Every load within 0.1 % of what is expected. */
function agree(found: readonly number[], expected: readonly number[]): void {
  expect(found.length).toBe(expected.length);
  found.forEach((load, i) => {
    expect(Math.abs(load / (expected[i] as number) - 1), `${load} N for ${expected[i]} N`).toBeLessThan(1e-3);
  });
}

// Gillespie, Fundamentals of Vehicle Dynamics, axle-load equation (place from memory); the figures by moments.
describe('two axles', () => {
  const rig: Rig = { mass: 3, cg: { x: -0.15, z: 0.09 }, axles: [axle('front', 0), axle('rear', -0.32)] };

  it('share the weight on the level by the distances of the centre of gravity', () => {
    agree(loadsOf(rig), [15.634688, 13.795312]);
  });

  it('shift load to the rear when parked nose up on 20 degrees', () => {
    // tyres 0.1 mm deep lower the centre of gravity by 1/900, and the shift of 2.8 N with it: 0.03 % of a load
    agree(normalsOf(standOf({ ...rig, ground: slope(20 * degree) })), [11.860836, 15.794318]);
  });

  it('shift load to the front when parked nose down on 20 degrees', () => {
    const [front, rear] = [Math.cos(20 * degree), Math.sin(20 * degree) * 0.09].map(
      (v) => (v * 29.43) / 0.32,
    ) as [number, number];
    agree(normalsOf(standOf({ ...rig, ground: slope(-20 * degree) })), [
      front * 0.17 + rear,
      front * 0.15 - rear,
    ]);
  });
});

// Weigh-and-tilt method: ISO 10392 (procedure, from memory); figures by moments.
describe('the centre of gravity found by tilting', () => {
  const length = 0.32;
  const rig: Rig = {
    mass: 3,
    cg: { x: -0.16, z: radius + 0.06 },
    axles: [axle('front', 0), axle('rear', -length)],
  };

  it('is at the height that the masses say, from the rear load with the front axle lifted by 20 degrees', () => {
    const lifted = length * Math.sin(20 * degree);
    const half = 0.5 * length * Math.cos(20 * degree);
    const { standing } = standOf({
      ...rig,
      ground: [
        { kind: 'flat', length: 50 },
        { kind: 'step', height: lifted, length: 50 },
      ],
      run: { start: 50 + half },
    });
    const rear = standing.loads[1] as number;
    expect(Math.abs(rear / 16.723433 - 1)).toBeLessThan(1e-3);
    // 0.1 % of the load is 0.9 mm; the tyres, under nearly equal loads, tilt the line of the hubs by 5e-5 rad: 0.05 mm
    const height = ((rear * length) / 29.43 - 0.5 * length) / Math.tan(20 * degree);
    expect(Math.abs(height - 0.06)).toBeLessThan(1e-4);
  });

  it('is at the height that the masses say, from the loads when parked on a slope', () => {
    const [front, rear] = normalsOf(standOf({ ...rig, ground: slope(15 * degree) })) as [number, number];
    // moments about the middle of the contacts: h·W·sin = (R − F)·L/2, h above the contacts, tyres 0.13 mm deep
    const height = ((rear - front) * 0.5 * length) / (29.43 * Math.sin(15 * degree));
    expect(Math.abs(height - (0.1 - 0.00013))).toBeLessThan(1e-4);
  });
});

/** A bogie on a rigid vehicle: pivot, arms to both hubs, beam of no importance with its mass in the pivot. */
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
    mass: { on: name, mass: 0.01, at: { x: pivot, z: height }, inertia: 1e-5 },
    axles: [
      axle(`${name} leading`, pivot + front, { on: name }),
      axle(`${name} trailing`, pivot - rear, { on: name }),
    ],
  };
}

describe('a bogie', () => {
  it('is a lever: 12 N on arms of 55 and 45 mm', () => {
    // 12 N at the pivot, beam included; the front axle takes 8 N; wheels stand by themselves. Lever rule.
    const b = bogie('bogie', -0.4, 0.055, 0.045);
    const mass = 20 / g + 3 * 0.02;
    const x = (-0.4 * 12 - (ownWeight * (0.4 - 0.055) + ownWeight * (0.4 + 0.045))) / (mass * g);
    const loads = loadsOf({
      mass,
      cg: { x, z: 0.08 },
      axles: [axle('front', 0), ...b.axles],
      members: [b.member],
      masses: [b.mass],
    });
    agree(
      loads.map((load) => load - ownWeight),
      [8, 5.4, 6.6],
    );
  });

  it.each([
    { lean: 0, pivot: radius, leading: 5, trailing: 5 },
    { lean: 10, pivot: radius, leading: 5, trailing: 5 },
    { lean: 10, pivot: radius + 0.015, leading: 4.7355095, trailing: 5.2644905 },
    { lean: 25, pivot: radius + 0.015, leading: 4.3005385, trailing: 5.6994615 },
  ])(
    'with its pivot $pivot m up, leaning $lean degrees on level treads, shares 10 N',
    ({ lean, pivot, leading, trailing }) => {
      // Statics of a massless beam with vertical contacts: Nf·(a·cos t + e·sin t) = Nr·(a·cos t − e·sin t).
      const rise = 0.1 * Math.sin(lean * degree);
      const b = bogie('bogie', 0, 0.05, 0.05, pivot);
      const mass = 30 / g;
      const stand = standOf({
        mass,
        cg: { x: 1, z: pivot },
        axles: [axle('front', 3), ...b.axles],
        members: [b.member],
        masses: [b.mass],
        ground:
          rise === 0
            ? [{ kind: 'flat', length: 100 }]
            : [
                { kind: 'flat', length: 50 },
                { kind: 'step', height: rise, length: 50 },
              ],
        // the hubs swing forward under a high pivot: the face of the step stays midway between them
        run: { start: 50 - (pivot - radius) * Math.sin(lean * degree) },
      });
      const [, front, rear] = stand.standing.loads.map((load) => load - ownWeight) as [
        number,
        number,
        number,
      ];
      // the beam leans by what the ground says to within the tyres' 0.1 mm over 100 mm; shares follow at e/a of that
      expect(
        Math.abs((stand.standing.motions[0] as number) + stand.standing.pitch - lean * degree),
      ).toBeLessThan(2e-3);
      const whole = leading + trailing;
      agree([front / (front + rear), rear / (front + rear)], [leading / whole, trailing / whole]);
    },
  );

  it('of six wheels takes what the lever leaves to it, pivot centred and 8 mm ahead', () => {
    // W = 39.24 N, front axle at 0, bogie axles 260 and 360 mm behind, centre of gravity 190 mm behind. Lever rule for a
    // vehicle of massless wheels and beam: so these weigh a gram and a tenth of one here, which stays under 0.02 %.
    const light = { mass: 0.001 };
    const loads = (pivot: number) => {
      const b = bogie('bogie', pivot, -0.26 - pivot, pivot + 0.36);
      return loadsOf({
        mass: 4,
        cg: { x: -0.19, z: 0.08 },
        axles: [axle('front', 0, light), ...b.axles.map((a) => ({ ...a, ...light }))],
        members: [b.member],
        masses: [{ ...b.mass, mass: 0.001 }],
      });
    };
    agree(loads(-0.31), [15.189677, 12.025161, 12.025161]);
    agree(loads(-0.302), [14.552583, 14.318702, 10.368715]);
  });
});

/** An axle on a vertical guide with a spring that is free far below: rate 8 N/mm. */
function sprung(name: string, x: number, rate = 8000) {
  return {
    member: { name, kind: 'guided-axle' as const, at: { x, z: radius } },
    element: {
      name: `${name} spring`,
      kind: 'linear-spring' as const,
      on: { member: name },
      rate,
      preload: 7,
    },
    axle: axle(name, x, { on: name, mass: 0.005, stiffness: 1e6 }),
  };
}

/** A rigid body of 29.43 N on sprung axles of 5 g each, centre of gravity at hub height so that pitch moves nothing. */
function onSprings(places: readonly number[], cg: number, ground?: Rig['ground']): Rig {
  const parts = places.map((x, i) => sprung(`axle ${i + 1}`, x));
  const unsprung = places.reduce((sum, x) => sum + 0.005 * x, 0);
  const mass = 3 + 0.005 * places.length;
  return {
    mass,
    cg: { x: (3 * cg + unsprung) / mass, z: radius },
    axles: parts.map((p) => p.axle),
    members: parts.map((p) => p.member),
    elements: parts.map((p) => p.element),
    ...(ground ? { ground } : {}),
  };
}

/** Loads of the springs: those of the wheels less what the wheels weigh. */
const springLoads = (rig: Rig) => loadsOf(rig).map((load) => load - 0.005 * g);

describe('springs against each other', () => {
  it('three axles on equal springs share by their places', () => {
    // Jazar, Vehicle Dynamics, multi-axle loads (place from memory); force linear in position, solved by hand
    agree(springLoads(onSprings([0.18, -0.1, -0.2], 0)), [13.147423, 8.899794, 7.382784]);
  });

  it('four axles on equal springs share by their places', () => {
    agree(springLoads(onSprings([0.2, 0.1, -0.1, -0.2], 0.01)), [7.9461, 7.6518, 7.0632, 6.7689]);
  });

  it('a rise under one of four sprung axles moves load to it', () => {
    // Ten times the rate and a tenth of the rise of the worked figures (800 N/m, 10 mm): the same loads, and angles of
    // 1/1000 rad in which the small-angle solution is exact to 10⁻⁶. The worked rate has the tyre in series with the
    // spring: our tyres give way by 1/1270 to 1/1500 mm per newton between these loads (δ ~ N^⅔), so the spring is made
    // 0.58 % stiffer; the spread about that leaves 0.04 % of a load.
    const rise = [
      { kind: 'flat' as const, length: 50.07 },
      { kind: 'step' as const, height: 0.001, length: 0.06 },
      { kind: 'step' as const, height: -0.001, length: 50 },
    ];
    const rig = onSprings([0.2, 0.1, -0.1, -0.2], 0.01, rise);
    const inSeries = {
      ...rig,
      elements: (rig.elements ?? []).map((e) => ({ ...e, rate: 8000 * (1 + 8000 / 1.38e6) })),
    } as Rig;
    agree(springLoads(inSeries), [4.3461, 12.8518, 5.8632, 6.3689]);
  });

  it('the same rise under one of two bogies moves nothing', () => {
    // Lever rule; the centre of gravity at the height of the pivots, so that pitch moves nothing either.
    const rise = [
      { kind: 'flat' as const, length: 50.05 },
      { kind: 'step' as const, height: 0.01, length: 0.1 },
      { kind: 'step' as const, height: -0.01, length: 50 },
    ];
    const [a, b] = [bogie('front', 0.15, 0.05, 0.05), bogie('rear', -0.15, 0.05, 0.05)];
    const mass = 3 + 4 * 0.02;
    for (const ground of [undefined, rise]) {
      const loads = loadsOf({
        mass,
        cg: { x: (3 * 0.01) / mass, z: radius },
        axles: [...a.axles, ...b.axles],
        members: [a.member, b.member],
        masses: [a.mass, b.mass],
        ...(ground ? { ground } : {}),
      });
      agree(
        loads.map((load) => load - ownWeight),
        [7.848, 7.848, 6.867, 6.867],
      );
    }
  });
});

describe('a rocker that carries a bogie', () => {
  it('loads its three wheels equally when its arms are two to one', () => {
    // 15 N on the rocker's pivot, 120 mm to its own wheel, 60 mm to the bogie's pivot; bogie arms 45 mm. Lever rule.
    const rocker = {
      name: 'rocker',
      kind: 'bogie-beam' as const,
      pivot: { x: -0.4, z: 0.07 },
      front: { x: -0.28, z: radius },
      rear: { x: -0.46, z: radius },
    };
    const b = bogie('bogie', -0.46, 0.045, 0.045, radius, 'rocker');
    // the bogie's mass hangs on the rocker's arm of 60 mm: half of it on the other arm balances it, as in the pivot
    const masses = [b.mass, { on: 'rocker', mass: 0.01, at: { x: -0.4 + 0.06, z: radius }, inertia: 1e-5 }];
    const mass = 25 / g + 4 * 0.02;
    const x = (-0.4 * 15 - ownWeight * (0.28 + 0.415 + 0.505)) / (mass * g);
    const loads = loadsOf({
      mass,
      cg: { x, z: 0.08 },
      axles: [axle('front', 0), axle('rocker front', -0.28, { on: 'rocker' }), ...b.axles],
      members: [rocker, b.member],
      masses,
    });
    agree(
      loads.map((load) => load - ownWeight),
      [10, 5, 5, 5],
    );
  });
});
