/*
 * What drive torque does to the loads of a bogie, what a torque rod carries, which grip a step and a grade ask for:
 * the balance against free bodies worked out by hand. Tyres as hard as steel, wheels of a gram.
 *
 * Seen red: the reaction of the drive left out; the sense of a gear train turned round; equal torque for a lock.
 */
import { describe, expect, it } from 'vitest';
import { column, type Recording } from '../../shared/recording.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { Balance } from '../../sim/statics/balance.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import { Solver } from '../../sim/statics/solve.ts';
import { g, groundOf, type Rig, type RigAxle, scenarioOf, slope } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;

const partsOf = (rig: Rig) => {
  const scenario = scenarioOf(rig);
  const ground = groundOf(scenario.ground);
  return { mechanism: compile(scenario), ground, course: courseOf(scenario, ground) };
};

/** Crosses as the rig's run says, with as much grip and torque as it takes. */
function crawlOf(rig: Rig, stations = 100): { crawl: Recording; mechanism: Mechanism } {
  const { mechanism, ground, course } = partsOf(rig);
  const crawl = crawlOver(mechanism, ground, {
    start: course.start,
    until: course.until,
    stations,
    regardless: true,
  });
  return { crawl, mechanism };
}

describe('a bogie that pulls', () => {
  // Moments of the bogie about its pivot at height H, wheels at ±a, pull F in all, wheel radius r. Torque from motors on
  // the beam: Nf − Nr = −F·H/a; from the chassis: −F·(H − r)/a; through a train in the beam, from a shaft at the pivot
  // with ratio i: −F·(H − s·r/i)/a, s = +1 where shaft and wheel turn alike. With F = 4 N, a = 50, r = H = 40 mm of a
  // bogie of 12 N: 4.4 and 7.6 N on the beam; 6 and 6 (s·i = 1); 4.9333333 and 7.0666667 (3); 3.8666667 and 8.1333333
  // (−3).
  const [arm, radius] = [0.05, 0.04];
  const train = (ratio: number, sense: 'same' | 'opposite') => ({ train: 'beam', ratio, sense });

  it.each([
    { says: 'motors on the beam', reacts: 'beam', pivot: 0.04, shift: -3.2 },
    { says: 'motors on the beam and a high pivot', reacts: 'beam', pivot: 0.06, shift: -4.8 },
    { says: 'torque from the chassis', reacts: 'chassis', pivot: 0.04, shift: 0 },
    { says: 'torque from the chassis and a high pivot', reacts: 'chassis', pivot: 0.06, shift: -1.6 },
    { says: 'a train 1:1 in the beam', reacts: train(1, 'same'), pivot: 0.04, shift: 0 },
    { says: 'a train 3:1 in the beam', reacts: train(3, 'same'), pivot: 0.04, shift: -2.1333333 },
    {
      says: 'a train 3:1 in the beam that turns the other way',
      reacts: train(3, 'opposite'),
      pivot: 0.04,
      shift: -4.2666667,
    },
    {
      says: 'a train 3:1 and the pivot at the height that cancels it',
      reacts: train(3, 'same'),
      pivot: 0.04 / 3,
      shift: 0,
    },
  ] as const)('with $says moves $shift N per 4 N from the rear to the front', ({ reacts, pivot, shift }) => {
    const wheel = { radius, mass: 0.001, stiffness: 1e7, load: 10 };
    const on = (name: string, x: number): RigAxle => ({
      ...wheel,
      name,
      at: { x, z: radius },
      on: 'beam',
      reaction: reacts as never,
    });
    const { crawl } = crawlOf(
      {
        mass: 3,
        cg: { x: -0.16, z: 0.06 },
        // what it has to pull: a front axle that rolls hard
        axles: [
          { ...wheel, name: 'front', at: { x: 0, z: radius }, rolling: 0.3 },
          on('leading', -0.25),
          on('trailing', -0.35),
        ],
        members: [
          {
            name: 'beam',
            kind: 'bogie-beam',
            pivot: { x: -0.3, z: pivot },
            front: { x: -0.25, z: radius },
            rear: { x: -0.35, z: radius },
          },
        ],
        masses: [{ on: 'beam', mass: 1e-4, at: { x: -0.3, z: pivot }, inertia: 1e-7 }],
        drive: { driven: ['leading', 'trailing'], torquePerWheel: 10, speed: 0.1 },
        run: { start: 10, until: 10.1 },
      },
      4,
    );
    const last = (channel: 'load' | 'thrust', w: number) => column(crawl, channel, w).at(-1) as number;
    const pull = last('thrust', 1) + last('thrust', 2);
    expect(pull).toBeGreaterThan(3);
    expect(Math.abs(pull + last('thrust', 0))).toBeLessThan(1e-6);
    // a micrometre of tyre leans the beam by 1e-5 under some 15 N
    expect((4 * (last('load', 1) - last('load', 2))) / pull).toBeCloseTo(shift, 3);
    // and the shift is the lever of the pull, whatever the loads
    expect(arm * (last('load', 1) - last('load', 2))).toBeCloseTo((pull * shift * arm) / 4, 3);
  });

  it.each([
    { lean: 0, rod: 2.6666667 },
    { lean: 8, rod: 2.6666667 / Math.cos(8 * degree) },
  ])(
    'with torque rods that lean $lean degrees keeps its wheel loads equal, and each rod carries $rod N',
    ({ lean, rod }) => {
      // Free body of one axle about its hub: pull 2 N at r = 40 mm, rod u = 30 mm above the hub: P = F·r/u = 2.6666667 N
      // along the level, more by 1/cos where it leans (its lever about the hub is then u·cos). Housings end on the beam.
      const wheel = { radius, mass: 0.001, stiffness: 1e7, load: 10 };
      const on = (name: string, x: number): RigAxle => ({
        ...wheel,
        name,
        at: { x, z: radius },
        on: `${name} housing`,
      });
      const housing = (name: string, x: number) => ({
        name: `${name} housing`,
        kind: 'housing' as const,
        on: 'beam',
        pivot: { x, z: radius },
      });
      const rodTo = (name: string, x: number) => ({
        name: `${name} rod`,
        kind: 'rod' as const,
        from: { on: 'chassis', x: x + 0.2, z: radius + 0.03 + 0.2 * Math.tan(lean * degree) },
        to: { on: `${name} housing`, x, z: radius + 0.03 },
      });
      const { mechanism, ground } = partsOf({
        mass: 3,
        cg: { x: -0.16, z: 0.06 },
        axles: [
          { ...wheel, name: 'front', at: { x: 0, z: radius }, rolling: 0.3 },
          on('leading', -0.25),
          on('trailing', -0.35),
        ],
        members: [
          {
            name: 'beam',
            kind: 'bogie-beam',
            pivot: { x: -0.3, z: radius },
            front: { x: -0.25, z: radius },
            rear: { x: -0.35, z: radius },
          },
          housing('leading', -0.25),
          housing('trailing', -0.35),
          rodTo('leading', -0.25),
          rodTo('trailing', -0.35),
        ],
        masses: ['beam', 'leading housing', 'trailing housing'].map((name, i) => ({
          on: name,
          mass: 1e-4,
          at: { x: [-0.3, -0.25, -0.35][i] as number, z: radius },
          inertia: 1e-7,
        })),
        drive: { driven: ['leading', 'trailing'], torquePerWheel: 10, speed: 0.1 },
      });
      const balance = new Balance(mechanism, ground, {
        thrust: { kind: 'driven', share: mechanism.drive.share },
        sense: 1,
        relaxed: true,
      });
      const y = new Float64Array(balance.count);
      expect(new Solver(balance).sink(y, 50, 2000).found).toBe(true);
      const [, leading, trailing] = balance.wheels.map((w) => w.fz) as [number, number, number];
      const pull = balance.wheels.slice(1).reduce((sum, w) => sum + w.fx, 0);
      expect(pull).toBeGreaterThan(3);
      expect(Math.abs(leading - trailing)).toBeLessThan(2e-3);
      for (const r of [0, 1])
        expect(Math.abs(((y[balance.rodRow + r] as number) * 4) / pull / rod - 1)).toBeLessThan(2e-3);
    },
  );
});

