import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { heightAt } from '../../../sim/ground/query.ts';
import { layGround, loadScenario } from '../../../sim/index.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import {
  addGroundPoint,
  asPoints,
  chainObstacles,
  drawGround,
  groundPointsOf,
  moveGroundPoint,
  reorderEntry,
} from '../../../src/edits/ground.ts';
import { removeEntry } from '../../../src/edits/remove.ts';
import { kindsFor } from '../../../src/edits/sample.ts';
import { forward, simplified } from '../../../src/edits/simplify.ts';
import { snap } from '../../../src/edits/snap.ts';
import { smallTruck } from '../small-truck.ts';

function laid(document: Json) {
  const scenario = loadScenario(document);
  if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems));
  return layGround(scenario.value);
}

/** The small truck on 0.6 m of level, a 20 mm step of 1 m, and a table of four points. */
function onTable() {
  const document = smallTruck();
  document.ground.push({
    kind: 'table',
    points: [
      { station: '100 mm', height: '5 mm' },
      { station: '300 mm', height: '25 mm' },
      { station: '500 mm', height: '5 mm' },
      { station: '900 mm', height: '5 mm' },
    ],
  });
  return document;
}

/** Distance of a point from a line of points, m. */
function away(p: Vec2, line: readonly Vec2[]): number {
  return Math.min(
    ...line.slice(1).map((b, i) => {
      const a = line[i] as Vec2;
      const square = (b.x - a.x) ** 2 + (b.z - a.z) ** 2;
      const t = square === 0 ? 0 : ((p.x - a.x) * (b.x - a.x) + (p.z - a.z) * (b.z - a.z)) / square;
      const s = Math.max(0, Math.min(1, t));
      return Math.hypot(p.x - a.x - s * (b.x - a.x), p.z - a.z - s * (b.z - a.z));
    }),
  );
}

describe('Points of the ground', () => {
  test('lie in the world, behind the pieces before them', () => {
    const points = groundPointsOf(onTable()).map(({ at }) => [at.x.toFixed(4), at.z.toFixed(4)]);
    // The table begins at 1.6 m on the step's 20 mm.
    expect(points).toEqual([
      ['1.6000', '0.0200'],
      ['1.8000', '0.0400'],
      ['2.0000', '0.0200'],
      ['2.4000', '0.0200'],
    ]);
  });

  test('are moved, added and removed by their places in the world, in the units of the table', () => {
    const document = onTable();
    const moved = moveGroundPoint(document, ['ground', 2, 'points', 1], { x: 1.85, z: 0.05 });
    expect(valueAt(moved.document, ['ground', 2, 'points', 1])).toEqual({
      station: '350 mm',
      height: '35 mm',
    });
    expect(heightAt(laid(moved.document), 1.85)).toBeCloseTo(0.05, 9);
    const added = addGroundPoint(document, ['ground', 2], { x: 2.2, z: 0.03 });
    expect(added.select).toEqual(['ground', 2, 'points', 3]);
    expect(heightAt(laid(added.document), 2.2)).toBeCloseTo(0.03, 9);
    expect(removeEntry(added.document, ['ground', 2, 'points', 3]).document).toEqual(document);
  });

  test('never go back: a point stays between its neighbours, the first where its piece begins, and it is said', () => {
    const document = onTable();
    const past = moveGroundPoint(document, ['ground', 2, 'points', 1], { x: 3, z: 0.05 });
    expect(valueAt(past.document, ['ground', 2, 'points', 1, 'station'])).toBe('500 mm');
    expect(past.remarks[0]?.message).toMatch(/stays between its neighbours/);
    const first = moveGroundPoint(document, ['ground', 2, 'points', 0], { x: 1.7, z: 0 });
    expect(first.document).toBe(document);
    expect(first.remarks[0]?.message).toMatch(/lies where its piece begins/);
  });

  test('any piece can be turned into points of the same shape', () => {
    for (const { kind, sample } of kindsFor(['ground'])) {
      const document = smallTruck();
      document.ground = [
        { kind: 'flat', length: '1 m' },
        { kind, ...(sample as object) },
        { kind: 'flat', length: '1 m' },
      ];
      const before = laid(document);
      const edit = asPoints(document, ['ground', 1]);
      expect(valueAt(edit.document, ['ground', 1, 'kind'])).toBe('table');
      const after = laid(edit.document);
      expect(after.to).toBeCloseTo(before.to, 4);
      if (kind === 'rough') continue;
      // A tenth of a fiftieth of a 50 mm wheel, and two steps of 0.01 mm; beside vertical faces heights mean nothing.
      const line = Array.from({ length: after.count }, (_, i) => ({
        x: after.x[i] ?? 0,
        z: after.z[i] ?? 0,
      }));
      for (let x = 1; x < before.to; x += 0.003)
        expect(away({ x, z: heightAt(before, x) }, line), `${kind} at ${x}`).toBeLessThan(1.2e-4);
    }
  });
});

