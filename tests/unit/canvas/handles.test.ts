import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { place } from '../../../shared/geometry/vec.ts';
import { onPicture } from '../../../src/canvas/camera.ts';
import type { Handle } from '../../../src/canvas/handles/handle.ts';
import { dragTo, gripBy, nearestHandle, spotOf } from '../../../src/canvas/handles/hold.ts';
import { moveByKey, moveInWords, placeInWords, stepOf } from '../../../src/canvas/handles/steps.ts';
import type { Seen } from '../../../src/canvas/sight.ts';
import { travelShown } from '../../../src/charts/figures.ts';

const pivot: Handle = { id: 'p', label: 'rear pivot', body: 0, at: { x: -0.3, z: 0.09 } };

function seenFrom(angle: number, scale = 900): Seen {
  return {
    view: { scale, left: 200, top: 400, size: { width: 1000, height: 500 } },
    frame: 0,
    poses: [{ x: 0.5, z: 0.02, angle }],
  };
}

describe('steps of a handle', () => {
  it('are a hundredth of the smallest wheel, as 1, 2 or 5', () => {
    // 55 mm → 0.55 → 0.5 mm; 95 mm → 0.95 → 1 mm; a truck's 0.65 m → 6.5 → 5 mm.
    expect(stepOf(0.055)).toBeCloseTo(0.0005, 15);
    expect(stepOf(0.095)).toBeCloseTo(0.001, 15);
    expect(stepOf(0.65)).toBeCloseTo(0.005, 15);
  });

  it('go ten times as far with Shift and a tenth as far with Alt', () => {
    const key = { key: 'ArrowUp', shiftKey: false, altKey: false };
    expect(moveByKey(key, 0.001)).toEqual({ x: 0, z: 0.001 });
    expect(moveByKey({ ...key, shiftKey: true }, 0.001)?.z).toBeCloseTo(0.01, 15);
    expect(moveByKey({ ...key, key: 'ArrowLeft', altKey: true }, 0.001)?.x).toBeCloseTo(-0.0001, 15);
    expect(moveByKey({ ...key, key: 'a' }, 0.001)).toBeUndefined();
  });

  it('are told in the unit of the vehicle', () => {
    const shown = travelShown(0.055);
    expect(placeInWords({ x: -0.3032, z: 0.0951 }, shown)).toBe('x −303.2, z 95.1 mm');
    expect(moveInWords(0.0012, shown)).toBe('+1.2');
    expect(moveInWords(-0.0012, shown)).toBe('−1.2');
    expect(moveInWords(0.00001, shown)).toBe('0.0');
  });
});

describe('a drag', () => {
  it('takes the point along with the pointer, however the body lies and whatever the scale', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        fc.double({ min: 200, max: 4000, noNaN: true }),
        fc.integer({ min: -200, max: 200 }),
        fc.integer({ min: -200, max: 200 }),
        (angle, scale, dx, dy) => {
          fc.pre(Math.hypot(dx, dy) >= 3);
          const seen = seenFrom(angle, scale);
          const from = spotOf(seen, 0, pivot.at) as { x: number; y: number };
          const taken = gripBy(pivot, 1, from, seen);
          if (taken === undefined) throw new Error('nothing taken');
          const step = stepOf(0.055);
          const held = dragTo(taken, { x: from.x + dx, y: from.y + dy }, step);
          const there = onPicture(seen.view, place(seen.poses[0] as Seen['poses'][0], held.at));
          // Steps of 0.5 mm: drags go by 0.1 mm, so half of that is left over on both axes.
          const slack = (Math.SQRT1_2 * 0.1e-3 + 1e-9) * scale;
          expect(Math.hypot(there.x - from.x - dx, there.y - from.y - dy)).toBeLessThanOrEqual(slack);
        },
      ),
    );
  });

  it('does not begin with a press that hardly moves', () => {
    const seen = seenFrom(0);
    const taken = gripBy(pivot, 1, { x: 10, y: 10 }, seen);
    if (taken === undefined) throw new Error('nothing taken');
    expect(dragTo(taken, { x: 12, y: 11 }, 0.001)).toBe(taken);
  });

  it('ends at the limits', () => {
    const seen = seenFrom(0);
    const limits = { x: { from: -0.31, to: -0.29 }, z: { from: 0.08, to: 0.1 } };
    const taken = gripBy({ ...pivot, limits }, 1, { x: 100, y: 100 }, seen);
    if (taken === undefined) throw new Error('nothing taken');
    expect(dragTo(taken, { x: 900, y: -400 }, 0.001).at).toEqual({ x: -0.29, z: 0.1 });
  });

  it('is taken by the nearest of several handles within reach, and by none beyond it', () => {
    const seen = seenFrom(0.1);
    const other = { ...pivot, id: 'q', at: { x: pivot.at.x + 0.012, z: pivot.at.z } };
    const spot = spotOf(seen, 0, other.at) as { x: number; y: number };
    expect(nearestHandle([other, pivot], seen, { x: spot.x - 4, y: spot.y }, 14)?.id).toBe('q');
    expect(nearestHandle([other, pivot], seen, { x: spot.x - 8, y: spot.y }, 14)?.id).toBe('p');
    expect(nearestHandle([other, pivot], seen, { x: spot.x + 30, y: spot.y }, 14)).toBeUndefined();
    expect(nearestHandle([other, pivot], undefined, spot, 14)).toBeUndefined();
  });
});