/** Wheelbase 320 mm, wheels of 120 mm, centre of gravity midway. */
const truck = (more: Partial<Rig>, driven: 'all' | string[] = 'all'): Rig => ({
  mass: 3,
  cg: { x: -0.16, z: 0.12 },
  axles: ['front', 'rear'].map((name, i) => ({
    name,
    at: { x: -0.32 * i, z: 0.06 },
    radius: 0.06,
    mass: 0.001,
    stiffness: 4e6,
    load: 12,
    grip: 1,
  })),
  drive: { driven, torquePerWheel: 10, speed: 0.1 },
  ...more,
});

describe('the front axle on a step asks for a grip of', () => {
  // Free body as in Wong, Theory of Ground Vehicles, obstacle section (place from memory): μ·Nr = Nf·(s − μc),
  // Nr + Nf·(c + μs) = W, moments about the rear contact; without drive at the front, no μ at Nf. Solved by bisection in
  // the catalogue that the figures are from; wheelbase 16/3 radii.
  it.each([
    { drives: 'all' as const, grip: 0.3, height: 0.20509 },
    { drives: 'all' as const, grip: 0.5, height: 0.54936 },
    { drives: 'all' as const, grip: 0.7, height: 0.94786 },
    { drives: ['rear'], grip: 0.5, height: 0.14834 },
    { drives: ['rear'], grip: 0.7, height: 0.27469 },
  ])('$grip for $height radii, driven at $drives', ({ drives, grip, height }) => {
    const h = height * 0.06;
    const reach = Math.sqrt(2 * 0.06 * h - h * h);
    const ground: Rig['ground'] = [
      { kind: 'flat', length: 10 },
      { kind: 'step', height: h, length: 10 },
    ];
    const { crawl } = crawlOf(
      truck({ ground, run: { start: 10 - reach - 0.002, until: 10 - 0.7 * reach } }, drives),
      400,
    );
    const use = column(crawl, 'gripUse', 1);
    // It is most where the lower ground has just let go. The tyre is 3 µm deep there, which takes
    // δ/h off the height: 1 in 3000 at the lowest, where the grip goes with the square root of it.
    const front = column(crawl, 'gripUse', 0);
    const most = Math.max(...use.map((v, i) => Math.max(v, drives === 'all' ? (front[i] as number) : 0)));
    expect(Math.abs(most / grip - 1)).toBeLessThan(0.005);
  });
});

