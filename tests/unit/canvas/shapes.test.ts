import { describe, expect, it } from 'vitest';
import { discHatch, earthHatch } from '../../../src/canvas/geometry/hatch.ts';
import {
  arrow,
  arrowTo,
  barrel,
  bow,
  coil,
  dashes,
  type Path,
  type Spot,
  spiral,
  strain,
} from '../../../src/canvas/geometry/shapes.ts';
import { arrowScaleOf } from '../../../src/canvas/run.ts';

/** Spots of a path. */
function spots(path: Path): { x: number; y: number }[] {
  return Array.from({ length: path.length / 2 }, (_, i) => ({
    x: path[2 * i] as number,
    y: path[2 * i + 1] as number,
  }));
}

function lengthOf(path: Path): number {
  const p = spots(path);
  return p.slice(1).reduce((sum, q, i) => sum + Math.hypot(q.x - (p[i]?.x ?? 0), q.y - (p[i]?.y ?? 0)), 0);
}

describe('a coil', () => {
  const foot = { x: 10, y: 100 };

  it('reaches from end to end, stays within its width, and its strands join', () => {
    const { front, back } = coil(foot, { x: 10, y: 40 }, 5, 6);
    expect(front).toHaveLength(5);
    expect(back).toHaveLength(5);
    const all = [...front, ...back].flatMap(spots);
    expect(Math.max(...all.map((p) => p.y))).toBeCloseTo(100, 9);
    expect(Math.min(...all.map((p) => p.y))).toBeCloseTo(40, 9);
    for (const p of all) expect(Math.abs(p.x - 10)).toBeCloseTo(6, 9);
    const end = spots(front[0] as Path)[1];
    const start = spots(back[0] as Path)[0];
    expect(end?.x).toBeCloseTo(start?.x as number, 9);
    expect(end?.y).toBeCloseTo(start?.y as number, 9);
  });

  it('closes up when its ends come together: as many turns in less room', () => {
    const long = coil(foot, { x: 10, y: 40 }, 5, 6);
    const short = coil(foot, { x: 10, y: 70 }, 5, 6);
    const pitch = (strands: readonly Path[]) =>
      (spots(strands[1] as Path)[0]?.y ?? 0) - (spots(strands[0] as Path)[0]?.y ?? 0);
    expect(short.front).toHaveLength(long.front.length);
    expect(pitch(short.front) / pitch(long.front)).toBeCloseTo(0.5, 9);
  });

  it('stays finite when it is pressed to nothing', () => {
    expect(coil(foot, foot, 5, 6).front.flat().every(Number.isFinite)).toBe(true);
  });
});

describe('an arc', () => {
  it('spans the angle it is given, counter-clockwise as seen', () => {
    const arc = spots(spiral({ x: 0, y: 0 }, 10, 10, 0, Math.PI / 2));
    expect(arc[0]?.x).toBeCloseTo(10, 9);
    expect(arc.at(-1)?.x).toBeCloseTo(0, 9);
    expect(arc.at(-1)?.y).toBeCloseTo(-10, 9);
  });

  it('grows with the twist', () => {
    expect(
      lengthOf(spiral({ x: 0, y: 0 }, 10, 10, 0, 0.8)) / lengthOf(spiral({ x: 0, y: 0 }, 10, 10, 0, 0.4)),
    ).toBeCloseTo(2, 2);
  });
});

describe('an arrow', () => {
  it('stands under its tip and is as long as its force', () => {
    const { shaft, head } = arrow({ x: 5, y: 20 }, 40);
    expect([shaft[0], shaft[1]]).toEqual([5, 60]);
    expect([head[0], head[1]]).toEqual([5, 20]);
  });

  it('has a scale by which the mean standing load is as long as a wheel is high by half', () => {
    expect(arrowScaleOf([0.05, 0.05, 0.05], [10, 20, 30]) * 20).toBeCloseTo(0.05, 12);
    expect(arrowScaleOf([0.05], [0])).toBe(0);
  });
});

