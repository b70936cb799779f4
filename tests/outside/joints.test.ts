/*
 * Forces in joints and members against free bodies worked out by hand, and against tables.
 *
 * Rigs stand on tyres of 10⁶ N/m for some 5 N (5 micrometres deep on 40 mm: 0.013 %); wheels, beams and housings weigh
 * 1 mN each, 0.02 % of a wheel load. Two or three of these come together in a force: the bar is 0.1 % unless it says
 * something else.
 *
 * Seen red: moments of a cut taken about the next cut; both halves of a beam counted; the drive's reaction put at the
 * pivot instead of the hub; tension of rods with the other sign; α of a rectangle with its short side to the first power.
 */
import { describe, expect, it } from 'vitest';
import { type Channel, column, type Recording } from '../../shared/recording.ts';
import { rectangleTorsionFactor, torsionModulus } from '../../sim/elements/section.ts';
import { jointReports } from '../../sim/joints/peaks.ts';
import { Replay } from '../../sim/joints/replay.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import { g, groundOf, type Rig, type RigAxle, scenarioOf } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const radius = 0.04;

const axle = (name: string, x: number, on: string, z = radius): RigAxle => ({
  name,
  at: { x, z },
  on,
  radius,
  mass: 1e-4,
  inertia: 1e-7,
  stiffness: 1e6,
  load: 5,
  grip: 3,
});

/** A member of next to no weight with its mass at this place. */
const light = (on: string, x: number, z = radius) => ({ on, mass: 1e-4, at: { x, z }, inertia: 1e-7 });

/** The rig at the first station of a crawl, with a way to read its columns there. */
function held(rig: Rig): {
  mechanism: Mechanism;
  recording: Recording;
  at: (channel: Channel, of: string) => number;
} {
  const scenario = scenarioOf({ run: { start: 50, until: 50.01 }, ...rig });
  const mechanism = compile(scenario);
  const ground = groundOf(scenario.ground);
  const { start, until } = courseOf(scenario, ground);
  const recording = crawlOver(mechanism, ground, { start, until, stations: 2, regardless: true });
  expect(JSON.stringify(recording.end)).toContain('arrived');
  const at = (channel: Channel, of: string) => {
    const index = recording.columns
      .filter((head) => head.channel === channel)
      .findIndex((head) => head.of === of);
    return column(recording, channel, index)[0] as number;
  };
  return { mechanism, recording, at };
}

/** A force or moment within a share of what is expected; `bar` 0.1 % unless told. */
function close(found: number, expected: number, bar = 1e-3): void {
  expect(Math.abs(found - expected), `${found} for ${expected}`).toBeLessThan(
    bar * Math.max(Math.abs(expected), 1e-3),
  );
}

/** Chassis of 20 N with a free front axle 0.4 m ahead of its middle and a bogie 0.4 m behind that takes `load` N. */
function bogieRig(load: number, parts: Pick<Rig, 'axles' | 'members' | 'masses'>, run: Rig['run'] = {}): Rig {
  // lever: the bogie's share of the chassis; members and wheels come on top
  const own =
    parts.axles.reduce((sum, a) => sum + a.mass, 1e-4) +
    (parts.masses ?? []).reduce((sum, m) => sum + m.mass, 0);
  const place = 0.4 - (0.8 * load) / 20;
  const moment = [axle('front', 0.4, 'chassis'), ...parts.axles, ...(parts.masses ?? [])].reduce(
    (sum, p) => sum + p.mass * p.at.x,
    0,
  );
  const mass = 20 / g + own;
  return {
    mass,
    cg: { x: ((20 / g) * place + moment) / mass, z: 0.05 },
    ...parts,
    axles: [axle('front', 0.4, 'chassis'), ...parts.axles],
    drive: { driven: parts.axles.map(({ name }) => name), speed: 0.1 },
    run: { start: 50, until: 50.01, ...run },
  };
}

const beam = (arms: { front: number; rear: number }, height = radius) => ({
  name: 'beam',
  kind: 'bogie-beam' as const,
  pivot: { x: -0.4, z: height },
  front: { x: -0.4 + arms.front, z: radius },
  rear: { x: -0.4 - arms.rear, z: radius },
});

