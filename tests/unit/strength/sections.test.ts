/*
 * Sections of beams by numbers worked by hand.
 * Seen red: width and height swapped; the inner width of an I taken for its web; a hole that takes area only.
 */
import { describe, expect, it } from 'vitest';
import { type BeamSection, sectionFigures, withHole } from '../../../sim/strength/section.ts';

const mm = (s: BeamSection) => {
  const { area, inertia, across, outer, shear } = sectionFigures(s);
  return { area: area * 1e6, inertia: inertia * 1e12, across: across * 1e12, outer: outer * 1e3, shear };
};

describe('the section', () => {
  it.each<[string, BeamSection, Record<string, number>]>([
    [
      'round 4 mm',
      { shape: 'round', diameter: 0.004 },
      { area: 4 * Math.PI, inertia: 4 * Math.PI, across: 4 * Math.PI, outer: 2, shear: 4 / 3 },
    ],
    [
      'tube 6 × 4 mm',
      { shape: 'tube', outside: 0.006, inside: 0.004 },
      { area: 5 * Math.PI, inertia: 16.25 * Math.PI, across: 16.25 * Math.PI, outer: 3, shear: 2 },
    ],
    [
      'rectangle 3 wide, 10 high',
      { shape: 'rectangle', width: 0.003, height: 0.01 },
      { area: 30, inertia: 250, across: 22.5, outer: 5, shear: 1.5 },
    ],
    [
      'box 6 × 12, wall 1',
      { shape: 'box', width: 0.006, height: 0.012, wall: 0.001 },
      // 72 − 40; 6·12³/12 − 4·10³/12; 12·6³/12 − 10·4³/12; 32/(2·10)
      { area: 32, inertia: 864 - 1000 / 3, across: 216 - 160 / 3, outer: 6, shear: 1.6 },
    ],
    [
      'I 8 × 12, flanges 1, web 2',
      { shape: 'i-beam', width: 0.008, height: 0.012, flange: 0.001, web: 0.002 },
      // 16 + 20; 8·12³/12 − 6·10³/12; 2·8³/12 + 10·2³/12; 36/20
      { area: 36, inertia: 652, across: 1024 / 12 + 80 / 12, outer: 6, shear: 1.8 },
    ],
  ])('%s has the figures worked by hand', (_name, section, expected) => {
    const found = mm(section) as Record<string, number>;
    for (const [figure, value] of Object.entries(expected)) expect(found[figure]).toBeCloseTo(value, 9);
  });

  it('loses area and second moment to a pin hole at mid-height', () => {
    const whole = sectionFigures({ shape: 'rectangle', width: 0.003, height: 0.01 });
    const net = withHole(whole, 0.004);
    // 30 − 12 mm²; 250 − 3·4³/12 mm⁴; greatest shear 1.5·V over 3·(10 − 4) mm²
    expect(net.area * 1e6).toBeCloseTo(18, 9);
    expect(net.inertia * 1e12).toBeCloseTo(234, 9);
    expect((net.shear / net.area) * 1e-6).toBeCloseTo(1.5 / 18, 12);
  });
});
