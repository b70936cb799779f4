import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  dimensions,
  evaluateField,
  formatNumber,
  formatQuantity,
  formatShare,
  fromUnit,
  parseQuantity,
  shownUnit,
  shownUnits,
  toUnit,
  unitOf,
} from '../../shared/units.ts';

const all = Object.keys(dimensions) as Dimension[];

/** The SI figure, or what is wrong. */
function read(written: number | string, dimension: Dimension): number | string {
  const result = parseQuantity(written, dimension);
  return result.ok ? result.value : `${result.message} (${result.hint ?? 'no hint'})`;
}

function typed(text: string, dimension: Dimension, unit: string): number | string {
  const result = evaluateField(text, dimension, unit);
  return result.ok ? result.value : `${result.message} (${result.hint ?? 'no hint'})`;
}

// A product or quotient of a few factors rounds once per factor: eight units in the last place cover all of them.
const rounding = 8 * Number.EPSILON;
function expectNear(value: number | string, wanted: number): void {
  expect(typeof value, String(value)).toBe('number');
  expect(Math.abs((value as number) / wanted - 1)).toBeLessThanOrEqual(rounding);
}

describe('a figure with a unit', () => {
  it.each<[string, Dimension, number]>([
    ['45 mm', 'length', 0.045],
    ['45mm', 'length', 0.045],
    ['  4.5 cm ', 'length', 0.045],
    ['0.9 N/mm', 'stiffness', 900],
    ['12 deg', 'angle', (12 * Math.PI) / 180],
    ['12°', 'angle', (12 * Math.PI) / 180],
    ['2.4 kg', 'mass', 2.4],
    ['180 rpm', 'spin', 6 * Math.PI],
    ['3 rev/s', 'spin', 6 * Math.PI],
    ['35 N mm/deg', 'torsionStiffness', (0.035 * 180) / Math.PI],
    ['35 N·mm/°', 'torsionStiffness', (0.035 * 180) / Math.PI],
    ['35 N*mm / deg', 'torsionStiffness', (0.035 * 180) / Math.PI],
    ['1.2 Nm', 'torque', 1.2],
    ['1200 Nmm', 'torque', 1.2],
    ['20 %', 'ratio', 0.2],
    ['0.2', 'ratio', 0.2],
    ['1.8 km/h', 'speed', 0.5],
    ['3 N s/m', 'damping', 3],
    ['3 N/(m/s)', 'damping', 3],
    ['0.02 N·m·s/rad', 'torsionDamping', 0.02],
    ['2e-6 m^3', 'roughness', 2e-6],
    ['2e−6 m³', 'roughness', 2e-6],
    ['9.81 m/s/s', 'acceleration', 9.81],
    ['9.81 m s^-2', 'acceleration', 9.81],
    ['9.81 m·s⁻²', 'acceleration', 9.81],
    ['5 g cm2', 'inertia', 5e-7],
    ['79.3 GPa', 'stress', 79.3e9],
    ['79300 N/mm²', 'stress', 79.3e9],
    ['1.5 h', 'time', 5400],
    ['250 µs', 'time', 250e-6],
    ['40 mJ', 'energy', 0.04],
    ['.5 s/m', 'perLengthSpeed', 0.5],
  ])('%s as %s is %d', (text, dimension, value) => {
    expectNear(read(text, dimension), value);
  });

  // Exact by definition in NIST Special Publication 811 (2008), appendix B.8; the pound-force and psi as printed there.
  it.each<[string, Dimension, number, number]>([
    ['1 in', 'length', 0.0254, 0],
    ['1 ft', 'length', 0.3048, 0],
    ['1 lb', 'mass', 0.45359237, 0],
    ['1 mph', 'speed', 0.44704, 0],
    ['1 gn', 'acceleration', 9.80665, 0],
    ['1 lbf', 'force', 4.448222, 5e-7],
    ['1 psi', 'stress', 6894.757, 5e-4],
    ['1 kgf', 'force', 9.80665, 0],
    ['1 lbf in', 'torque', 0.1129848, 5e-8],
    ['1 lbf/in', 'stiffness', 175.1268, 5e-5],
  ])('%s agrees with NIST SP 811', (text, dimension, printed, halfOfLastDigit) => {
    const value = read(text, dimension) as number;
    expect(Math.abs(value - printed)).toBeLessThanOrEqual(halfOfLastDigit + rounding * printed);
  });

  it('takes every minus sign that a keyboard or a text program makes', () => {
    expect(read('-5 mm', 'length')).toBe(-0.005);
    expect(read('−5 mm', 'length')).toBe(-0.005);
    expect(read('+5 mm', 'length')).toBe(0.005);
  });

  it('rounds once, so that 9 mm is the number 0.009 and not one beside it', () => {
    for (let mm = 1; mm < 1000; mm++) expect(read(`${mm} mm`, 'length')).toBe(mm / 1000);
  });

  it('is in SI already when it is a number', () => {
    expect(read(0.045, 'length')).toBe(0.045);
    expect(Object.is(read(-0, 'length'), 0)).toBe(true);
  });
});