// Simply supported beam under one load: M = W·a·b/L under the load, shear W·b/L and W·a/L. Roark's Formulas for Stress and
// Strain, beams (place from memory); half the span each: W·a/2.
describe.each([
  { load: 10, front: 0.05, rear: 0.05, moment: 0.25, shear: 5 },
  { load: 12, front: 0.055, rear: 0.045, moment: 0.297, shear: 6.6 },
])('a bogie beam of $front and $rear m under $load N', ({ load, front, rear, moment, shear }) => {
  const b = beam({ front, rear });
  const { at, mechanism, recording } = held(
    bogieRig(load, {
      axles: [axle('leading', b.front.x, 'beam'), axle('trailing', b.rear.x, 'beam')],
      members: [b],
      masses: [light('beam', -0.4)],
    }),
  );

  it('bends by W·a·b/L at its pivot, and is sheared by the load of the shorter arm', () => {
    close(at('bending', 'beam'), moment);
    close(at('bendingAt', 'beam'), rear);
    close(at('shear', 'beam'), shear);
    // as level as its tyres are alike: 12 % more on one of them is 0.6 micrometres on 100 mm
    expect(Math.abs(at('axial', 'beam'))).toBeLessThan(1e-5 * load);
    close(Math.hypot(at('pinX', 'beam'), at('pinZ', 'beam')), load);
  });

  it('has a moment that falls straight to nothing at both ends, pressed on its upper side', () => {
    const replay = new Replay(mechanism, recording);
    replay.at(0);
    const points = replay.diagram(0);
    close(points[0]?.bending ?? Number.NaN, 0);
    close(points.at(-1)?.bending ?? Number.NaN, 0);
    close(Math.max(...points.map(({ bending }) => bending)), moment);
    // at a quarter of the front arm from the pivot: three quarters of the moment, whatever lies between
    const before = points.filter(({ way }) => way >= rear);
    for (const { way, bending } of before) close(bending, moment * (1 - (way - rear) / front));
  });
});

// Free body of bogie and wheels about the pivot: N_f − N_r = −F·h/a; derived here.
describe('a driven bogie with motors on its beam, 12 N and a pull of 4 N', () => {
  const b = beam({ front: 0.05, rear: 0.05 });
  const { at } = held(
    bogieRig(
      12,
      {
        axles: [axle('leading', b.front.x, 'beam'), axle('trailing', b.rear.x, 'beam')],
        members: [b],
        masses: [light('beam', -0.4)],
      },
      { pulls: [{ name: 'rope', on: 'chassis', at: b.pivot, force: 4, angle: Math.PI }] },
    ),
  );
  const [leading, trailing] = [4.4, 7.6];

  it('loads its wheels with 4.4 and 7.6 N', () => {
    close(at('groundZ', 'leading'), leading);
    close(at('groundZ', 'trailing'), trailing);
  });

  it('is held back by 4 N and pressed down by 12 N at its pin', () => {
    close(at('pinX', 'beam'), -4);
    close(at('pinZ', 'beam'), -12);
  });

  it('bends alike on both sides of its pin, where loads and reactions of the drive meet', () => {
    // locked: thrust in proportion to load; cut in front of the pin and behind it
    const [front, rear] = [(4 * leading) / 12, (4 * trailing) / 12];
    expect(leading * 0.05 + front * radius).toBeCloseTo(trailing * 0.05 - rear * radius, 9);
    close(at('bending', 'beam'), leading * 0.05 + front * radius);
    // the rear wheels push the rear half forward against the pin
    close(at('axial', 'beam'), -rear);
  });
});

