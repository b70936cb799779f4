/*
 * Linkages without wheels against published mechanism benchmarks: joints, closed loops of rods, and what the solver
 * does to energy.
 *
 * A hinge of the rigid-body solver takes a little energy: the joint force of a substep h is found on the tangent of the
 * old place, so that at the new place the part 1 − cos(ω·h) of the speed is lost. That damps a turn at the rate ½·h·ω²:
 * it is checked here as such, and is the reason why fast benchmarks are run at several substeps. A suspension arm turns
 * at some 2 rad/s, which leaves 0.1 % per second at 0.5 ms.
 *
 * Seen red: rods 0.1 % longer; the first rod left out; the inertia taken about the centre instead of the body's origin;
 * gravity ½ % off.
 */
import { describe, expect, it } from 'vitest';
import { add, distance, place, type Vec2 } from '../../shared/geometry/vec.ts';
import type { Plant } from '../../sim/dynamics/plant.ts';
import { hooke } from '../../sim/elements/hooke.ts';
import type { BodyPoint, BoundElement } from '../../sim/mechanism/mechanism.ts';
import { alongJoint, type Link, mechanismOf, plantOf, run, spring } from '../rigs/linkage.ts';
import { g } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const origin = { x: 0, z: 0 };
/** Point at `reach` along and `side` across (to the left) from o, seen along the angle. */
const from = (o: Vec2, angle: number, reach: number, side = 0): Vec2 => ({
  x: o.x + reach * Math.cos(angle) - side * Math.sin(angle),
  z: o.z + reach * Math.sin(angle) + side * Math.cos(angle),
});
const energy = (plant: Plant) => plant.kinetic() + plant.height() + plant.storedInElements();

/**
 * Pins the point `at` of one body to the same point of another, where the tree has joined both already: two rods from it
 * to two points of the other that lie across from each other.
 */
const pin = (at: Vec2, body: number, other: number, reach: number): (readonly [BodyPoint, BodyPoint])[] =>
  [
    { x: reach, z: 0 },
    { x: 0, z: reach },
  ].map(
    (way) =>
      [
        { body, at },
        { body: other, at: add(at, way) },
      ] as const,
  );

describe('a simple pendulum from the horizontal', () => {
  // IFToMM library of computational benchmark problems, A01: 1 kg on 1 m, released at rest at (−1, 0). Place after 2 s
  // (−0.793566195, −0.608483930) m, by order-10 extrapolation of the equation of motion.
  const swing = (h: number) => {
    const pendulum = plantOf(
      mechanismOf({
        gravity: g,
        links: [{ name: 'bob', mass: 1, centre: { x: -1, z: 0 }, inertia: 1e-9, hinge: origin }],
        size: 1,
      }),
    );
    const before = energy(pendulum);
    let foreseen = 0;
    run(pendulum, h, 2, () => {
      foreseen += pendulum.kinetic() * ((pendulum.k.spin[1] as number) * h) ** 2;
    });
    return {
      off: Math.hypot((pendulum.k.cx[1] as number) + 0.793566195, (pendulum.k.cz[1] as number) + 0.60848393),
      loss: before - energy(pendulum),
      foreseen,
    };
  };

  it('is within 1 mm of the published place after 2 s at 0.25 ms, and within half of that at half the substep', () => {
    // first order in h: 0.4 mm and 0.2 mm
    const [coarse, fine] = [swing(2.5e-4), swing(1.25e-4)];
    expect(coarse.off).toBeLessThan(1e-3);
    expect(fine.off / coarse.off).toBeGreaterThan(0.45);
    expect(fine.off / coarse.off).toBeLessThan(0.55);
  });

  it('loses the energy that its hinge is known to take, and no more', () => {
    // Σ T·(ω·h)² over the swing; what is left over is of second order, and the swing between T and U: h·g·v/2
    const { loss, foreseen } = swing(2.5e-4);
    expect(Math.abs(loss - foreseen)).toBeLessThan(0.5 * 2.5e-4 * g * 4.43);
    expect(loss).toBeLessThan(0.005 * g);
  });
});

