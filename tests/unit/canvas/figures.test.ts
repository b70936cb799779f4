import { describe, expect, it } from 'vitest';
import {
  angleShown,
  figure,
  forceShown,
  lengthShown,
  travelShown,
  withUnit,
} from '../../../src/charts/figures.ts';
import { fromPixel, GUTTER, toPixel } from '../../../src/charts/layout.ts';
import { niceRange, rulerTicks, ticksOf } from '../../../src/charts/ticks.ts';

describe('figures', () => {
  it('show a model in N and mm, a full-size truck in kN and m, with three digits for the usual load', () => {
    expect(withUnit(12.68, forceShown(19.6))).toBe('12.7 N');
    expect(withUnit(4.214, forceShown(5))).toBe('4.21 N');
    expect(withUnit(329_012, forceShown(300_000))).toBe('329 kN');
    expect(withUnit(0.412, lengthShown(0.05))).toBe('412 mm');
    expect(withUnit(24.553, lengthShown(0.9))).toBe('24.55 m');
    expect(withUnit(0.00412, travelShown(0.05))).toBe('4.1 mm');
  });

  it('have a true minus sign, none before zero, and a dash for what is not a number', () => {
    expect(withUnit(-0.0541, angleShown)).toBe('−3.1°');
    expect(figure(-0.00001, travelShown(0.05))).toBe('0.0');
    expect(figure(Number.NaN, angleShown)).toBe('–');
  });
});

describe('ticks', () => {
  const mm = lengthShown(0.05);

  it('are round in the shown unit and lie where they say', () => {
    const ticks = rulerTicks({ from: 0.13, to: 2.08 }, 1112, mm);
    for (const tick of ticks) {
      expect(tick.pixel).toBeCloseTo(toPixel(tick.value, { from: 0.13, to: 2.08 }, 1112), 9);
      expect(Number(tick.label) % 200).toBe(0);
    }
    expect(ticks.length).toBeGreaterThan(6);
  });

  it('stay within the plotting column and leave room for their labels', () => {
    for (const width of [400, 704, 1112, 2240]) {
      const pixels = rulerTicks({ from: -0.37, to: 1.11 }, width, mm).map((t) => t.pixel);
      expect(Math.min(...pixels)).toBeGreaterThanOrEqual(GUTTER.left - 0.5);
      expect(Math.max(...pixels)).toBeLessThanOrEqual(width - GUTTER.right + 0.5);
      for (let i = 1; i < pixels.length; i++)
        expect((pixels[i] as number) - (pixels[i - 1] as number)).toBeGreaterThan(40);
    }
  });

  it('group thousands from five digits on and have a true minus sign', () => {
    expect(ticksOf(-2, 2, 4, mm).map((t) => t.label)).toEqual(['−2000', '−1000', '0', '1000', '2000']);
    expect(ticksOf(0, 40, 4, mm).map((t) => t.label)).toContain('40\u2009000');
  });

  it('go back from pixels to values', () => {
    const span = { from: 3, to: 4 };
    expect(fromPixel(toPixel(3.3, span, 900), span, 900)).toBeCloseTo(3.3, 12);
  });

  it('have ranges that hold their values with round ends', () => {
    expect(niceRange(0.3, 38.2, 6, 1, 0)).toEqual({ from: 0, to: 40 });
    const flat = niceRange(0, 0, 6, 1000, 0);
    expect(flat.to).toBeGreaterThan(flat.from);
  });
});
