import { describe, expect, it } from 'vitest';
import type { FieldAbout } from '../../../shared/schema/describe.ts';
import {
  enter,
  moved,
  rangeWords,
  standardText,
  stepOf,
  textOfValue,
} from '../../../src/panels/fields/figure.ts';

const length: FieldAbout = { takes: 'figure', dimension: 'length', unit: 'm', range: {}, optional: false };
const share: FieldAbout = {
  takes: 'figure',
  dimension: 'ratio',
  unit: '1',
  range: {},
  optional: true,
  standard: 0.8,
};
const count: FieldAbout = { takes: 'number', optional: true, standard: 1 };
const rate: FieldAbout = { takes: 'figure', dimension: 'stiffness', optional: false };

const entered = (text: string, value: string | number | undefined, about: FieldAbout) => {
  const result = enter(text, value, about);
  return result.ok ? result.value : result.message;
};

describe('what is typed into a figure', () => {
  it.each([
    ['46 mm', '45 mm', length, '46 mm'],
    ['  4.6 cm ', '45 mm', length, '4.6 cm'],
    ['46', '45 mm', length, '46 mm'],
    ['46', '4.5 cm', length, '46 cm'],
    ['412-8', '400 mm', length, '404 mm'],
    ['412-8 mm', '0.4 m', length, '0.404 m'],
    ['(30+6)/2', '1 mm', length, '18 mm'],
    ['2*45 mm', 0.045, length, 0.09],
    ['0.05', 0.045, length, 0.05],
    ['50 mm', 0.045, length, '50 mm'],
    ['-330', '-320 mm', length, '-330 mm'],
    ['0.9', '1.1 N/mm', rate, '0.9 N/mm'],
    ['1.1*2', '1.1 N/mm', rate, '2.2 N/mm'],
    ['15 %', '20 %', share, '15 %'],
    ['15', '20 %', share, '15 %'],
    ['0.7', 0.8, share, 0.7],
    ['2', 1, count, 2],
    ['5', undefined, { ...length, optional: true }, '5 mm'],
  ] as const)('%s over %s becomes a value of the document', (text, value, about, wanted) => {
    expect(entered(text, value, about)).toBe(wanted);
  });

  it('stays as it is when nothing was typed over it', () => {
    expect(entered('45 mm', '45 mm', length)).toBe('45 mm');
    expect(entered('0.045 m', 0.045, length)).toBe(0.045);
  });

  it('leaves an optional figure out when it is emptied, and is refused for a needed one', () => {
    expect(enter(' ', 0.8, share)).toEqual({ ok: true, value: undefined });
    expect(entered('', '45 mm', length)).toBe('a figure is needed here');
  });

  it.each([
    ['46 kg', '45 mm', length, 'a length was wanted'],
    ['fast', '45 mm', length, 'no number'],
    ['1,5', '45 mm', length, 'decimal point'],
    ['1/0', '45 mm', length, 'divides by zero'],
    ['1.5', 1, count, 'a whole number was wanted'],
  ] as const)('%s is refused with a reason', (text, value, about, reason) => {
    expect(entered(text, value, about)).toContain(reason);
  });
});

describe('a step of a figure', () => {
  it('is one of its second significant digit', () => {
    expect([412, 45, 9, 1, 0.9, 0.05, -45, 100].map(stepOf)).toEqual([10, 1, 0.1, 0.1, 0.01, 0.001, 1, 10]);
    expect(stepOf(0)).toBe(1);
  });

  it.each([
    ['45 mm', 1, '46 mm'],
    ['45 mm', -10, '35 mm'],
    ['45 mm', 0.1, '45.1 mm'],
    ['412.0 mm', 1, '422.0 mm'],
    ['-330 mm', 1, '-320 mm'],
    ['1.1 N/mm', 1, '1.2 N/mm'],
    ['0.9 N/mm', 1, '0.91 N/mm'],
    ['1e-4 kg m^2', 1, '0.00011 kg m^2'],
    ['0 mm', -1, '-1 mm'],
    ['1 mm', -10, '0.0 mm'],
    ['0.8', 1, '0.81'],
    ['45 mm', 0, '45 mm'],
  ])('%s moved by %d is %s', (text, steps, wanted) => {
    expect(moved(text, steps)).toBe(wanted);
  });

  it('keeps the size with which a drag began', () => {
    expect(moved('98 mm', 5, 1)).toBe('103 mm');
  });

  it('is none for what is no plain figure', () => {
    expect(moved('412-8', 1)).toBeUndefined();
    expect(moved('', 1)).toBeUndefined();
  });
});

describe('what stands in a field', () => {
  it('is what the user wrote; a bare number gets its unit', () => {
    expect(textOfValue('45.0 mm', length)).toBe('45.0 mm');
    expect(textOfValue(0.045, length)).toBe('0.045 m');
    expect(textOfValue(0.8, share)).toBe('0.8');
    expect(textOfValue(undefined, share)).toBe('');
  });

  it('says what is used when nothing is written, and how far it may go', () => {
    expect(standardText(share)).toBe('0.8');
    expect(standardText({ ...length, standard: 0.05 })).toBe('50 mm');
    expect(rangeWords({ ...length, range: { above: 0, most: 10 } })).toBe('above 0 mm, at most 10 m');
  });
});
