import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { quantity, type Range } from '../../shared/schema/quantity.ts';
import type { Dimension } from '../../shared/units.ts';

/** The figure read, or the message and hint of each issue. */
function read(written: unknown, dimension: Dimension, range: Range = {}): unknown {
  const result = quantity(dimension, 'A figure.', range).safeParse(written);
  if (result.success) return result.data;
  return result.error.issues.map((issue) => [
    issue.message,
    issue.code === 'custom' ? issue.params?.hint : undefined,
  ]);
}

describe('a figure in a document', () => {
  it('reads to SI', () => {
    expect(read('45 mm', 'length')).toBe(0.045);
    expect(read(0.045, 'length')).toBe(0.045);
    expect(read('20 %', 'ratio')).toBe(0.2);
  });

  it('says what was wanted when it is something else, with the hint beside it', () => {
    expect(read('2 kg', 'length')).toEqual([
      ['"2 kg" is a mass, a length was wanted', 'write it like "45 mm"'],
    ]);
    expect(read(null, 'length')).toEqual([
      ['is null, a length was wanted: a number in m, or text like "45 mm"', undefined],
    ]);
    expect(read([], 'ratio')).toEqual([
      ['is a list, a plain number or a percentage was wanted: a number, or text like "20 %"', undefined],
    ]);
    expect(read(undefined, 'mass')).toEqual([
      ['is missing, a mass was wanted: a number in kg, or text like "2.4 kg"', undefined],
    ]);
    expect(read(Number.POSITIVE_INFINITY, 'mass')).toEqual([
      ['is not a finite number, a mass was wanted: a number in kg, or text like "2.4 kg"', undefined],
    ]);
  });

  it.each<[Range, number, boolean]>([
    [{ above: 0 }, 0, false],
    [{ above: 0 }, 1e-12, true],
    [{ least: 0 }, 0, true],
    [{ least: 0 }, -1e-12, false],
    [{ below: 1 }, 1, false],
    [{ below: 1 }, 0.999, true],
    [{ most: 1 }, 1, true],
    [{ most: 1 }, 1.001, false],
  ])('within %j: %d is %j', (range, figure, fits) => {
    expect(quantity('length', 'A figure.', range).safeParse(figure).success).toBe(fits);
  });

  it('says its limit, in the words in which the figure was written', () => {
    expect(read('-45 mm', 'length', { above: 0 })).toEqual([['is -45 mm, must be above 0 m', undefined]]);
    expect(read(-0.045, 'length', { above: 0 })).toEqual([['is −0.045 m, must be above 0 m', undefined]]);
    expect(read('5 t', 'mass', { most: 100 })).toEqual([['is 5 t, must be at most 100 kg', undefined]]);
    expect(read('200 %', 'ratio', { below: 1 })).toEqual([['is 200 %, must be below 1', undefined]]);
    expect(read(-1, 'ratio', { least: 0 })).toEqual([['is −1, must be at least 0', undefined]]);
  });

  it('tells forms and docs its unit, dimension and limits', () => {
    expect(quantity('stiffness', 'Rate.', { above: 0, most: 1e9 }).meta()).toEqual({
      description: 'Rate. Unit: N/m, or text with a unit.',
      unit: 'N/m',
      dimension: 'stiffness',
      above: 0,
      most: 1e9,
    });
    expect(quantity('ratio', 'Share.').meta()?.description).toBe('Share. A plain number, or text in %.');
  });

  it('may be left out where its object says so', () => {
    const spring = z.strictObject({
      rate: quantity('stiffness', 'Rate.'),
      length: quantity('length', 'Length.').optional(),
      grip: quantity('ratio', 'Grip.').default(0.8),
    });
    expect(spring.parse({ rate: '1 N/mm' })).toEqual({ rate: 1000, grip: 0.8 });
  });
});
