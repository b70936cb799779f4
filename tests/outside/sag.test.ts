/*
 * How far a standing vehicle sinks: springs, arms on torsion bars and tyres against closed form, within 0.1 %.
 *
 * Seen red: a preload with the wrong sign; the tyre's foundation from the shallow-contact formula; an arm's turn always
 * taken as positive.
 */
import { describe, expect, it } from 'vitest';
import { g, type Rig, standOf } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;
const radius = 0.055;

/** Within 0.1 %. */
const agrees = (found: number, expected: number) =>
  expect(Math.abs(found / expected - 1), `${found} for ${expected}`).toBeLessThan(1e-3);

describe('a vehicle on two equal sprung axles', () => {
  // 40 N of body on two springs of 2 N/mm that push with 8 N as drawn; wheels of 3 N each on tyres of 5 N/mm
  const [sprung, unsprung] = [40, 3];
  const part = (name: string, x: number) => ({
    member: { name, kind: 'guided-axle' as const, at: { x, z: radius } },
    element: {
      name: `${name} spring`,
      kind: 'linear-spring' as const,
      on: { member: name },
      rate: 2000,
      preload: 8,
    },
    axle: {
      name,
      at: { x, z: radius },
      on: name,
      radius,
      mass: unsprung / g,
      stiffness: 5000,
      load: 0.5 * sprung + unsprung,
    },
  });
  const parts = [part('front', 0.15), part('rear', -0.15)];
  const rig: Rig = {
    mass: (sprung + 2 * unsprung) / g,
    cg: { x: 0, z: 0.1 },
    axles: parts.map((p) => p.axle),
    members: parts.map((p) => p.member),
    elements: parts.map((p) => p.element),
  };
  const { standing, plant } = standOf(rig);

  it('presses each spring by the load above its preload over its rate', () => {
    // Hooke's law: (20 − 8) N over 2 N/mm
    for (const travel of standing.travels) agrees(travel, 0.006);
  });

  it('presses each tyre by its load over its stiffness, at the load for which that is stated', () => {
    for (const w of plant.wheels) agrees(w.line.depth, 23 / 5000);
  });

  it('lowers the chassis by both', () => {
    agrees(-(standing.poses[0]?.z ?? 0), 0.006 + 23 / 5000);
  });

  it('stores ½·F²/c in the springs', () => {
    agrees(standing.stored, 2 * ((0.5 * 20 ** 2) / 2000));
  });
});

describe('a tyre under twice its stated load', () => {
  it('gives way as the integral over its rim says', () => {
    // Every rim angle φ from the foot is a spring of length r − p/cos φ: N = 2·k·∫(r − p/cos φ)/cos φ dφ up to
    // cos φ = p/r, summed here in 20,000 strips (midpoint rule, error under 10⁻⁷) at the depth that the stand found.
    const load = 12;
    const axle = (name: string, x: number) => ({
      name,
      at: { x, z: radius },
      radius,
      mass: 0.05,
      stiffness: 4000,
      load,
    });
    const { plant } = standOf({
      mass: (4 * load) / g,
      cg: { x: 0, z: 0.09 },
      axles: [axle('front', 0.15), axle('rear', -0.15)],
    });
    const strips = (depth: number) => {
      const p = radius - depth;
      const end = Math.acos(p / radius);
      const step = end / 20_000;
      return [...Array(20_000).keys()].reduce((sum, i) => {
        const cosine = Math.cos((i + 0.5) * step);
        return sum + ((2 * (radius - p / cosine)) / cosine) * step;
      }, 0);
    };
    const depth = plant.wheels[0]?.line.depth ?? 0;
    agrees(strips(depth) / strips(load / 4000), 2);
    // and so by less than twice as much: a round tyre stiffens
    expect(depth).toBeLessThan((2 * load) / 4000);
  });
});

describe('an arm on a torsion bar', () => {
  it('swings up until the bar balances the load on its lever as it then stands', () => {
    // Bar 2 N·m/rad, arm 40 mm, free at 30° below level, 4.9 N at the wheel: 2·(30° − a) = 4.9·0.040·cos a, so
    // a = 24.9073°. Virtual work; the same form stands in Reimpell, The Automotive Chassis (from memory). A leading and
    // a trailing arm, mirror images, keep the body level.
    const side = (name: string, way: 1 | -1) => {
      const pivot = { x: way * 0.1, z: 0.09 };
      const end = {
        x: pivot.x + way * 0.04 * Math.cos(30 * degree),
        z: pivot.z - 0.04 * Math.sin(30 * degree),
      };
      return {
        member: { name, kind: 'arm' as const, pivot, end },
        element: { name: `${name} bar`, kind: 'torsion-bar' as const, on: { member: name }, rate: 2 },
        mass: { on: name, mass: 0.001, at: end, inertia: 1e-6 },
        axle: { name, at: end, on: name, radius, mass: 0.01, stiffness: 1e5, load: 5 },
      };
    };
    const sides = [side('front', 1), side('rear', -1)];
    const { standing } = standOf({
      mass: (2 * 4.9) / g + 0.022,
      cg: { x: 0, z: 0.09 },
      axles: sides.map((s) => s.axle),
      members: sides.map((s) => s.member),
      elements: sides.map((s) => s.element),
      masses: sides.map((s) => s.mass),
    });
    for (const turned of standing.motions) agrees(30 * degree - turned, 24.9073 * degree);
  });
});
