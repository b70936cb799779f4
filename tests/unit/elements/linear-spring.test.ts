import { describe, expect, it } from 'vitest';
import { linearSpring } from '../../../sim/elements/linear-spring.ts';
import { lawFrom, none, refusals } from './read.ts';

describe('a linear spring of 0.9 N/mm with 18 N of preload', () => {
  const law = lawFrom(linearSpring, { rate: '0.9 N/mm', preload: '18 N' });

  it('pushes with 27 N when pressed by another 10 mm: 18 + 0.9·10', () => {
    expect(law.spring(0.01, none)).toBeCloseTo(-27, 12);
  });

  it('is free at 20 mm of droop, 18/0.9, and slack below', () => {
    expect(law.corners).toEqual([expect.closeTo(-0.02, 15)]);
    expect(law.spring(-0.025, none)).toBeCloseTo(0, 15);
    expect(law.stiffness(-0.025, none)).toBe(0);
  });

  it('stores 0.405 J at 10 mm: ½·900·0.03²', () => {
    expect(law.energy(0.01, none)).toBeCloseTo(0.405, 12);
  });

  it('pulls with 4.5 N at 25 mm of droop when it is fastened at both ends: 0.9·(25 − 20)', () => {
    const fastened = lawFrom(linearSpring, { rate: '0.9 N/mm', preload: '18 N', pushOnly: false });
    expect(fastened.spring(-0.025, none)).toBeCloseTo(4.5, 12);
  });

  it('is the same spring when it is said where it is free', () => {
    const other = lawFrom(linearSpring, { rate: 900, freeAt: '-20 mm' });
    expect(other.spring(0.01, none)).toBeCloseTo(law.spring(0.01, none), 12);
  });
});

describe('the fields of a linear spring', () => {
  it('ask for a rate or a wire', () => {
    expect(refusals(linearSpring, {})).toEqual([': needs `rate` or `wire`, and has neither']);
  });

  it('refuse a rate and a wire together, and a preload with a free place', () => {
    const wire = { diameter: '1 mm', coilDiameter: '10 mm', activeCoils: 8, shearModulus: '80 GPa' };
    expect(refusals(linearSpring, { rate: 900, wire, preload: 1, freeAt: 0 })).toEqual([
      ': has `rate` and `wire`, which say the same thing',
      ': has `preload` and `freeAt`, which say the same thing',
    ]);
  });

  it('refuse a rate of zero or below', () => {
    expect(refusals(linearSpring, { rate: '-1 N/mm' })).toHaveLength(1);
    expect(refusals(linearSpring, { rate: 0 })).toHaveLength(1);
  });
});