// Free body of one axle about its hub: P·u = F·r; the beam's end carries F + P; derived here.
describe.each([
  { lean: 0, upright: 0 },
  { lean: 8 * degree, upright: 0.37477556 },
])('a driven bogie with torque rods that rise by $lean rad, 2 N per axle', ({ lean, upright }) => {
  const b = beam({ front: 0.1, rear: 0.1 });
  const [u, length] = [0.03, 0.06];
  const housing = (name: string, x: number) => ({
    name,
    kind: 'housing' as const,
    on: 'beam',
    pivot: { x, z: radius },
  });
  const rod = (name: string, x: number, on: string) => ({
    name,
    kind: 'rod' as const,
    from: { on: 'chassis', x: x + length, z: radius + u + length * Math.tan(lean) },
    to: { on, x, z: radius + u },
  });
  const { at } = held(
    bogieRig(
      12,
      {
        axles: [axle('leading', b.front.x, 'first'), axle('trailing', b.rear.x, 'second')],
        members: [
          b,
          housing('first', b.front.x),
          housing('second', b.rear.x),
          rod('first rod', b.front.x, 'first'),
          rod('second rod', b.rear.x, 'second'),
        ],
        masses: [light('beam', -0.4), light('first', b.front.x), light('second', b.rear.x)],
      },
      { pulls: [{ name: 'rope', on: 'chassis', at: b.pivot, force: 4, angle: Math.PI }] },
    ),
  );

  it('pulls its rods by F·r/u along the level', () => {
    for (const name of ['first rod', 'second rod']) {
      close(at('rodTension', name) * Math.cos(lean), 2.6666667);
      close(at('rodTension', name) * Math.sin(lean), upright);
    }
  });

  it('holds its axles back by F + P at the ends of the beam, and loads both wheels alike', () => {
    for (const name of ['first', 'second']) close(at('pinX', name), -4.6666667);
    close(at('pinX', 'beam'), -2 * 4.6666667);
    // 0.1 % of what each carries
    expect(Math.abs(at('groundZ', 'leading') - at('groundZ', 'trailing'))).toBeLessThan(6e-3);
  });
});

// Trailing arm on a torsion bar, k·(a₀ − a) = F·R·cos a: derivative of the force law; the same form in Reimpell, The
// Automotive Chassis (from memory). Round bar: π·G·d⁴/(32·L), 16·T/(π·d³), any text on strength of materials.
describe('arms of 40 mm on bars of 2 N·m/rad that hang 30 degrees below the level, 4.9 N on each wheel', () => {
  const [length, drawn, standing, force] = [0.04, 30 * degree, 24.9073 * degree, 4.9];
  const torque = force * length * Math.cos(standing);
  const drop = { x: length * Math.cos(drawn), z: length * Math.sin(drawn) };
  const arm = (name: string, x: number, sense: number) => ({
    name,
    kind: 'arm' as const,
    pivot: { x, z: radius + drop.z },
    end: { x: x + sense * drop.x, z: radius },
  });
  const bar = (name: string) => ({
    name: `${name} bar`,
    kind: 'torsion-bar' as const,
    on: { member: name },
    count: 2,
    // two bars of 1 N·m/rad each
    bar: {
      section: { shape: 'round' as const, diameter: 0.002 },
      length: (80e9 * Math.PI * 0.002 ** 4) / 32,
      shearModulus: 80e9,
    },
  });
  const arms = [arm('leading', 0.2, 1), arm('trailing', -0.2, -1)];
  const masses = arms.map(({ name, pivot }) => ({ ...light(name, pivot.x, pivot.z), mass: 1e-5 }));
  const { at, mechanism, recording } = held({
    mass: (2 * force) / g + 2e-4 + 2e-5,
    cg: { x: 0, z: 0.08 },
    axles: arms.map(({ name, end }) => axle(`${name} wheel`, end.x, name)),
    members: arms,
    elements: arms.map(({ name }) => bar(name)),
    masses,
    drive: { speed: 0.1 },
  });

  it('come to stand 24.9073 degrees below the level', () => {
    for (const name of ['leading', 'trailing']) close(at('motion', name), drawn - standing, 2e-4);
  });

  it('carry F·cos a across, F·sin a along as a push, and the torque of their bars at the pivot', () => {
    for (const name of ['leading', 'trailing']) {
      close(at('shear', name), force * Math.cos(standing), 2e-4);
      close(at('axial', name), -force * Math.sin(standing), 2e-4);
      close(at('bending', name), torque, 2e-4);
      close(at('elementEffort', `${name} bar`), -torque, 2e-4);
      close(Math.hypot(at('pinX', name), at('pinZ', name)), force, 2e-4);
    }
  });

  it('twist each bar by what the arm has turned, and stress it by 16·T/(π·d³)', () => {
    const rows = jointReports(mechanism, recording).filter(({ of }) => of === 'trailing bar');
    const value = (quantity: string) => rows.find((row) => row.quantity === quantity)?.value ?? Number.NaN;
    close(value('twist'), drawn - standing, 2e-4);
    close(value('stress'), (16 * torque) / 2 / (Math.PI * 0.002 ** 3), 2e-4);
    expect(rows.find(({ quantity }) => quantity === 'effort')?.each).toBeCloseTo(value('effort') / 2, 12);
  });
});

