/*
 * Natural frequencies and damping against the textbook two-mass models: from the engine's own free motion (bar: 0.5 %)
 * and from the small-motion analysis that chooses the substep (10⁻⁶).
 *
 * Seen red: the parent's speed left out of a guide's rate; a damper 1 % off; a spring's stiffness 0.1 % off and a pitch
 * inertia 0.1 % off in the small-motion analysis; gravity ½ % off.
 */
import { describe, expect, it } from 'vitest';
import { modesOf } from '../../sim/dynamics/modes.ts';
import type { Plant } from '../../sim/dynamics/plant.ts';
import type { Coordinate, Wheel } from '../../sim/mechanism/mechanism.ts';
import { lineTyre } from '../../sim/mechanism/tyres.ts';
import { alongJoint, dashpot, frequencyOf, mechanismOf, plantOf, run, spring } from '../rigs/linkage.ts';
import { g, groundOf, standOf } from '../rigs/vehicle.ts';

const up = { x: 0, z: 1 };
const away = (found: number, expected: number) => Math.abs(found / expected - 1);

/** Watches one figure of a moving plant. */
function samplesOf(
  plant: Plant,
  h: number,
  time: number,
  value: () => number,
): { at: number; value: number }[] {
  const samples: { at: number; value: number }[] = [];
  run(plant, h, time, (at) => samples.push({ at, value: value() }));
  return samples;
}

// --- Quarter car ---------------------------------------------------------------------------------------------------

/** Sprung and unsprung mass, kg; suspension and tyre, N/m. Any vibration text, e.g. Jazar, Vehicle Dynamics. */
const quarter = { ms: 317.5, mu: 45.4, ks: 22_000, kt: 192_000 };

/** Unsprung mass on a guide in the frame, sprung mass on a guide in the unsprung one; gravity out of the way. */
function quarterCar(c: number) {
  const { ms, mu, ks, kt } = quarter;
  const link = (name: string, mass: number, parent: number) => ({
    name,
    mass,
    centre: { x: 0, z: 0 },
    inertia: 1,
    parent,
    slide: up,
  });
  return mechanismOf({
    links: [link('unsprung', mu, 0), link('sprung', ms, 1)],
    elements: [spring(alongJoint(0), kt), spring(alongJoint(1), ks), dashpot(alongJoint(1), c)],
    size: 0.3,
  });
}

/** Unsprung over sprung motion in the mode of exponent s, from the sprung mass' equation; complex numbers as [re, im]. */
function unsprungOverSprung([a, b]: readonly [number, number], c: number): [number, number] {
  const { ms, ks } = quarter;
  const below = [ks + c * a, c * b] as const;
  const above = [ms * (a * a - b * b) + below[0], 2 * ms * a * b + below[1]] as const;
  const size = below[0] ** 2 + below[1] ** 2;
  return [
    (above[0] * below[0] + above[1] * below[1]) / size,
    (above[1] * below[0] - above[0] * below[1]) / size,
  ];
}

/** Lets the quarter car go in one mode: sprung motion Re e^{st} mm. Returns the plant. */
function letGo(s: readonly [number, number], c: number): Plant {
  const plant = plantOf(quarterCar(c));
  const ratio = unsprungOverSprung(s, c);
  const amplitude = 1e-3;
  const speed = (z: readonly [number, number]) => amplitude * (z[0] * s[0] - z[1] * s[1]);
  plant.world.put(1, { x: 0, z: amplitude * ratio[0], angle: 0 }, 0, speed(ratio), 0);
  plant.world.put(2, { x: 0, z: amplitude, angle: 0 }, 0, speed([1, 0]), 0);
  plant.world.read(plant.k);
  return plant;
}

