import { describe, expect, it } from 'vitest';
import { quantity, type Range } from '../../shared/schema/quantity.ts';
import { type Dimension, dimensions, parseFigure, spreadBehind, writtenUnit } from '../../shared/units.ts';
import { readFigure, writeFigure } from '../../src/edits/figures.ts';
import { enter, fieldUnit, moved, textOfValue, written } from '../../src/panels/fields/figure.ts';
import { jsonSchema } from '../schema/json-schema.ts';

const figure = (text: string, dimension: Dimension) => {
  const read = parseFigure(text, dimension);
  if (!read.ok) throw new Error(`${read.message}: ${read.hint}`);
  return read.value;
};
const refusal = (text: string, dimension: Dimension) => {
  const read = parseFigure(text, dimension);
  return read.ok ? undefined : `${read.message}: ${read.hint}`;
};
const told = (written: unknown, dimension: Dimension, range: Range) => {
  const read = quantity(dimension, 'A figure.', range).safeParse(written);
  return read.success ? read.data : read.error.issues[0]?.message;
};

describe('a figure with a spread', () => {
  it.each([
    ['2.4 kg ± 5 %', 'mass', 2.4, 0.06, 2.16, 2.64],
    ['2.4 kg ± 0.1 kg', 'mass', 2.4, 0.05, 2.2, 2.6],
    ['2.4 ± 0.1 kg', 'mass', 2.4, 0.05, 2.2, 2.6],
    ['2.4kg+-100g', 'mass', 2.4, 0.05, 2.2, 2.6],
    ['-12 mm +/- 10 %', 'length', -0.012, 0.0006, -0.0144, -0.0096],
    ['0.8 ± 0.1', 'ratio', 0.8, 0.05, 0.6, 1],
    ['0.8 ± 10 %', 'ratio', 0.8, 0.04, 0.64, 0.96],
  ] as const)(
    '%s has its middle, and what stands behind ± is two standard deviations',
    (text, dimension, ...wanted) => {
      const { value, spread } = figure(text, dimension);
      expect(spread?.kind).toBe('normal');
      const got = [value, spread?.deviation, spread?.least, spread?.most];
      got.forEach((each, i) => {
        expect(each).toBeCloseTo(wanted[i] as number, 12);
      });
    },
  );

  it.each([
    ['2.3 .. 2.6 kg', 'mass', 2.45, 2.3, 2.6],
    ['2.3 kg..2600 g', 'mass', 2.45, 2.3, 2.6],
    ['2..3 mm', 'length', 0.0025, 0.002, 0.003],
    ['-3 .. 5 mm', 'length', 0.001, -0.003, 0.005],
    ['15 .. 25 %', 'ratio', 0.2, 0.15, 0.25],
  ] as const)('%s is as likely anywhere between its ends', (text, dimension, middle, least, most) => {
    const { value, spread } = figure(text, dimension);
    expect(spread?.kind).toBe('uniform');
    expect(value).toBeCloseTo(middle, 12);
    expect(spread?.least).toBeCloseTo(least, 12);
    expect(spread?.most).toBeCloseTo(most, 12);
    // (b − a)/√12: any text on statistics
    expect(spread?.deviation).toBeCloseTo((most - least) / Math.sqrt(12), 12);
  });

  it('of measured repeats has their mean and the repeats in order', () => {
    const { value, spread } = figure('2.43; 2.38; 2.42 kg', 'mass');
    expect(value).toBeCloseTo(2.41, 12);
    expect(spread?.values).toEqual([2.38, 2.42, 2.43]);
    // squares 0.0009, 0.0001, 0.0004: mean 0.0014/3
    expect(spread?.deviation).toBeCloseTo(Math.sqrt(0.0014 / 3), 12);
  });

  it('without a spread is a plain figure', () => {
    expect(figure('2.4 kg', 'mass')).toEqual({ value: 2.4 });
  });

  it.each([
    ['2.4 ± 5 %', 'mass', /has no unit/],
    ['2.4 kg ± 0.1', 'mass', /has no unit/],
    ['2.4 kg ± 1 mm', 'mass', /is a length, a mass was wanted/],
    ['2.4 kg ± -5 %', 'mass', /nothing behind its ±/],
    ['0 mm ± 5 %', 'length', /a share of 0 is 0/],
    ['20 % ± 5 %', 'ratio', /can be read in two ways.*0\.2 ± 0\.05/],
    ['2.6 .. 2.3 kg', 'mass', /upside down/],
    ['1 .. 2 .. 3 kg', 'mass', /more than two ends/],
    ['1 kg ± 1 % ± 2 %', 'mass', /more than one ±/],
    ['2.4; ; 2.5 kg', 'mass', /no number/],
    ['± 5 %', 'mass', /empty/],
  ] as const)('%s is refused with what to do', (text, dimension, why) => {
    expect(refusal(text, dimension)).toMatch(why);
  });

  it('is in range with all of its spread, not with its middle alone', () => {
    expect(told('2 kg ± 40 %', 'mass', { above: 0 })).toBe(2);
    expect(told('2 kg ± 60 %', 'mass', { above: 0 })).toBe(
      'is 2 kg ± 60 %, which reaches −0.4 kg, must be above 0 kg',
    );
    expect(told('0.5 .. 3.5', 'ratio', { most: 3 })).toBe(
      'is 0.5 .. 3.5, which reaches 3.5, must be at most 3',
    );
    expect(told('4 .. 5', 'ratio', { most: 3 })).toMatch(/must be at most 3/);
  });
});