describe('a grade asks for a grip of 0.8', () => {
  // Gillespie, Wong: gradeability equations (places from memory), h/L = 0.375, centre of gravity mid-wheelbase. All
  // axles locked: atan μ. Rear: tan = μ(a/L)/(1 − μh/L). Front: tan = μ(b/L)/(1 + μh/L). An open differential between
  // the axles: twice what the weaker one holds.
  it.each([
    { says: 'all axles locked', driven: 'all' as const, sharing: 'locked' as const, limit: 38.6598 },
    { says: 'the rear axle alone', driven: ['rear'], sharing: 'locked' as const, limit: 29.7449 },
    { says: 'the front axle alone', driven: ['front'], sharing: 'locked' as const, limit: 17.1027 },
    {
      says: 'an open differential between the axles',
      driven: 'all' as const,
      sharing: 'open' as const,
      limit: 26.5651,
    },
  ])('at $limit degrees with $says', ({ driven, sharing, limit }) => {
    const rig = truck({ ground: slope(limit * degree), run: { start: 50, until: 50.05 } }, driven);
    const { crawl, mechanism } = crawlOf({ ...rig, drive: { ...rig.drive, sharing } }, 4);
    const greatest = Math.max(
      ...mechanism.wheels.map((w, i) =>
        w.driven
          ? (column(crawl, 'thrust', i).at(-1) as number) / (column(crawl, 'normal', i).at(-1) as number)
          : 0,
      ),
    );
    // tyres 12 µm deep lower the centre of gravity by 1e-4 of its height
    expect(greatest).toBeCloseTo(0.8, 3);
    expect(mechanism.mass * g).toBeCloseTo(29.43, 6);
  });
});
