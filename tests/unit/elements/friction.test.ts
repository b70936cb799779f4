import { describe, expect, it } from 'vitest';
import { guideFriction } from '../../../sim/elements/guide-friction.ts';
import { pivotFriction } from '../../../sim/elements/pivot-friction.ts';
import { lawFrom } from './read.ts';

describe('pivot friction of 60 N·mm that gives way by 4 mrad', () => {
  const law = lawFrom(pivotFriction, { torque: '60 N mm', breakaway: 0.004 });

  it('sticks like a spring of 15 N·m/rad: 0.06/0.004', () => {
    const memory = new Float64Array(1);
    expect(law.advance?.(0, 0.002, memory)).toBe(0);
    expect(law.spring(0.002, memory)).toBeCloseTo(-0.03, 14);
    expect(law.spring(0, memory)).toBeCloseTo(0, 15);
  });

  it('slides at its limit, and loses 0.06·(0.02 − 0.004) = 0.96 mJ on a turn of 20 mrad', () => {
    const memory = new Float64Array(1);
    expect(law.advance?.(0, 0.02, memory)).toBeCloseTo(0.96e-3, 15);
    expect(law.spring(0.02, memory)).toBeCloseTo(-0.06, 14);
    expect(law.energy(0.02, memory)).toBeCloseTo(0.5 * 15 * 0.004 ** 2, 15);
  });

  it('loses the same in one go and in a thousand steps', () => {
    const memory = new Float64Array(1);
    let lost = 0;
    for (let i = 1; i <= 1000; i++) lost += law.advance?.((i - 1) * 2e-5, i * 2e-5, memory) ?? 0;
    expect(lost).toBeCloseTo(0.96e-3, 14);
  });

  it('has no effort once it has come to rest', () => {
    const memory = new Float64Array(1);
    law.advance?.(0, 0.02, memory);
    law.rest?.(0.02, memory);
    expect(law.spring(0.02, memory)).toBeCloseTo(0, 15);
  });
});

it('guide friction of 0.8 N loses 0.8·(5 mm − 0.4 mm) = 3.68 mJ on 5 mm', () => {
  const law = lawFrom(guideFriction, { force: 0.8, breakaway: '0.4 mm' });
  expect(law.advance?.(0, 0.005, new Float64Array(1))).toBeCloseTo(3.68e-3, 14);
});

it('pivot friction of zero does nothing', () => {
  const law = lawFrom(pivotFriction, { torque: 0 });
  const memory = new Float64Array(1);
  expect(law.advance?.(0, 1, memory)).toBe(0);
  expect(Math.abs(law.spring(1, memory))).toBe(0);
});