describe('a field with a spread in it', () => {
  const mass = { takes: 'figure', dimension: 'mass', unit: 'kg', range: {}, optional: false } as const;
  const share = { takes: 'figure', dimension: 'ratio', unit: '1', range: {}, optional: true } as const;
  const texts = ['2.4 kg ± 5 %', '2.3 .. 2.6 kg', '2.38; 2.41; 2.43 kg', '2400 ± 20 g'];

  it.each(texts)('shows %s as it is written, and keeps it when nothing was typed', (text) => {
    expect(textOfValue(text, mass)).toBe(text);
    expect(enter(text, text, mass)).toEqual({ ok: true, value: text });
  });

  it.each(texts)('takes %s over a plain figure as it was typed', (text) => {
    expect(enter(` ${text} `, '1 kg', mass)).toEqual({ ok: true, value: text });
  });

  it.each(texts)('%s has a unit that a bare number gets', (text) => {
    const unit = text.endsWith('20 g') ? 'g' : 'kg';
    expect(fieldUnit(text, mass)).toBe(unit);
    expect(writtenUnit(text)).toBe(unit);
    expect(enter('3', text, mass)).toEqual({ ok: true, value: `3 ${unit}` });
  });

  it('steps a middle and leaves ± alone, and does not step ranges or repeats', () => {
    expect(moved('2.4 kg ± 5 %', 1)).toBe('2.5 kg ± 5 %');
    expect(moved('2.3 .. 2.6 kg', 1)).toBeUndefined();
    expect(moved('2..3 kg', 1)).toBeUndefined();
    expect(moved('2.38; 2.41 kg', 1)).toBeUndefined();
  });

  it('says what is wrong with a spread that was typed', () => {
    expect(enter('2.6 .. 2.3 kg', '1 kg', mass)).toMatchObject({ ok: false, message: /upside down/ });
  });

  it.each([
    ['2.4 kg ± 5 %', '2.6 kg ± 5 %'],
    ['2.3 .. 2.6 kg', '2.6 kg'],
    ['2.38; 2.41; 2.43 kg', '2.6 kg'],
  ])('%s moved by a drag or a study becomes %s', (was, wanted) => {
    expect(written(2.6, was, mass)).toBe(wanted);
    expect(writeFigure(2.6, was, 'mass', 0.001)).toBe(wanted);
  });

  it('of a plain number keeps what stands behind ± too', () => {
    expect(written(0.7, '0.8 ± 0.1', share)).toBe('0.7 ± 0.1');
    expect(writeFigure(0.7, '0.8 ± 0.1', 'ratio', 0.001)).toBe('0.7 ± 0.1');
    expect(spreadBehind('0.8')).toBe('');
  });

  it('is read by gestures as its middle, and stays as written when that does not change', () => {
    expect(readFigure('2.3 .. 2.6 kg', 'mass')).toBeCloseTo(2.45, 12);
    expect(writeFigure(2.41, '2.43; 2.38; 2.42 kg', 'mass', 0.001)).toBe('2.43; 2.38; 2.42 kg');
  });
});

describe('the JSON Schema', () => {
  it('shows for each dimension examples with spreads that can be read', () => {
    const seen = new Set<string>();
    JSON.stringify(jsonSchema(), (_key, value) => {
      const { dimension, examples } = (value ?? {}) as { dimension?: Dimension; examples?: string[] };
      if (dimension !== undefined && examples !== undefined && !seen.has(dimension)) {
        seen.add(dimension);
        expect(examples.length).toBe(4);
        for (const example of examples) expect(parseFigure(example, dimension).ok, example).toBe(true);
      }
      return value;
    });
    expect(seen.size).toBeGreaterThan(20);
    expect(Object.keys(dimensions).length).toBeGreaterThanOrEqual(seen.size);
  });
});
