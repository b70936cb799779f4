import { describe, expect, it } from 'vitest';
import { boardOf, boardRound, gridStep, pointOn, spotOn } from '../../../src/build/board.ts';
import { fitDrawing, viewOf } from '../../../src/canvas/camera.ts';
import { GUTTER } from '../../../src/charts/layout.ts';

const size = { width: 800, height: 500 };

describe('the board', () => {
  it('counts from the drawing, wherever on the ground the vehicle stands', () => {
    const view = viewOf({ from: 0, to: 1 }, size, { above: 0.2, below: 0.05 }, 0);
    const board = boardOf({ view, frame: 0, poses: [{ x: 0.45, z: 0.01, angle: 0 }] });
    const spot = spotOn(board, { x: 0, z: 0 });
    expect(spot.x).toBeCloseTo(view.left + 0.45 * view.scale, 9);
    expect(spot.y).toBeCloseTo(view.top - 0.01 * view.scale, 9);
  });

  it('leads from a drawn point to the picture and back', () => {
    const board = boardRound([{ x: -0.4, z: 0 }], size);
    const point = { x: -0.123, z: 0.077 };
    const back = pointOn(board, spotOn(board, point));
    expect(back.x).toBeCloseTo(point.x, 12);
    expect(back.z).toBeCloseTo(point.z, 12);
  });

  it('holds all points of a vehicle that cannot be drawn, and some room without any', () => {
    const points = [
      { x: -0.4, z: 0 },
      { x: 0.1, z: 0.2 },
    ];
    const board = boardRound(points, size);
    for (const { x, y } of points.map((point) => spotOn(board, point))) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(size.width);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(size.height);
    }
    expect(boardRound([], size).scale).toBeGreaterThan(0);
  });
});

describe('the lines of the grid', () => {
  it('are those of the pitch where it can be seen', () => {
    expect(gridStep(0.008, 2000)).toBe(0.008);
  });

  it('are 2, 5 or 10 pitches apart where it is too fine, and never closer than can be told apart', () => {
    // 1 mm at 1 px per mm: 7 px at least, so every tenth line.
    expect(gridStep(0.001, 1000)).toBeCloseTo(0.01, 12);
    // 1 mm at 4 px per mm: every second line is 8 px apart.
    expect(gridStep(0.001, 4000)).toBeCloseTo(0.002, 12);
    for (const scale of [3, 17, 80, 333, 1234, 9999]) {
      const step = gridStep(0.001, scale);
      expect(step * scale).toBeGreaterThanOrEqual(7 - 1e-9);
      expect(Math.abs(step / 0.001 - Math.round(step / 0.001))).toBeLessThan(1e-6);
    }
  });
});

describe('a vehicle that is built', () => {
  it('is shown in the middle of the whole picture, as large as it fits', () => {
    const box = { xMin: 1, xMax: 1.5, zMin: 0, zMax: 0.2 };
    const window = fitDrawing(box, { above: 0.2, below: 0.05 }, size);
    const view = viewOf(window, size, { above: 0.2, below: 0.05 }, 0);
    const left = view.left + box.xMin * view.scale;
    const right = view.left + box.xMax * view.scale;
    expect((left + right) / 2).toBeCloseTo(size.width / 2, 6);
    expect(right - left).toBeGreaterThan(0.8 * size.width);
    expect(view.left).toBeCloseTo(GUTTER.left - window.from * view.scale, 6);
  });
});