describe('an arrow in any direction', () => {
  it('has its tip where the force acts and is as long as asked, whichever way it points', () => {
    for (const angle of [0, 0.7, 2, 4, 5.5]) {
      const from = { x: 50 + 40 * Math.cos(angle), y: 60 + 40 * Math.sin(angle) };
      const { shaft, head } = arrowTo(from, { x: 50, y: 60 });
      expect(head.slice(0, 2)).toEqual([50, 60]);
      expect(shaft.slice(0, 2)).toEqual([from.x, from.y]);
      // The head's corners lie the same way off the shaft on both sides.
      const [, b, c] = spots(head) as [Spot, Spot, Spot];
      const off = (p: Spot) => (p.x - 50) * Math.sin(angle) - (p.y - 60) * Math.cos(angle);
      expect(off(b)).toBeCloseTo(-off(c), 9);
      expect(Math.abs(off(b))).toBeGreaterThan(2);
    }
  });
});

describe('the sign of a force along a rod', () => {
  it('points apart where it is pulled and together where it is pushed', () => {
    const way = (head: Path) => (head[0] as number) - ((head[2] as number) + (head[4] as number)) / 2;
    const [right, left] = strain({ x: 0, y: 0 }, 1, 0, true) as [Path, Path];
    expect([Math.sign(right[0] as number), Math.sign(way(right))]).toEqual([1, 1]);
    expect([Math.sign(left[0] as number), Math.sign(way(left))]).toEqual([-1, -1]);
    const [pushed] = strain({ x: 0, y: 0 }, 1, 0, false) as [Path];
    expect([Math.sign(pushed[0] as number), Math.sign(way(pushed))]).toEqual([1, -1]);
  });
});

describe('dashes', () => {
  it('cover their share of a line and stay on it', () => {
    const parts = dashes([0, 0, 100, 0, 100, 50], 6, 4);
    expect(parts.reduce((sum, p) => sum + lengthOf(p), 0)).toBeCloseTo(90, 9);
    for (const p of parts.flatMap(spots)) expect(p.y === 0 || p.x === 100).toBe(true);
  });
});

describe('a bow and a barrel', () => {
  it('pass through the spots they are given', () => {
    const leaf = spots(bow({ x: 0, y: 0 }, { x: 10, y: 4 }, { x: 20, y: 0 }));
    expect(leaf[6]?.y).toBeCloseTo(4, 9);
    const block = spots(barrel({ x: 0, y: 10 }, { x: 0, y: 0 }, 5, 2));
    expect(Math.max(...block.map((p) => p.x))).toBeCloseTo(7, 9);
  });
});

describe('earth hatching', () => {
  it('hangs below level ground, evenly and at 45°', () => {
    const strokes = earthHatch([0, 50, 100, 50], 10, 20);
    expect(strokes.length).toBe(10);
    for (const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] of strokes) {
      expect(y0).toBe(50);
      expect(y1).toBe(70);
      expect(x0 - x1).toBeCloseTo(20, 9);
    }
  });

  it('ends where it would come out of the face of a step up', () => {
    // Level at y 50 up to x 40, face up to y 30, level beyond. Above the foot of the face all earth is right of x 40.
    const strokes = earthHatch([0, 50, 40, 50, 40, 30, 100, 30], 5, 30);
    for (const [, y0 = 0, x1 = 0, y1 = 0] of strokes)
      if (y0 < 49.9) expect(y1 < 50 ? x1 : 40).toBeGreaterThanOrEqual(40 - 1e-9);
    expect(strokes.some(([x0 = 0, y0 = 0]) => x0 > 41 && x0 < 60 && y0 === 30)).toBe(true);
  });

  it('does not swim: the pattern is tied to its origin', () => {
    const here = earthHatch([0, 50, 100, 50], 10, 20, 3).map((s) => s[0] as number);
    const moved = earthHatch([-4, 50, 96, 50], 10, 20, -1).map((s) => (s[0] as number) + 4);
    expect(moved.filter((x) => x > 10 && x < 90).map((x) => x.toFixed(6))).toEqual(
      here.filter((x) => x > 10 && x < 90).map((x) => x.toFixed(6)),
    );
  });
});

it('hatches a disc with chords that stay inside it', () => {
  const strokes = discHatch(30, 6);
  expect(strokes.length).toBeGreaterThan(7);
  for (const p of strokes.flatMap(spots)) expect(Math.hypot(p.x, p.y)).toBeLessThanOrEqual(30 + 1e-9);
});
