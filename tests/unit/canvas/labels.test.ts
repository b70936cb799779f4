import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlaps, placeLabels, type Rect } from '../../../src/canvas/geometry/labels.ts';

const frame: Rect = { x: 0, y: 0, width: 400, height: 200 };
const wish = (x: number, y: number) => ({
  width: 40,
  height: 14,
  places: [
    { x, y },
    { x: x - 50, y },
    { x, y: y + 16 },
    { x, y: y + 32 },
  ],
});

describe('labels', () => {
  it('take their first place when it is free', () => {
    expect(placeLabels([wish(100, 100)], [], frame)[0]?.place).toBe(0);
  });

  it('give way to each other and to what is taken', () => {
    const [a, b] = placeLabels([wish(100, 100), wish(110, 100)], [], frame);
    expect(a?.place).toBe(0);
    expect(b?.place).not.toBe(0);
    expect(
      placeLabels([wish(100, 100)], [{ x: 90, y: 90, width: 60, height: 40 }], frame)[0]?.place,
    ).not.toBe(0);
  });

  it('stay out rather than overlap', () => {
    const crowd = placeLabels(
      Array.from({ length: 9 }, () => wish(100, 100)),
      [],
      frame,
    );
    expect(crowd.filter((p) => p.place < 0)).toHaveLength(5);
  });

  it('keep the place that they had while it is free', () => {
    expect(placeLabels([wish(100, 100)], [], frame, [2])[0]?.place).toBe(2);
    expect(
      placeLabels([wish(100, 100)], [{ x: 95, y: 115, width: 60, height: 20 }], frame, [2])[0]?.place,
    ).toBe(0);
  });

  it('never overlap and never leave the picture, however they are crowded', () => {
    const spot = fc.tuple(fc.integer({ min: -20, max: 420 }), fc.integer({ min: -20, max: 220 }));
    fc.assert(
      fc.property(fc.array(spot, { maxLength: 16 }), (spots) => {
        const placed = placeLabels(
          spots.map(([x, y]) => wish(x, y)),
          [],
          frame,
        ).filter((p) => p.place >= 0);
        placed.forEach((p, i) => {
          expect(p.rect.x >= 0 && p.rect.y >= 0 && p.rect.x + 40 <= 400 && p.rect.y + 14 <= 200).toBe(true);
          for (const q of placed.slice(i + 1)) expect(overlaps(p.rect, q.rect)).toBe(false);
        });
      }),
    );
  });
});
