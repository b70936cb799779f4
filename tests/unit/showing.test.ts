import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  dimensions,
  formatQuantity,
  fullSizeFactor,
  ownFigures,
  parseQuantity,
  rungsOf,
  showQuantity,
  showSentence,
  unitSystems,
} from '../../shared/units.ts';

const inch = { system: 'inch', scale: 1 } as const;
const si = { system: 'si', scale: 1 } as const;
const all = Object.keys(dimensions) as Dimension[];

describe('a choice of units', () => {
  it('has only units that can be read, of the dimension that they stand for', () => {
    for (const { id } of unitSystems)
      for (const dimension of all)
        for (const { unit } of rungsOf(dimension, id)) {
          const read = parseQuantity(unit === '1' ? '2' : `2 ${unit}`, dimension);
          expect(read.ok, `${unit} as ${dimension}`).toBe(true);
        }
  });

  it('gives the same text as ever for the figures of builders', () => {
    for (const dimension of all)
      for (const value of [0.00123, 0.9996, 1.5, 4321, 98765])
        expect(showQuantity(value, dimension, ownFigures)).toBe(formatQuantity(value, dimension));
  });

  it('shows SI without prefixes', () => {
    expect(showQuantity(0.045, 'length', si)).toBe('0.045 m');
    expect(showQuantity(Math.PI / 180, 'angle', si)).toBe('0.0175 rad');
    expect(showQuantity(350, 'stiffness', si)).toBe('350 N/m');
  });

  // NIST SP 811, appendix B: 1 in = 25.4 mm and 1 lb = 0.453 592 37 kg exactly; 1 lbf = 4.448 222 N, 1 lbf/in = 175.1268
  // N/m, 1 lbf·ft = 1.355 818 N·m, 1 psi = 6.894 757 kPa, 1 lb·ft² = 0.042 140 11 kg·m².
  it.each([
    [0.254, 'length', '10 in'],
    [6.096, 'length', '20 ft'],
    [4.5359237, 'mass', '10 lb'],
    [44.48222, 'force', '10 lbf'],
    [175.1268, 'stiffness', '1 lbf/in'],
    [13.55818, 'torque', '10 lbf·ft'],
    [6894.757, 'stress', '1 psi'],
    [4.214011, 'inertia', '100 lb·ft²'],
    [0.3048, 'speed', '1 ft/s'],
  ] as const)('shows %f of %s as %s', (value, dimension, text) => {
    expect(showQuantity(value, dimension, inch)).toBe(text);
  });
});

describe("full size by Froude's rule", () => {
  // s = 4, worked by hand: L s, M s³, T √s; v = L/T, a = L/T² (gravity stays), F = M·a, k = F/L, c = F/v, E = F·L, P = E/T.
  it.each([
    ['length', 4],
    ['mass', 64],
    ['time', 2],
    ['angle', 1],
    ['ratio', 1],
    ['acceleration', 1],
    ['speed', 2],
    ['spin', 0.5],
    ['force', 64],
    ['torque', 256],
    ['stiffness', 16],
    ['torsionStiffness', 256],
    ['damping', 32],
    ['energy', 256],
    ['power', 128],
    ['stress', 4],
    ['inertia', 1024],
    ['frequency', 0.5],
    ['voltage', 1],
    ['temperature', 1],
  ] as const)('takes %s times %f at a scale of 4', (dimension, factor) => {
    expect(fullSizeFactor(dimension, 4)).toBeCloseTo(factor, 12);
  });

  it('changes nothing at full size', () => {
    for (const dimension of all) expect(fullSizeFactor(dimension, 1)).toBe(1);
  });
});

describe('a sentence', () => {
  const lost =
    'It lost 12.9 N against the start, as rear-arm 2 hangs 8.3 mm lower; pitch −3.1°, 12 % of it, in 2.5 s.';

  it('stays as it is while builders’ figures are wanted', () => {
    expect(showSentence(lost, ownFigures)).toBe(lost);
  });

  it('has its figures in the units that are wanted, and nothing else changed', () => {
    expect(showSentence(lost, inch)).toBe(
      'It lost 2.9 lbf against the start, as rear-arm 2 hangs 0.327 in lower; pitch −3.1°, 12 % of it, in 2.5 s.',
    );
    expect(showSentence(lost, si)).toContain('hangs 0.0083 m lower; pitch −0.0541 rad, 12 % of it');
  });

  it('has its figures at full size', () => {
    expect(showSentence(lost, { system: 'builder', scale: 10 })).toBe(
      'It lost 12.9 kN against the start, as rear-arm 2 hangs 83 mm lower; pitch −3.1°, 12 % of it, in 7.91 s.',
    );
  });

  it('keeps as many digits as a figure had', () => {
    expect(showSentence('at 1234.56 mm', inch)).toBe('at 48.6047 in');
  });

  it('leaves what only looks like a figure', () => {
    for (const text of ['an M3 screw', 'in 5 minutes', 'axle2 m', 'class 8.8', '2 springs', 'EN 71-1'])
      expect(showSentence(text, inch)).toBe(text);
  });
});