describe('a figure that is refused', () => {
  it.each<[number | string, Dimension, string]>([
    ['2.4 kg', 'length', '"2.4 kg" is a mass, a length was wanted (write it like "45 mm")'],
    ['45 mm', 'mass', '"45 mm" is a length, a mass was wanted (write it like "2.4 kg")'],
    ['20 %', 'length', 'is a plain number or a percentage, a length was wanted'],
    ['5 Nm', 'torsionStiffness', 'is a torque or an energy, a torsional rate was wanted (angles count here'],
    ['5 Hz', 'spin', 'is a frequency, a speed of rotation was wanted (angles count here'],
    [
      '0.5 g',
      'acceleration',
      'is a mass, an acceleration was wanted (g is the gram; standard gravity is written gn',
    ],
    ['2 kg', 'force', 'is a mass, a force was wanted (the weight of 1 kg is 9.81 N'],
    ['5 m^2', 'length', 'is of a dimension that is not used here, a length was wanted'],
    [
      '45',
      'length',
      '"45" has no unit, a length was wanted (write it like "45 mm", or as the number 45 without quotes',
    ],
    ['1,5 mm', 'length', 'has a comma in its number (write a decimal point: 1.5)'],
    ['1 000 mm', 'length', 'has more than one number'],
    ['45 Mm', 'length', '"Mm" is no unit that is known here (did you mean "mm"?)'],
    ['45 KG', 'mass', '"KG" is no unit that is known here (did you mean "kg"?)'],
    ['45 milimetre', 'length', 'did you mean "mm"?'],
    ['3 secs', 'time', 'did you mean "s"?'],
    ['5 kph', 'speed', 'did you mean "km/h"?'],
    ['5 furlong', 'length', '"furlong" is no unit that is known here'],
    ['3 N/m s', 'damping', 'can be read in two ways'],
    ['3 N/(m', 'stiffness', "has a bracket that isn't closed"],
    ['5 m^99', 'length', 'is no power that a unit can have'],
    ['5 mm wide', 'length', '"wide" is no unit'],
    ['5 mm!', 'length', 'goes on after its unit with "!"'],
    ['', 'length', 'is empty, a length was wanted'],
    ['wide', 'length', 'has no number to read, a length was wanted'],
    ['NaN', 'length', 'is not a finite number, a length was wanted'],
    ['Infinity mm', 'length', 'is not a finite number'],
    [Number.NaN, 'length', 'NaN is no number'],
    [Number.POSITIVE_INFINITY, 'length', 'is too large'],
    [1e308, 'length', 'is too large'],
    ['1e308 mm', 'length', 'is too large'],
    ['1e30 km', 'length', 'is too large'],
    [`1${'0'.repeat(300)} mm`, 'length', 'is too long for a figure'],
  ])('%s as %s', (written, dimension, says) => {
    expect(read(written, dimension)).toContain(says);
  });

  it('is told of in words for every dimension: what was given and what was wanted', () => {
    for (const wanted of all) {
      for (const given of all) {
        const same = String(dimensions[wanted].powers) === String(dimensions[given].powers);
        const result = read(dimensions[given].example, wanted);
        if (same) expect(typeof result, `${dimensions[given].example} as ${wanted}`).toBe('number');
        else
          expect(result).toMatch(
            new RegExp(
              ` is .*${dimensions[given].says.replace(/[()]/g, '\\$&')}.*, ${dimensions[wanted].says.replace(/[()]/g, '\\$&')} was wanted`,
            ),
          );
      }
    }
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123456789.,-+eE()/*^ ·²³mNkgdes°%') })),
        fc.constantFrom(...all),
        (text, dimension) => {
          const result = parseQuantity(text, dimension);
          if (result.ok) expect(Number.isFinite(result.value)).toBe(true);
          else expect(result.message).not.toBe('');
          const field = evaluateField(text, dimension, unitOf(dimension));
          if (field.ok) expect(Number.isFinite(field.value)).toBe(true);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('arithmetic in a field', () => {
  it.each<[string, Dimension, string, number]>([
    ['412-8', 'length', 'mm', 0.404],
    ['412 - 8', 'length', 'mm', 0.404],
    ['412 − 8 mm', 'length', 'm', 0.404],
    ['412-8 mm', 'length', 'm', 0.404],
    ['5', 'length', 'mm', 0.005],
    ['5 cm', 'length', 'mm', 0.05],
    ['1 cm + 5', 'length', 'mm', 0.06],
    ['10 mm + 1 cm + 5', 'length', 'mm', 0.025],
    ['2*45 mm', 'length', 'mm', 0.09],
    ['45 mm * 2', 'length', 'mm', 0.09],
    ['(30+6)/2', 'length', 'mm', 0.018],
    ['(1 + 2) cm', 'length', 'mm', 0.03],
    ['1/8 in', 'length', 'mm', 0.003175],
    ['-(3 + 4)', 'length', 'mm', -0.007],
    ['2 + 3 * 4', 'length', 'mm', 0.014],
    ['10 - 4 - 3', 'length', 'mm', 0.003],
    ['20 N / 2 mm', 'stiffness', 'N/mm', 10_000],
    ['3 N * 40 mm', 'torque', 'N·m', 0.12],
    ['20 % + 5 %', 'ratio', '1', 0.25],
    ['0.2 + 0.05', 'ratio', '1', 0.25],
    ['35 N mm/deg*2', 'torsionStiffness', 'N·mm/deg', (0.07 * 180) / Math.PI],
  ])('%s as %s in %s', (text, dimension, unit, value) => {
    // Sums of a few terms: rounding of each, on the largest of them.
    const result = typed(text, dimension, unit);
    expect(typeof result, String(result)).toBe('number');
    expect(Math.abs((result as number) - value)).toBeLessThanOrEqual(rounding * Math.max(1, Math.abs(value)));
  });

  it.each([
    ['5 kg', 'is a mass, a length was wanted'],
    ['10/0', 'divides by zero'],
    ['1 kg + 2 mm', 'adds figures of different kinds'],
    ['5 mm * 2 mm', 'a length was wanted'],
    ['5 +', 'lacks a number at its end'],
    ['5 + mm', 'lacks a number before "mm"'],
    ['(5', "has a bracket that isn't closed"],
    ['5)', 'goes on with ")"'],
    ['1,5', 'write a decimal point: 1.5'],
    ['', 'has no number to read'],
    ['1e20 * 1e20', 'is too large'],
  ])('%s is refused', (text, says) => {
    expect(typed(text, 'length', 'mm')).toContain(says);
  });

  it('takes a wrong unit from its caller for a slip of the program', () => {
    expect(() => evaluateField('5', 'length', 'kg')).toThrow(RangeError);
  });
});

describe('a figure for people', () => {
  it.each<[number, Dimension, string]>([
    [0.045, 'length', '45 mm'],
    [0.0450499, 'length', '45 mm'],
    [-0.0123, 'length', '−12.3 mm'],
    [0.9995, 'length', '1 m'],
    [0.99949, 'length', '999 mm'],
    [2.5, 'length', '2.5 m'],
    [0, 'length', '0 mm'],
    [900, 'stiffness', '0.9 N/mm'],
    [Math.PI / 15, 'angle', '12°'],
    [6 * Math.PI, 'spin', '180 rpm'],
    [2.0053522829578814, 'torsionStiffness', '35 N·mm/deg'],
    [12_345, 'force', '12.3 kN'],
    [58.84, 'force', '58.8 N'],
    [0.8, 'ratio', '0.8'],
    [79.3e9, 'stress', '79.3 GPa'],
    [2e-6, 'roughness', '2e-6 m³'],
    [Number.NaN, 'length', '—'],
  ])('%d as %s is %s', (value, dimension, text) => {
    expect(formatQuantity(value, dimension)).toBe(text);
  });

  it('keeps to the digits and the unit that are asked for', () => {
    expect(formatQuantity(0.0123456, 'length', 4)).toBe('12.35 mm');
    expect(formatQuantity(0.0123456, 'length', 3, 'm')).toBe('0.0123 m');
    expect(formatQuantity(1.5, 'length', 3, 'mm')).toBe('1500 mm');
    expect(formatShare(0.1234)).toBe('12.3 %');
    expect(formatNumber(123_456)).toBe('123456');
    expect(formatNumber(-0.00004)).toBe('−4e-5');
    expect(formatNumber(0.0001)).toBe('0.0001');
  });

  it('is read back as the same figure, to the digits shown, in every dimension', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...all),
        fc.double({ min: -1e12, max: 1e12, noNaN: true }),
        fc.integer({ min: 3, max: 6 }),
        (dimension, value, digits) => {
          // Smaller figures have lost digits already, as denormal numbers do.
          fc.pre(value === 0 || Math.abs(value) > 1e-290);
          const text = formatQuantity(value, dimension, digits);
          const back = read(text, dimension);
          expect(typeof back, text).toBe('number');
          // Half of the last digit shown is at most half of 10^(1 − digits) of the figure; formatNumber shows figures
          // below 1e-4 of a unit with as many digits.
          expect(Math.abs((back as number) - value)).toBeLessThanOrEqual(
            0.5000001 * 10 ** (1 - digits) * Math.abs(value),
          );
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('is shown in a unit that can be read, whatever its size', () => {
    for (const dimension of all) {
      for (const unit of shownUnits(dimension).filter((u) => u !== '1')) {
        expectNear(read(`3 ${unit}`, dimension), fromUnit(3, unit));
        expectNear(toUnit(fromUnit(3, unit), unit), 3);
      }
      expect(shownUnits(dimension)).toContain(shownUnit(dimension, 1));
    }
  });

  it('goes to a unit and back', () => {
    expect(toUnit(0.009, 'mm')).toBe(9);
    expect(fromUnit(9, 'mm')).toBe(0.009);
    expectNear(toUnit(900, 'N/mm'), 0.9);
    expect(toUnit(0.5, '1')).toBe(0.5);
    expect(() => toUnit(1, 'furlong')).toThrow(RangeError);
  });
});

describe('SI units by their names', () => {
  it('read as one in their own dimension', () => {
    for (const dimension of all.filter((d) => d !== 'ratio'))
      expect(read(`1 ${unitOf(dimension)}`, dimension)).toBe(1);
    expect(unitOf('torsionStiffness')).toBe('N·m/rad');
    expect(unitOf('ratio')).toBe('1');
  });
});
