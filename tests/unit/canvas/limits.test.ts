import { describe, expect, it } from 'vitest';
import {
  type LimitsCurve,
  limitAt,
  limitsFrame,
  limitsInWords,
  segmentsOf,
  todayWords,
} from '../../../src/charts/limits.ts';

const curve: LimitsCurve = {
  title: 'highest step up',
  size: { unit: 'mm', factor: 1000, decimals: 0 },
  along: { title: 'grip', unit: '', factor: 1, decimals: 2 },
  points: [
    { at: 0.2, limit: 0.02, by: 'grip' },
    { at: 0.6, limit: 0.06, by: 'grip' },
    { at: 0.8, limit: 0.07, by: 'torque' },
    { at: 1.2, limit: 0.07, by: 'torque' },
  ],
  today: { at: 0.4, size: 0.05 },
};

describe('a plot of limits', () => {
  it('reads a limit straight between the points, and that of the ends beyond them', () => {
    expect(limitAt(curve.points, 0.4)).toBeCloseTo(0.04, 15);
    expect(limitAt(curve.points, 0.7)).toBeCloseTo(0.065, 15);
    expect(limitAt(curve.points, 0)).toBe(0.02);
    expect(limitAt(curve.points, 2)).toBe(0.07);
    expect(limitAt([], 1)).toBe(0);
  });

  it('holds the whole curve and the size on today’s ground, upside up', () => {
    const frame = limitsFrame(curve, 320);
    expect(frame.most).toBeGreaterThanOrEqual(0.07);
    expect(frame.y(0)).toBeGreaterThan(frame.y(0.07));
    expect(frame.x(0.2)).toBe(frame.left);
    expect(frame.x(1.2)).toBe(320 - frame.right);
    const high = limitsFrame({ ...curve, today: { at: 0.4, size: 0.12 } }, 320);
    expect(high.most).toBeGreaterThanOrEqual(0.12);
    // A cliff of a hundred times what it can climb would press the curve flat.
    expect(limitsFrame({ ...curve, today: { at: 0.4, size: 7 } }, 320).most).toBe(frame.most);
  });

  it('names what stops the vehicle on each stretch, over the curve, where there is room', () => {
    const frame = limitsFrame(curve, 320);
    const [grip, torque, ...others] = segmentsOf(curve, frame);
    expect(others).toEqual([]);
    expect([grip?.words, torque?.words]).toEqual(['grip', 'torque']);
    expect(torque?.from).toBeCloseTo(frame.x(0.7), 1);
    expect(grip?.y ?? 0).toBeLessThan(frame.y(limitAt(curve.points, frame.at(grip?.x ?? 0))));
    expect(segmentsOf(curve, limitsFrame(curve, 80)).every((s) => s.words === '')).toBe(true);
  });

  it('writes about today’s ground clear of the curve and of what is written along it', () => {
    const falling: LimitsCurve = {
      ...curve,
      points: [
        { at: 3, limit: 0.07, by: 'torque' },
        { at: 6, limit: 0.043, by: 'stop' },
        { at: 11, limit: 0.022, by: 'stop' },
      ],
      today: { at: 6, size: 0.04 },
    };
    for (const each of [curve, falling]) {
      const frame = limitsFrame(each, 280);
      const words = 'today 40 mm';
      const at = todayWords(each, words, frame, segmentsOf(each, frame));
      if (at === undefined) throw new Error('no room');
      for (let x = at.x; x <= at.x + words.length * 6; x += 2) {
        const y = frame.y(limitAt(each.points, frame.at(x)));
        expect(y < at.y - 9 || y > at.y + 2).toBe(true);
      }
    }
  });

  it('says the answer as a sentence', () => {
    expect(limitsInWords(curve)).toBe(
      "At grip 0.40 it crosses up to 40 mm, limited by grip. Today's ground has 50 mm: that is too much.",
    );
    expect(limitsInWords({ ...curve, today: { at: 1, size: 0.05 } })).toBe(
      "At grip 1.00 it crosses up to 70 mm, limited by torque. Today's ground has 50 mm: it crosses that.",
    );
    expect(limitsInWords({ ...curve, points: [{ at: 1, limit: 0.3 }], today: { at: 1 } })).toBe(
      'At grip 1.00 it crosses up to 300 mm; nothing stopped it there.',
    );
    expect(limitsInWords({ ...curve, points: [] })).toBe('Not worked out yet.');
  });
});
