import { describe, expect, it } from 'vitest';
import { torsionBar } from '../../../sim/elements/torsion-bar.ts';
import { lawFrom, none, refusals } from './read.ts';

const bar = (section: object) => ({
  bar: { shearModulus: '80 GPa', length: '120 mm', section },
});

describe('a torsion bar of 12 N·m/rad', () => {
  it('presses the arm down with 3 N·m in the drawn position when it is free 0.25 rad below', () => {
    expect(lawFrom(torsionBar, { rate: 12, freeAt: -0.25 }).spring(0, none)).toBeCloseTo(-3, 12);
  });

  it('stores 0.375 J in the drawn position under 3 N·m of preload: 3²/(2·12)', () => {
    expect(lawFrom(torsionBar, { rate: 12, preload: '3 N m' }).energy(0, none)).toBeCloseTo(0.375, 12);
  });

  it('twists both ways: 1.2 N·m at 0.1 rad past free', () => {
    expect(lawFrom(torsionBar, { rate: 12 }).spring(-0.1, none)).toBeCloseTo(1.2, 12);
  });

  it('loses 0.02 N·m·s/rad times the speed', () => {
    expect(lawFrom(torsionBar, { rate: 12, damping: 0.02 }).loss(0, 3)).toBeCloseTo(-0.06, 15);
  });
});

describe('a torsion bar by its section', () => {
  it('is 1.0472 N·m/rad for 2 mm of round steel 120 mm long: 80e9·π·0.002⁴/(32·0.12)', () => {
    const law = lawFrom(torsionBar, bar({ shape: 'round', diameter: '2 mm' }) as never);
    expect(law.stiffness(0, none)).toBeCloseTo(1.0471976, 6);
  });

  it('is the difference of two round bars for a tube', () => {
    const rate = (section: object) => lawFrom(torsionBar, bar(section) as never).stiffness(0, none);
    const tube = rate({ shape: 'tube', outside: 0.004, inside: 0.003 });
    expect(tube).toBeCloseTo(
      rate({ shape: 'round', diameter: 0.004 }) - rate({ shape: 'round', diameter: 0.003 }),
      9,
    );
  });

  it('does not care which side of a rectangle is named first', () => {
    const rate = (width: number, height: number) =>
      lawFrom(torsionBar, bar({ shape: 'rectangle', width, height }) as never).stiffness(0, none);
    expect(rate(0.002, 0.005)).toBe(rate(0.005, 0.002));
  });
});

describe('the fields of a torsion bar', () => {
  it('ask for a rate or a bar, not both', () => {
    expect(refusals(torsionBar, {})).toEqual([': needs `rate` or `bar`, and has neither']);
    expect(refusals(torsionBar, { rate: 1, ...bar({ shape: 'round', diameter: 0.002 }) })).toEqual([
      ': has `rate` and `bar`, which say the same thing',
    ]);
  });

  it('refuse a tube whose bore is wider than the tube, and arms wider than the plus', () => {
    expect(refusals(torsionBar, bar({ shape: 'tube', outside: 0.003, inside: 0.003 }))).toEqual([
      'bar.section.inside: the inside diameter must be smaller than the outside diameter',
    ]);
    expect(refusals(torsionBar, bar({ shape: 'plus', width: 0.004, arm: 0.005 }))).toEqual([
      'bar.section.arm: the arms cannot be thicker than the overall width',
    ]);
  });

  it('refuse a rate in N/mm: it is a torsional one', () => {
    expect(refusals(torsionBar, { rate: '1 N/mm' })).toHaveLength(1);
  });
});