describe('Drawing ground', () => {
  test('keeps the corners of a hand that trembles and leaves out what lies between', () => {
    const hand = Array.from({ length: 400 }, (_, i) => ({
      x: i / 200,
      // A wall of 100 mm at 1 m, and half a millimetre of trembling.
      z: (i >= 200 ? 0.1 : 0) + 0.0005 * Math.sin(i * 7),
    }));
    const line = simplified(hand, 0.002);
    expect(line.length).toBe(4);
    for (const point of hand) expect(away(point, line)).toBeLessThanOrEqual(0.002);
  });

  test('ends stay, one point stays one, and a long line fills no stack', () => {
    expect(simplified([{ x: 1, z: 2 }], 1)).toEqual([{ x: 1, z: 2 }]);
    const many = Array.from({ length: 200_000 }, (_, i) => ({ x: i, z: (i % 2) * 10 }));
    expect(simplified(many.slice(0, 5000), 1)).toHaveLength(5000);
    expect(
      simplified(
        many.map(({ x }) => ({ x, z: 0 })),
        1,
      ),
    ).toHaveLength(2);
  });

  test('leads forward only, begins where the ground ends, and reads', () => {
    const back = [0, 0.2, 0.4, 0.3, 0.5, Number.NaN, 0.8].map((x, i) => ({ x, z: i % 2 ? 0.02 : 0 }));
    expect(forward(back).map(({ x }) => x)).toEqual([0, 0.2, 0.4, 0.5, 0.8]);
    const edit = drawGround(smallTruck(), back);
    expect(edit.remarks).toEqual([]);
    expect(laid(edit.document).to).toBeCloseTo(1.6 + 0.8, 9);
    expect(drawGround(smallTruck(), [{ x: 0, z: 0 }]).remarks[0]?.message).toMatch(/leads forward/);
  });
});

describe('A chain of obstacles', () => {
  test('stands on level ground longer than the vehicle, with the sizes that were asked for', () => {
    const edit = chainObstacles(
      smallTruck(),
      [
        { kind: 'step', figures: { height: '25 mm' } },
        { kind: 'bumps', figures: { height: '10 mm', base: '30 mm' } },
        { kind: 'trench' },
      ],
      0.4,
    );
    expect(edit.remarks).toEqual([]);
    const pieces = valueAt(edit.document, ['ground']) as readonly { kind: string }[];
    expect(pieces.map(({ kind }) => kind)).toEqual([
      'flat',
      'step',
      'flat',
      'bumps',
      'flat',
      'trench',
      'flat',
    ]);
    // 310 mm between the outer hubs and two radii of 50 mm: 410 mm long.
    expect(laid(edit.document).pieces[0]?.to).toBeGreaterThan(0.41);
    expect(pieces[1]).toMatchObject({ height: '25 mm' });
    expect(pieces[3]).not.toHaveProperty('radius');
  });

  test('every kind of ground can be in it', () => {
    for (const { kind } of kindsFor(['ground'])) {
      const edit = chainObstacles(smallTruck(), [{ kind }]);
      expect(
        edit.remarks.filter(({ severity }) => severity === 'error'),
        kind,
      ).toEqual([]);
    }
    expect(chainObstacles(smallTruck(), [{ kind: 'lava' }]).remarks[0]?.message).toBe(
      "there is no ground called 'lava'",
    );
  });

  test('pieces change places', () => {
    const document = onTable();
    const edit = reorderEntry(document, ['ground', 2], 1);
    expect((valueAt(edit.document, ['ground']) as { kind: string }[]).map(({ kind }) => kind)).toEqual([
      'flat',
      'table',
      'step',
    ]);
    expect(reorderEntry(edit.document, ['ground', 1], 2).document).toEqual(document);
    expect(reorderEntry(document, ['ground', 2], 7).document).toBe(document);
  });
});

describe('Snapping', () => {
  const points = [
    { x: 0.1, z: 0.05 },
    { x: 0.3, z: 0.08 },
  ];

  test('a point is nearest, then its height or its station, then the grid', () => {
    const at = (x: number, z: number) => snap({ x, z }, { pitch: 0.008, points, reach: 0.003 });
    expect(at(0.101, 0.0495)).toEqual({ at: points[0], to: 'point', with: points[0] });
    expect(at(0.2, 0.0495)).toEqual({ at: { x: 0.2, z: 0.05 }, to: 'level', with: points[0] });
    expect(at(0.299, 0.2)).toEqual({ at: { x: 0.3, z: 0.2 }, to: 'upright', with: points[1] });
    // Level with one and upright with the other at once.
    expect(at(0.299, 0.0495).at).toEqual({ x: 0.3, z: 0.05 });
    expect(at(0.203, 0.203)).toEqual({ at: { x: 0.2, z: 0.2 }, to: 'grid' });
  });

  test('without a pitch and with nothing near, a place stays where it is', () => {
    expect(snap({ x: 0.2034, z: 0.2 }, { points, reach: 0.003 })).toEqual({ at: { x: 0.2034, z: 0.2 } });
  });

  test('places on the grid have no noise', () => {
    expect(snap({ x: 0.3001, z: -0.0001 }, { pitch: 0.1, points: [], reach: 0.01 }).at).toEqual({
      x: 0.3,
      z: 0,
    });
  });
});
