/*
 * Losses of gears, self-locking of worms, planetary stages and the cardan joint, against published formulas. Figures in the
 * tables were worked out apart from this code.
 * Sources: loss factor of a gear mesh, Ohlendorf, in Niemann & Winter, Maschinenelemente II (from memory); worm,
 * Shigley, Mechanical Engineering Design (from memory); planetary stage, Willis, and Müller, Die Umlaufgetriebe (from
 * memory); cardan joint, any machine design text.
 * Seen red: ε₁ taken twice in the loss factor; lead and pressure angle exchanged; η₀ on the sun's branch.
 */
import { describe, expect, it } from 'vitest';
import { errorAngle, speedRatio } from '../../sim/driveline/cardan.ts';
import {
  lossFactor,
  meshEfficiency,
  planetary,
  wormEfficiency,
} from '../../sim/driveline/kinds/mesh-loss.ts';
import { reduction } from '../../sim/driveline/kinds/reduction.ts';

const degree = Math.PI / 180;
const law = (fields: unknown) => reduction.law(reduction.fields.parse(fields));

describe('a spur pair of 20 and 60 teeth at 20 degrees', () => {
  // printed with six digits: half a unit of the last one
  it('has the loss factor 0.153197', () => expect(lossFactor(20, 60, 20 * degree)).toBeCloseTo(0.153197, 6));
  it('passes 98.468 % at a friction of 0.1', () => {
    expect(meshEfficiency(0.1, 20, 60, 20 * degree)).toBeCloseTo(0.98468, 6);
    expect(law({ teeth: [20, 60], friction: 0.1 })).toMatchObject({ ratio: 3, sense: -1 });
    expect(law({ teeth: [20, 60], friction: 0.1 }).driving).toBeCloseTo(0.98468, 6);
  });
  it('loses less against a ring of 60 teeth, which slides less', () => {
    expect(lossFactor(20, 60, 20 * degree, true)).toBeLessThan(lossFactor(20, 60, 20 * degree));
  });
});

describe('a worm', () => {
  // At a pressure angle α and a friction μ it locks itself below tan γ = μ/cos α: 6.07° for 0.1 at 20°.
  it('locks itself below the angle of friction, and not above', () => {
    const limit = Math.atan(0.1 / Math.cos(20 * degree));
    expect(limit / degree).toBeCloseTo(6.07443, 5);
    expect(wormEfficiency(0.1, 0.999 * limit, 20 * degree).backDriving).toBe(0);
    expect(wormEfficiency(0.1, 1.001 * limit, 20 * degree).backDriving).toBeGreaterThan(0);
  });
  // Shigley's table of worm efficiencies at μ = 0.05 and a pressure angle of 14½°, from memory; printed with three digits
  it.each([
    [1, 25.2],
    [2.5, 45.7],
    [5, 62.6],
    [7.5, 71.3],
    [10, 76.6],
    [15, 82.7],
    [20, 85.9],
    [30, 89.1],
  ])('of %d degrees lead works at %d percent', (lead, percent) => {
    const worked = 100 * wormEfficiency(0.05, lead * degree, 14.5 * degree).driving;
    expect(Math.abs(worked - percent)).toBeLessThan(0.06);
  });
  it('that works at half or less locks itself, when only that is known', () => {
    expect(law({ mesh: 'worm', teeth: [1, 30], efficiency: 0.5 }).backDriving).toBe(0);
    expect(law({ mesh: 'worm', teeth: [1, 30], efficiency: 0.8 }).backDriving).toBeCloseTo(0.75, 12);
  });
});

describe('a planetary stage with 12 teeth on the sun and 48 on the ring', () => {
  it('turns down by 5 with the ring at rest', () =>
    expect(law({ mesh: 'planetary', sun: 12, ring: 48 })).toMatchObject({ ratio: 5, sense: 1 }));
  it('turns down by 1.25 with the sun at rest', () =>
    expect(law({ mesh: 'planetary', sun: 12, ring: 48, fixed: 'sun' }).ratio).toBeCloseTo(1.25, 12));
  it('turns down by 4 the other way with the carrier at rest', () =>
    expect(law({ mesh: 'planetary', sun: 12, ring: 48, fixed: 'carrier' })).toMatchObject({
      ratio: 4,
      sense: -1,
    }));
  // Only the part that rolls loses: 4/5 of the power at 0.97, the rest goes round with the carrier: 0.2 + 0.8·0.97
  it('loses in the part of its power that rolls', () =>
    expect(planetary(12, 48, 'ring', 0.97).driving).toBeCloseTo(0.976, 12));
  it('driven back loses a little more: 5/(1 + 4/0.97)', () =>
    expect(planetary(12, 48, 'ring', 0.97).backDriving).toBeCloseTo(5 / (1 + 4 / 0.97), 12));
});

describe('a cardan joint bent by 30 degrees', () => {
  it('turns between 0.8660254 and 1.1547005 of its input speed', () => {
    expect(speedRatio(30 * degree, 0)).toBeCloseTo(1.1547005, 7);
    expect(speedRatio(30 * degree, Math.PI / 2)).toBeCloseTo(0.8660254, 7);
  });
  it('runs up to 4.11719 degrees ahead', () =>
    expect(errorAngle(30 * degree) / degree).toBeCloseTo(4.11719, 5));
  it('turns evenly on the whole: the mean of dθ₂/dθ₁ over a turn is 1', () => {
    const n = 720;
    const mean =
      Array.from({ length: n }, (_, i) => speedRatio(30 * degree, (2 * Math.PI * i) / n)).reduce(
        (a, b) => a + b,
      ) / n;
    // the trapezoid rule over a full period of a smooth wave is exact to rounding
    expect(mean).toBeCloseTo(1, 12);
  });
});