describe('a quarter car', () => {
  const expected = [7.878634, 68.708623] as const;

  it.each(expected)('swings freely at %f rad/s', (omega) => {
    const plant = letGo([0, omega], 0);
    const samples = samplesOf(
      plant,
      0.25 / 68.7 / 4,
      (20 * 2 * Math.PI) / omega,
      () => plant.k.z[2] as number,
    );
    expect(away(frequencyOf(samples), omega)).toBeLessThan(0.005);
  });

  it('has these frequencies in the small-motion analysis, to its seven printed digits', () => {
    const { frequencies } = modesOf(quarterCar(0), 'standing', 0);
    expect(frequencies.length).toBe(2);
    frequencies.forEach((omega, i) => {
      expect(away(omega, expected[i] as number)).toBeLessThan(1e-6);
    });
  });

  // Roots of ms·mu·s⁴ + c(ms + mu)s³ + (ms(ks + kt) + mu·ks)s² + c·kt·s + ks·kt at c = 1500 N·s/m.
  it.each([
    [-1.9417653, 7.7528821],
    [-16.940263, 65.578362],
  ] as const)('with a damper dies away as its pole %f ± %fi says', (real, imaginary) => {
    const pole = [real, imaginary] as const;
    const plant = letGo(pole, 1500);
    // watched on the mass that moves more: 1 mm of the sprung one in the slow mode, some 60 mm of the other in the fast
    const ratio = unsprungOverSprung(pole, 1500);
    const [body, re, im] = Math.hypot(...ratio) > 1 ? ([1, ...ratio] as const) : ([2, 1, 0] as const);
    const size = 1e-3 * Math.hypot(re, im);
    let worst = 0;
    run(plant, 1e-4, 2 / -real, (now) => {
      const wanted =
        1e-3 * Math.exp(real * now) * (re * Math.cos(imaginary * now) - im * Math.sin(imaginary * now));
      worst = Math.max(worst, Math.abs((plant.k.z[body] as number) - wanted));
    });
    // the velocity of a substep is half a substep late: an error of h·ω/2, 0.33 % at 0.1 ms and 66 rad/s
    expect(worst).toBeLessThan(0.005 * size);
  });
});

describe('a mass on spring and damper', () => {
  // 2.5 kg, 900 N/m, 18 N·s/m: damping ratio 0.18973666, decrement 1.2142066, overshoot 0.54492707 (any vibration text)
  const plant = () => {
    const links = [{ name: 'mass', mass: 2.5, centre: { x: 0, z: 0 }, inertia: 1, slide: up }];
    return plantOf(
      mechanismOf({
        gravity: g,
        links,
        elements: [spring(alongJoint(0), 900), dashpot(alongJoint(0), 18)],
        size: 0.1,
      }),
    );
  };
  const rest = (-2.5 * g) / 900;

  it('overshoots its sag by 54.49 % when let go, and loses the decrement 1.2142 with every swing', () => {
    const mass = plant();
    const heights = samplesOf(mass, 2e-4, 1.2, () => mass.k.z[1] as number).map((s) => s.value);
    const peaks = heights.filter(
      (z, i) =>
        i > 0 && i < heights.length - 1 && z <= (heights[i - 1] as number) && z < (heights[i + 1] as number),
    );
    const [first, second] = peaks.map((z) => (rest - z) / -rest) as [number, number];
    // 5000 substeps of 0.2 ms, first order in h·ω = 0.004: 0.2 %
    expect(away(first, 0.54492707)).toBeLessThan(0.005);
    expect(away(Math.log(first / second), 1.2142066)).toBeLessThan(0.005);
  });

  it.each([
    [0.01, 4.9848792],
    [0.15, 1.2870903],
  ])('without the damper swings as its sag of %f m says: %f Hz', (sag, hertz) => {
    const links = [{ name: 'mass', mass: 1, centre: { x: 0, z: 0 }, inertia: 1, slide: up }];
    const mass = plantOf(
      mechanismOf({ gravity: g, links, elements: [spring(alongJoint(0), g / sag)], size: 0.1 }),
    );
    const samples = samplesOf(mass, 2e-3, 20 / hertz, () => (mass.k.z[1] as number) + sag);
    expect(away(frequencyOf(samples) / (2 * Math.PI), hertz)).toBeLessThan(0.005);
  });
});

// --- Half car ------------------------------------------------------------------------------------------------------