describe('an arm on an undamped torsion bar', () => {
  it('keeps its energy within 0.1 % over ten swings of a suspension', () => {
    // 70 mm arm with 0.4 kg at its end on 9 N·m/rad, let go at 3°: 68 rad/s, and 3.5 rad/s at most. Ten swings take
    // 0.93 s: ½·(3.5 rad/s)² · 0.25 ms · 0.93 s = 0.14 % of the motion's energy would go at that speed throughout,
    // half of it over a swing.
    const end = { x: 0.07, z: 0 };
    const arm = mechanismOf({
      links: [{ name: 'arm', mass: 0.4, centre: end, inertia: 1e-5, hinge: origin }],
      elements: [spring(alongJoint(0), 9)],
      size: 0.055,
    });
    const plant = plantOf(arm);
    const turned = { x: 0, z: 0, angle: 3 * degree };
    plant.world.put(1, turned, 0, 0, 0);
    plant.world.read(plant.k);
    const before = energy(plant);
    const period = 2 * Math.PI * Math.sqrt((0.4 * 0.07 ** 2 + 1e-5) / 9);
    const h = 2.5e-4;
    // over whole swings, where the method's own ripple of h·ω/2 comes back to the same phase
    let sum = 0;
    let count = 0;
    run(plant, h, 10 * period, (now) => {
      if (now <= 9 * period) return;
      sum += energy(plant);
      count++;
    });
    expect(Math.abs(sum / count / before - 1)).toBeLessThan(1e-3);
  });
});

describe('a row of four-bar windows', () => {
  // IFToMM benchmark A02 with N = 40: 41 cranks and 40 couplers, uniform rods of 1 m and 1 kg, ground pins 1 m apart;
  // upright, first tip at 1 m/s. All cranks stay parallel: θ'' = k·sin θ with k = g·((N+1)/2 + N)/((N+1)/3 + N), so
  // the reference is one pendulum equation, exact for any N.
  const count = 40;
  const crank = (i: number): Link => ({
    name: `crank ${i}`,
    mass: 1,
    centre: { x: i, z: 0.5 },
    inertia: 1 / 12,
    hinge: { x: i, z: 0 },
  });
  const coupler = (i: number): Link => ({
    name: `coupler ${i}`,
    mass: 1,
    centre: { x: i + 0.5, z: 1 },
    inertia: 1 / 12,
    parent: i + 1,
    hinge: { x: i, z: 1 },
  });
  const numbers = [...Array(count).keys()];
  const windows = mechanismOf({
    gravity: g,
    links: [...numbers.map(crank), crank(count), ...numbers.map(coupler)],
    rods: numbers.flatMap((i) => pin({ x: i + 1, z: 1 }, count + 2 + i, i + 2, -0.5)),
    size: 1,
  });

  it('swings through its flat position, where it could fold either way, and stays parallel', () => {
    const plant = plantOf(windows);
    for (let i = 1; i <= count + 1; i++) plant.world.put(i, { x: 0, z: 0, angle: 0 }, 0.5, 0, -1);
    for (let i = 1; i <= count; i++) plant.world.put(count + 1 + i, { x: 0, z: 0, angle: 0 }, 1, 0, 0);
    plant.world.read(plant.k);
    const before = energy(plant);
    let flat = 0;
    run(plant, 2.5e-4, 1, () => {
      if (flat === 0 && (plant.k.angle[1] as number) < -90 * degree) flat = -(plant.k.spin[1] as number);
    });
    const tip = place({ x: 0, z: 0, angle: plant.k.angle[1] as number }, { x: 0, z: 1 });
    // 4.8081388 rad/s at the horizontal; at 0.25 ms and up to 6.7 rad/s the hinges take 0.2 % of the energy in a second
    expect(Math.abs(flat / 4.8081388 - 1)).toBeLessThan(0.002);
    // 5 mm on 1 m after 1 s: reached 1.4 mm
    expect(distance(tip, { x: -0.1153569, z: -0.9933241 })).toBeLessThan(3e-3);
    const angles = [...plant.k.angle.subarray(1, count + 2)];
    expect(Math.max(...angles) - Math.min(...angles)).toBeLessThan(1e-4);
    expect(Math.abs(energy(plant) - before)).toBeLessThan(0.004 * 1187);
  });
});