// Free body of the axle: the guide takes the thrust across and the reaction of the drive as a moment; derived here.
describe('a driven axle on an upright guide, pulled by 4 N', () => {
  const { at } = held({
    ...bogieRig(
      12,
      {
        axles: [axle('rear', -0.4, 'guided')],
        members: [{ name: 'guided', kind: 'guided-axle', at: { x: -0.4, z: radius } }],
        masses: [light('guided', -0.4)],
      },
      { pulls: [{ name: 'rope', on: 'chassis', at: { x: -0.4, z: radius }, force: 4, angle: Math.PI }] },
    ),
    elements: [{ name: 'spring', kind: 'linear-spring', on: { member: 'guided' }, rate: 1e5, preload: 12 }],
  });

  it('leans on it by 4 N, and twists it by 4 N at the wheel radius', () => {
    close(at('pinX', 'guided'), -4);
    // upright to within what the chassis leans: micrometres over 0.8 m
    expect(Math.abs(at('pinZ', 'guided'))).toBeLessThan(1e-3);
    close(at('pinMoment', 'guided'), -4 * radius);
    // the moment that goes through the guide, over the 0.8 m to the front axle, comes to the 12 N
    close(at('elementEffort', 'spring'), -12 - (4 * radius) / 0.8);
  });
});

describe('the stress of a twisted bar', () => {
  it('is 190.98593 MPa in 2 mm of round steel under 0.3 N·m', () => {
    // 16·T/(π·d³), any text on strength of materials
    expect(0.3 / torsionModulus({ shape: 'round', diameter: 0.002 }) / 1e6).toBeCloseTo(190.98593, 5);
  });

  it('is that of the round bar in a tube with a pin hole, and of a thin ring by 2·A·t', () => {
    // Bredt's first formula, T = 2·A·t·τ, for thin walls: right to the wall over the diameter, 1e-4 here
    const thin = torsionModulus({ shape: 'tube', outside: 0.02, inside: 0.02 - 4e-6 });
    expect(thin / (2 * (Math.PI / 4) * 0.02 ** 2 * 2e-6)).toBeCloseTo(1, 3);
    expect(torsionModulus({ shape: 'tube', outside: 0.02, inside: 1e-5 })).toBeCloseTo(
      (Math.PI * 0.02 ** 3) / 16,
      12,
    );
  });

  // α in τ = T/(α·long·short²): Timoshenko & Goodier, Theory of Elasticity, torsion of rectangles, three digits printed;
  // five digits by the same series summed elsewhere
  it.each([
    [1, 0.208, 0.20817],
    [2, 0.246, 0.24588],
    [10, 0.312, 0.31233],
  ])('follows the tabled factor in a rectangle of %d : 1', (ratio, tabled, digits) => {
    const alpha =
      torsionModulus({ shape: 'rectangle', width: ratio * 0.003, height: 0.003 }) / (ratio * 0.003 ** 3);
    expect(Math.abs(alpha - tabled)).toBeLessThanOrEqual(0.0005);
    expect(Math.abs(alpha - digits)).toBeLessThanOrEqual(1e-5);
  });

  it('of a plus lies between a strip of its arms and its square, and meets the square', () => {
    const plus = (arm: number) => torsionModulus({ shape: 'plus', width: 0.0048, arm });
    // two thin strips: W = (2/3)·width·arm², less what they share in the middle
    expect(plus(0.00048) / ((2 / 3) * 0.0048 * 0.00048 ** 2)).toBeCloseTo(1, 1);
    expect(plus(0.0048)).toBeCloseTo(
      torsionModulus({ shape: 'rectangle', width: 0.0048, height: 0.0048 }),
      15,
    );
    expect(rectangleTorsionFactor(1)).toBeLessThan(0.20817);
  });
});