describe('a half car', () => {
  // Rao, Mechanical Vibrations, two degrees of freedom, "frequencies and modes of an automobile": 5.8593 and
  // 9.4341 rad/s, X/Θ −2.6461 and 0.3061 m (source from memory, digits recomputed).
  const lift = (x: number): Coordinate => ({ kind: 'lift', body: 1, at: { x, z: 0 }, parent: 0 });
  const car = mechanismOf({
    links: [{ name: 'car', mass: 1000, centre: { x: 0, z: 0 }, inertia: 810 }],
    elements: [spring(lift(1), 18_000), spring(lift(-1.5), 22_000)],
    size: 0.3,
  });
  const expected = [
    { omega: 5.85929, ratio: -2.64611 },
    { omega: 9.43409, ratio: 0.30611 },
  ];

  it.each(expected)('swings freely at $omega rad/s in its own mode', ({ omega, ratio }) => {
    const plant = plantOf(car);
    // the source's Θ is positive in the sense that couples by +(kr·l2 − kf·l1): nose down, against ours
    const angle = -1e-4;
    plant.world.put(1, { x: 0, z: -ratio * angle, angle }, 0, 0, 0);
    plant.world.read(plant.k);
    let apart = 0;
    const heaves = samplesOf(plant, 2e-3, (20 * 2 * Math.PI) / omega, () => {
      apart = Math.max(apart, Math.abs((plant.k.z[1] as number) + ratio * (plant.k.angle[1] as number)));
      return plant.k.z[1] as number;
    });
    expect(away(frequencyOf(heaves), omega)).toBeLessThan(0.005);
    // bounce and pitch keep the mode's own ratio: five printed digits leave 4e-6 of the other mode
    expect(apart).toBeLessThan(1e-3 * Math.abs(ratio * angle));
  });

  it('has these frequencies in the small-motion analysis, to six printed digits', () => {
    const found = modesOf(car, 'standing', 0).frequencies.filter((w) => w > 1);
    expect(found.length).toBe(2);
    found.forEach((omega, i) => {
      expect(Math.abs(omega - (expected[i]?.omega ?? 0))).toBeLessThan(5e-6);
    });
  });
});

// --- On a tyre -----------------------------------------------------------------------------------------------------

describe('a quarter car on a tyre', () => {
  const radius = 0.055;
  const load = 20;
  const [ms, mu, ks] = [1.7, 0.3, 2000];
  const standing = (ms + mu) * g;
  const tyre = lineTyre(
    { stiffnessPerWheel: 8000, loadPerWheel: load, damping: 0, grip: 0.8, rolling: 0 },
    radius,
    1,
    load,
    1e-4,
  );

  /** Depth at which the level ground carries this load, m, by halving: the closed form stands in sim/PHYSICS.md. */
  const depthUnder = (force: number) => {
    let [low, high] = [0, 0.5 * radius];
    for (let n = 0; n < 60; n++) {
      const middle = 0.5 * (low + high);
      const p = radius - middle;
      const u = Math.sqrt(radius ** 2 - p ** 2);
      if (2 * tyre.foundation * (radius * Math.asinh(u / p) - u) < force) low = middle;
      else high = middle;
    }
    return low;
  };
  const depth = depthUnder(standing);
  // tangent of the same closed form: dN/dδ = 2·k·u/p
  const tangent = (2 * tyre.foundation * Math.sqrt(radius ** 2 - (radius - depth) ** 2)) / (radius - depth);
  /** Roots ω² of ms·mu·ω⁴ − (ms(ks + kt) + mu·ks)·ω² + ks·kt = 0. */
  const roots = (() => {
    const [a, b, c] = [ms * mu, -(ms * (ks + tangent) + mu * ks), ks * tangent];
    const root = Math.sqrt(b * b - 4 * a * c);
    return [(-b - root) / (2 * a), (-b + root) / (2 * a)].map(Math.sqrt);
  })();

  const wheel: Wheel = {
    name: 'wheel',
    axle: 1,
    count: 1,
    body: 1,
    hub: { x: 0, z: 0 },
    radius,
    mass: mu,
    inertia: 1e-4,
    tyre,
    reactions: [{ body: 1, share: 1 }],
    driven: false,
    torqueLimit: 0,
  };
  const car = mechanismOf({
    gravity: g,
    links: [
      { name: 'unsprung', mass: mu, centre: { x: 0, z: 0 }, inertia: 1e-4, slide: up },
      { name: 'sprung', mass: ms, centre: { x: 0, z: 0 }, inertia: 1e-2, parent: 1, slide: up },
    ],
    elements: [spring(alongJoint(1), ks)],
    wheels: [wheel],
    size: radius,
  });

  it.each([0, 1])(
    'swings about its standing position at the frequency %i of the tyre as it is pressed there',
    (mode) => {
      const omega = roots[mode] as number;
      const plant = plantOf(car, groundOf([{ kind: 'flat', length: 1 }]));
      const ratio = 1 - (ms * omega * omega) / ks;
      // a hundredth of the tyre's depth: its stiffness changes by 0.5 % up and down, which cancels to 10⁻⁵ over a swing
      const amplitude = (0.01 * depth) / Math.max(1, Math.abs(ratio));
      const level = radius - depth;
      plant.world.put(1, { x: 0, z: level + amplitude * ratio, angle: 0 }, 0, 0, 0);
      plant.world.put(2, { x: 0, z: level - (ms * g) / ks + amplitude, angle: 0 }, 0, 0, 0);
      plant.world.read(plant.k);
      const samples = samplesOf(
        plant,
        0.25 / (roots[1] as number) / 4,
        (20 * 2 * Math.PI) / omega,
        () => (plant.k.z[2] as number) - level + (ms * g) / ks,
      );
      expect(away(frequencyOf(samples), omega)).toBeLessThan(0.005);
    },
  );

  it('has nearly these frequencies in the small-motion analysis, whose tyre is the shallow one', () => {
    // the analysis serves the choice of the substep and takes N ~ δ^1.5, right to some parts of δ/r = 0.045
    modesOf(car, 'standing', 0).frequencies.forEach((omega, i) => {
      expect(away(omega, roots[i] as number)).toBeLessThan(0.02);
    });
  });
});