describe('the seven-body mechanism', () => {
  /*
   * Andrews' squeezer: Hairer & Wanner, Solving Ordinary Differential Equations II, and the test set for initial value
   * problems: seven moving bodies, three closed loops, a motor's torque on the first, a spring on the third. Published
   * after 0.03 s: β = 15.81077119629904 rad, ε = 1.048080741042263 rad.
   */
  const [a, b, c] = [
    { x: -0.06934, z: -0.00227 },
    { x: -0.03635, z: 0.03273 },
    { x: 0.014, z: 0.072 },
  ];
  const start = {
    beta: -0.0617138900142764,
    theta: 0,
    gamma: 0.45527981916307,
    phi: 0.222668390165886,
    delta: 0.487364979543843,
    omega: -0.222668390165886,
    epsilon: 1.23054744454982,
  };
  const { beta, theta, gamma, phi, delta, omega, epsilon } = start;
  const [end1, end5, end7] = [from(origin, beta, 0.007), from(a, delta, 0.04), from(a, epsilon, 0, -0.04)];
  const common = from(end1, beta + theta, -0.028);
  const seat = from(b, gamma, 0.02, -0.018);
  // mass centres of bodies that turn about a fixed point: only their distance counts, for there is no gravity
  const links: Link[] = [
    { name: '1', mass: 0.04325, centre: from(origin, beta, 0.00092), inertia: 2.194e-6, hinge: origin },
    {
      name: '2',
      mass: 0.00365,
      centre: from(end1, beta + theta, -0.0115),
      inertia: 4.41e-7,
      parent: 1,
      hinge: end1,
    },
    {
      name: '3',
      mass: 0.02373,
      centre: from(b, gamma, Math.hypot(0.01874, 0.01043)),
      inertia: 5.255e-6,
      hinge: b,
    },
    {
      name: '5',
      mass: 0.0705,
      centre: from(a, delta, Math.hypot(0.02308, 0.00916)),
      inertia: 1.169e-5,
      hinge: a,
    },
    {
      name: '4',
      mass: 0.00706,
      centre: from(end5, phi + delta, 0, -(0.02 - 0.01421)),
      inertia: 5.667e-7,
      parent: 4,
      hinge: end5,
    },
    {
      name: '7',
      mass: 0.05498,
      centre: from(a, epsilon, Math.hypot(0.01228, 0.00449)),
      inertia: 1.912e-5,
      hinge: a,
    },
    {
      name: '6',
      mass: 0.00706,
      centre: from(end7, omega + epsilon, 0.02 - 0.01421),
      inertia: 5.667e-7,
      parent: 6,
      hinge: end7,
    },
  ];
  const drawn = distance(c, seat);
  const pull: BoundElement = {
    name: 'spring',
    kind: 'linear-spring',
    count: 1,
    coordinate: { kind: 'span', a: { body: 0, at: c }, b: { body: 3, at: seat }, drawn },
    law: hooke({ rate: 4530, freeAt: drawn - 0.07785, pushOnly: false, damping: 0 }),
  };
  const motor: BoundElement = {
    name: 'motor',
    kind: 'torque',
    count: 1,
    coordinate: alongJoint(0),
    law: {
      memory: 0,
      energy: (x) => -0.033 * x,
      spring: () => 0.033,
      loss: () => 0,
      stiffness: () => 0,
      damping: 0,
      corners: [],
    },
  };
  const squeezer = mechanismOf({
    links,
    rods: [2, 5, 7].flatMap((body) => pin(common, body, 3, 0.02)),
    elements: [pull, motor],
    size: 0.02,
  });

  /** Angles of the first and the sixth body after 0.03 s at substep h. */
  function anglesAt(h: number) {
    const plant = plantOf(squeezer);
    let gap = 0;
    run(plant, h, 0.03, (now) => {
      if (Math.round(now / h) % 100 === 0) gap = Math.max(gap, plant.world.worstGap(squeezer).gap);
    });
    return {
      beta: beta + (plant.k.angle[1] as number),
      epsilon: epsilon + (plant.k.angle[6] as number),
      gap,
    };
  }

  it('begins as published: three chains meet in one point', () => {
    const ends = [
      from(b, gamma, 0, -0.035),
      from(end5, phi + delta, 0, -0.02),
      from(end7, omega + epsilon, 0.02),
    ];
    for (const end of ends) expect(distance(end, common)).toBeLessThan(1e-15);
  });

  it('reaches the published angles', () => {
    const [coarse, fine] = [anglesAt(5e-6), anglesAt(2.5e-6)];
    // it turns at 800 rad/s: hinges that damp at ½·h·ω² leave 0.9 % and 0.46 % of the first angle; both errors are of
    // the first order, so that what the two substeps aim at together is right to 10⁻³, the measure for an impulse solver
    expect(Math.abs(fine.beta / 15.81077119629904 - 1)).toBeLessThan(0.006);
    expect(Math.abs((2 * fine.beta - coarse.beta) / 15.81077119629904 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(fine.epsilon / 1.048080741042263 - 1)).toBeLessThan(1e-3);
    // loops closed to a ten-thousandth of the shortest link
    expect(coarse.gap).toBeLessThan(1e-4 * 0.02);
  });
});

describe('a four-bar linkage of a crank, an output arm and a rod', () => {
  // Norton, Design of Machinery, position analysis, worked example: ground 100, input 40, coupler 120, output 80 mm,
  // input at 40°: 57.33° and 20.30° open, −98.01° and −60.98° crossed (from memory; recomputed to four decimals).
  it.each([
    { circuit: 'open', side: 1, output: 57.3249, coupler: 20.2979 },
    { circuit: 'crossed', side: -1, output: -98.005, coupler: -60.978 },
  ])(
    'on its $circuit circuit stands at $output degrees when the input is turned to 40',
    ({ side, output, coupler }) => {
      const [input, ground, rod, arm] = [0.04, { x: 0.1, z: 0 }, 0.12, 0.08];
      // drawn with the input at 70°: the output's end lies where the circles about both ends of the coupler meet
      const tip = from(origin, 70 * degree, input);
      const [way, apart] = [Math.atan2(ground.z - tip.z, ground.x - tip.x), distance(tip, ground)];
      const reach = (apart ** 2 + rod ** 2 - arm ** 2) / (2 * apart);
      const end = from(tip, way, reach, side * Math.sqrt(rod ** 2 - reach ** 2));
      const link = (name: string, centre: Vec2, hinge: Vec2): Link => ({
        name,
        mass: 0.02,
        centre,
        inertia: 1e-5,
        hinge,
      });
      const turnTo: BoundElement = {
        ...spring(alongJoint(0), 1),
        law: hooke({ rate: 1, freeAt: -30 * degree, pushOnly: false, damping: 0 }),
      };
      const linkage = mechanismOf({
        links: [link('input', tip, origin), link('output', end, ground)],
        rods: [
          [
            { body: 1, at: tip },
            { body: 2, at: end },
          ],
        ],
        elements: [turnTo],
        size: 0.04,
      });
      const plant = plantOf(linkage);
      for (let n = 0; n < 4000; n++) plant.substep(2e-4, { kind: 'park', drag: 100 });
      const [p, q] = [
        place({ ...origin, angle: plant.k.angle[1] as number }, tip),
        place(plant.world.poses()[2] ?? { x: 0, z: 0, angle: 0 }, end),
      ];
      // at rest the loop closes to far under the solver's slop of 40 mm / 5500; half a unit of the last digit is 10⁻⁴ °
      expect(Math.abs(Math.atan2(p.z, p.x) / degree - 40)).toBeLessThan(1e-4);
      expect(Math.abs(Math.atan2(q.z - ground.z, q.x - ground.x) / degree - output)).toBeLessThan(2e-4);
      expect(Math.abs(Math.atan2(q.z - p.z, q.x - p.x) / degree - coupler)).toBeLessThan(2e-4);
    },
  );
});
