/* Seen red: a normal draw without its cut; the upper quantile for the lower end of Clopper–Pearson. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFigure } from '../../shared/units.ts';
import { clopperPearson } from '../../sim/chance/interval.ts';
import { normalQuantile, normalShare } from '../../sim/chance/special.ts';
import { valueAt } from '../../sim/chance/spreads.ts';
import { sweepSpeeds } from '../../sim/rough/sweep.ts';

const number = fc.integer({ min: 1, max: 99_999 }).map((n) => n / 100);
/** Texts of figures with a spread, lengths in mm. */
const spreadText = fc.oneof(
  fc
    .tuple(number, fc.integer({ min: 1, max: 400 }))
    .map(([middle, share]) => `${middle} mm ± ${share / 10} %`),
  fc.tuple(number, number).map(([middle, size]) => `${middle} ± ${size} mm`),
  fc
    .tuple(number, number)
    .filter(([a, b]) => a !== b)
    .map(([a, b]) => `${Math.min(a, b)} .. ${Math.max(a, b)} mm`),
  fc.array(number, { minLength: 2, maxLength: 12 }).map((values) => `${values.join('; ')} mm`),
);
/** Even over its range: drawn doubles would nearly all be tiny. */
const share = fc.integer({ min: 1, max: 999_999 }).map((n) => n / 1e6);

describe('a figure with a spread', () => {
  it('has its middle between its ends, and whatever is drawn too, rising with the share', () => {
    fc.assert(
      fc.property(spreadText, share, share, (text, one, other) => {
        const read = parseFigure(text, 'length');
        if (!read.ok || read.value.spread === undefined) throw new Error(`${text} cannot be read`);
        const { value: middle, spread: form } = read.value;
        const rounding = 1e-12 * Math.max(1, Math.abs(form.most));
        expect(middle).toBeGreaterThanOrEqual(form.least - rounding);
        expect(middle).toBeLessThanOrEqual(form.most + rounding);
        const [low, high] = [Math.min(one, other), Math.max(one, other)].map((s) =>
          valueAt({ middle, form }, s),
        );
        expect(low).toBeGreaterThanOrEqual(form.least);
        expect(high).toBeLessThanOrEqual(form.most);
        expect(low).toBeLessThanOrEqual((high ?? 0) + rounding);
      }),
    );
  });

  it('is refused with a message, never by throwing, whatever the text', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom('±', '..', ';', '+-'), fc.string(), (a, sign, b) => {
        const read = parseFigure(`${a}${sign}${b}`, 'mass');
        if (!read.ok) expect(read.message.length).toBeGreaterThan(3);
        else expect(Number.isFinite(read.value.value)).toBe(true);
      }),
    );
  });
});

describe('statistics', () => {
  it('the interval of a share holds the share, and narrows with more of the same', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), share, (count, of) => {
        const held = Math.round(of * count);
        const { value, low, high } = clopperPearson(held, count);
        expect(low).toBeLessThanOrEqual(value);
        expect(high).toBeGreaterThanOrEqual(value);
        const more = clopperPearson(4 * held, 4 * count);
        expect(more.high - more.low).toBeLessThan(high - low);
      }),
    );
  });

  it('the normal quantile undoes the normal share', () => {
    fc.assert(
      fc.property(
        share.map((s) => 12 * s - 6),
        (x) => {
          // above 5 the share is so near to 1 that doubles keep only some digits of its distance
          expect(normalQuantile(normalShare(x))).toBeCloseTo(x, x > 4 ? 5 : 9);
        },
      ),
    );
  });

  it('a sweep finds a limit between the speeds as closely as its halvings allow', () => {
    const speeds = fc.uniqueArray(number, { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(
        speeds,
        share.map((s) => 1000 * s),
        (list, limit) => {
          const { fastest, fails } = sweepSpeeds(list, 30, (speed) => ({ speed, holds: speed <= limit }));
          const all = [...list].sort((a, b) => a - b);
          if (limit < (all[0] ?? 0)) expect(fastest).toBeUndefined();
          else if (limit >= (all.at(-1) ?? 0)) expect(fails).toBeUndefined();
          if (fastest === undefined || fails === undefined) return;
          expect(fastest.speed).toBeLessThanOrEqual(limit);
          expect(fails.speed).toBeGreaterThan(limit);
          expect(fails.speed - fastest.speed).toBeLessThan(1e-5);
        },
      ),
    );
  });
});