describe('a whole truck on four springs', () => {
  it('bounces as the sag of its springs and tyres together says', () => {
    // two equal axles without unsprung mass to speak of, centre of gravity in the middle: ω² = c/m with c the tangent of
    // spring and tyre in series, found from the tyre's closed form as above
    const radius = 0.055;
    const part = (name: string, x: number) => ({
      member: { name, kind: 'guided-axle' as const, at: { x, z: radius } },
      element: {
        name: `${name} spring`,
        kind: 'linear-spring' as const,
        on: { member: name },
        rate: 2000,
        preload: 10,
      },
      axle: {
        name,
        at: { x, z: radius },
        on: name,
        radius,
        mass: 0.01,
        stiffness: 8000,
        load: 15,
        damping: 0,
      },
    });
    const parts = [part('front', 0.15), part('rear', -0.15)];
    const mass = 30 / g;
    const { plant } = standOf({
      mass,
      cg: { x: 0, z: 0.08 },
      axles: parts.map((p) => p.axle),
      members: parts.map((p) => p.member),
      elements: parts.map((p) => p.element),
    });
    const depth = 15 / 8000;
    const p = radius - depth;
    const u = Math.sqrt(radius ** 2 - p ** 2);
    const tangent = (15 * u) / (p * (radius * Math.asinh(u / p) - u));
    const omega = Math.sqrt(2 / (1 / 2000 + 1 / tangent) / (mass - 0.02));
    const poses = plant.world.poses();
    poses.forEach((pose, i) => {
      plant.world.put(
        i,
        { ...pose, z: pose.z + (i === 0 ? 2e-5 : (2e-5 * 2000) / (2000 + tangent)) },
        0,
        0,
        0,
      );
    });
    plant.world.read(plant.k);
    const rest = poses[0]?.z ?? 0;
    const samples = samplesOf(plant, 1e-4, (10 * 2 * Math.PI) / omega, () => (plant.k.z[0] as number) - rest);
    // 10 g of wheel at each end of 1.5 kg, moving by a quarter: 0.05 % of the frequency
    expect(away(frequencyOf(samples), omega)).toBeLessThan(0.005);
  });
});
