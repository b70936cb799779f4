/*
 * Lines of members, and inner forces along lines that bend or carry brackets.
 * Seen red: lines left in the order of the document; a branching line strung together; the nearest way cut off at a corner
 * of the wrong piece; forces of a bracket taken at the line without their moment.
 */
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { JointForces } from '../../../sim/joints/forces.ts';
import { carryingJoints, memberLines, nearestWay, pointOnLine } from '../../../sim/joints/line.ts';
import { makeKinematics, setPose } from '../../../sim/mechanism/kinematics.ts';
import type { Mechanism, Member } from '../../../sim/mechanism/mechanism.ts';
import { mechanismOf, spring } from '../../rigs/linkage.ts';

const at = (x: number, z: number): Vec2 => ({ x, z });
const piece = (from: Vec2, to: Vec2, body = 1, weight: 'load' | 'cover' = 'load') => ({
  from: { body, at: from },
  to: { body, at: to },
  weight,
});

/** A link of next to no mass on a pin at the origin, with these lines. */
function linkWith(lines: Member['lines'], more: Partial<Mechanism> = {}): Mechanism {
  const base = mechanismOf({
    gravity: 9.81,
    links: [{ name: 'link', mass: 1e-15, centre: at(0, 0), inertia: 1, hinge: at(0, 0) }],
    size: 0.1,
  });
  const member: Member = { name: 'link', kind: 'arm', body: 1, unit: 'rad', lines, pins: [] };
  return { ...base, members: [member], ...more };
}

describe('the line of a member', () => {
  it('strings its pieces together from rear to front, however they are given', () => {
    const [a, b, c, d] = [at(-0.3, 0), at(-0.1, 0.1), at(0, 0), at(0.2, 0)] as const;
    for (const pieces of [
      [piece(a, b), piece(b, c), piece(c, d)],
      [piece(d, c), piece(a, b), piece(c, b)],
      [piece(b, c), piece(b, a), piece(d, c)],
    ])
      expect(memberLines(linkWith(pieces))[0]?.points).toEqual([a, b, c, d]);
  });

  it('runs upwards where its ends lie above each other', () => {
    expect(memberLines(linkWith([piece(at(0, 0.2), at(0, 0.1))]))[0]?.points).toEqual([
      at(0, 0.1),
      at(0, 0.2),
    ]);
  });

  it('counts its way corner by corner', () => {
    const [line] = memberLines(
      linkWith([piece(at(0, 0), at(0.03, 0.04)), piece(at(0.03, 0.04), at(0.13, 0.04))]),
    );
    expect(line?.ways.map((way) => Number(way.toFixed(12)))).toEqual([0, 0.05, 0.15]);
  });

  it.each([
    ['nothing to draw', []],
    ['covers only', [piece(at(0, 0), at(0.1, 0), 1, 'cover')]],
    ['a rod between two bodies', [{ ...piece(at(0, 0), at(0.1, 0)), from: { body: 0, at: at(0, 0) } }]],
    [
      'a line that branches',
      [piece(at(0, 0), at(0.1, 0)), piece(at(0.1, 0), at(0.2, 0)), piece(at(0.1, 0), at(0.1, 0.1))],
    ],
    ['no length', [piece(at(0.1, 0), at(0.1, 0))]],
  ] as const)('is not there for %s', (_name, lines) => {
    expect(memberLines(linkWith(lines))).toEqual([]);
  });

  it('finds the nearest place on it, and the point of a place', () => {
    const [line] = memberLines(linkWith([piece(at(0, 0), at(0.1, 0)), piece(at(0.1, 0), at(0.1, 0.1))]));
    if (!line) throw new Error('no line');
    for (const [p, way] of [
      [at(-0.05, 0.02), 0],
      [at(0.04, -0.03), 0.04],
      [at(0.12, 0.07), 0.17],
      [at(0.3, 0.3), 0.2],
    ] as const)
      expect(nearestWay(line, p)).toBeCloseTo(way, 12);
    expect(pointOnLine(line, 0.17)).toEqual(at(0.1, expect.closeTo(0.07, 12) as never));
    expect(pointOnLine(line, 9)).toEqual(at(0.1, 0.1));
  });
});

it('a body without a pin or guide has none that carries', () => {
  const loose = mechanismOf({ links: [{ name: 'loose', mass: 1, centre: at(0, 0), inertia: 1 }], size: 1 });
  expect(carryingJoints(loose)).toEqual([]);
});

describe('inner forces along a crank: 0.3 m forward, then 0.2 m up, held at its pin by a spring on the turn', () => {
  const [pin, corner, tip] = [at(0, 0), at(0.3, 0), at(0.3, 0.2)];
  const lines = [piece(pin, corner), piece(corner, tip)];

  /** The crank turned by an angle under a world force at a drawn point, with what its spring holds against it. */
  function crank(angle: number, point: Vec2, fx: number, fz: number) {
    const mechanism = linkWith(lines, {
      pulls: [{ name: 'pull', body: 1, at: point, fx, fz }],
      elements: [spring({ kind: 'joint', joint: 0 }, 1)],
    });
    const k = makeKinematics(2);
    setPose(k, mechanism, 1, { x: 0, z: 0, angle });
    const forces = new JointForces(mechanism);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const [px, pz] = [c * point.x - s * point.z, s * point.x + c * point.z];
    forces.given.effort[0] = -(px * fz - pz * fx);
    forces.solve(k);
    return { forces, points: forces.diagram(0, k) };
  }

  it.each([0, 0.7, -2])(
    'turned by %f rad carries a force along its last piece as a pull there and a bend before',
    (angle) => {
      const [fx, fz] = [-5 * Math.sin(angle), 5 * Math.cos(angle)];
      const { forces, points } = crank(angle, tip, fx, fz);
      expect(forces.axial[0]).toBeCloseTo(5, 12);
      // 5 N at 0.3 m from the pin, nothing along the upright
      expect(forces.bending[0]).toBeCloseTo(1.5, 12);
      expect(forces.bendingAt[0]).toBe(0);
      const upright = points.filter(({ way }) => way > 0.3 + 1e-9);
      expect(Math.max(...upright.map(({ bending }) => Math.abs(bending)))).toBeLessThan(1e-12);
      expect(points.map(({ way }) => way)).toEqual([0.5, 0.3, 0.3, 0]);
    },
  );

  it('carries a force across its last piece as bending round the corner, and as a pull in the first', () => {
    const { forces, points } = crank(0, tip, 4, 0);
    // along the first piece the moment stays as it is: the force runs beside it, 0.2 m off
    expect(points.map(({ bending }) => Number(bending.toFixed(12)))).toEqual([0, -0.8, -0.8, -0.8]);
    expect(points.map(({ shear }) => Number(Math.abs(shear).toFixed(12)))).toEqual([4, 4, 0, 0]);
    expect(forces.axial[0]).toBeCloseTo(4, 12);
  });

  it('takes a force on a bracket where the bracket meets the line, with its moment', () => {
    // 6 N forward on a point 0.05 m under the middle of the first piece
    const { points } = crank(0, at(0.15, -0.05), 6, 0);
    const jump = points.filter(({ way }) => Math.abs(way - 0.15) < 1e-9).map(({ bending }) => bending);
    expect(jump).toHaveLength(2);
    expect(Math.abs((jump[0] as number) - (jump[1] as number))).toBeCloseTo(0.3, 12);
    expect(points[0]?.axial).toBe(0);
    expect(points.at(-1)?.axial).toBeCloseTo(6, 12);
  });
});
