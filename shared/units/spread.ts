import type { Dimension } from './dimensions.ts';
import { parseQuantity } from './parse.ts';
import { quoted, type Read, unread } from './reading.ts';

/** How a figure scatters, in SI. `deviation` is the standard deviation; nothing lies outside `least` … `most`. */
export interface Spread {
  /** 'normal': "2.4 kg ± 5 %"; 'uniform': "2.3 .. 2.6 kg"; 'samples': measured repeats, "2.38; 2.41; 2.43 kg". */
  readonly kind: 'normal' | 'uniform' | 'samples';
  readonly deviation: number;
  readonly least: number;
  readonly most: number;
  /** The repeats, rising; empty for the other kinds. */
  readonly values: readonly number[];
}

/** A figure as it was read: its middle in SI, and its spread where it has one. */
export interface Figure {
  readonly value: number;
  readonly spread?: Spread;
}

type Sign = '±' | '..' | ';';

/** A text with a spread, taken apart; parts without a unit have got that of the last one. */
interface Apart {
  readonly sign: Sign;
  readonly parts: readonly string[];
}

const signs: readonly (readonly [Sign, RegExp])[] = [
  ['±', /±|\+\/?[-−]/],
  ['..', /\.{2,3}/],
  [';', /;/],
];

/** What stands behind the number of a plain figure. */
const unitBehind = (text: string): string =>
  text.replace(/^\s*[+\-−]?\s*(?:\d+\.?\d*|\.\d+)(?:[eE][+\-−]?\d+)?/, '').trim();

function apart(text: string): Apart | undefined {
  const [sign, mark] = signs.find(([, each]) => each.test(text)) ?? [];
  if (sign === undefined || mark === undefined) return undefined;
  const parts = text.split(mark).map((part) => part.trim());
  const unit = unitBehind(parts.at(-1) ?? '');
  const lent = sign === '±' && unit === '%' ? '' : unit;
  return { sign, parts: parts.map((part) => (unitBehind(part) === '' ? `${part} ${lent}`.trim() : part)) };
}

/** Unit in which a figure is written, without its spread: 'kg' of "2.3 .. 2.6 kg"; '' when it has none. */
export const writtenUnit = (text: string): string => unitBehind(apart(text)?.parts[0] ?? text);

/**
 * What stays when the middle of a figure is moved by hand: its ' ± 5 %'. A range or measured repeats belong to what was
 * measured there, so that nothing of them stays: ''.
 */
export function spreadBehind(was: unknown): string {
  const found = typeof was === 'string' ? apart(was) : undefined;
  return found?.sign === '±' ? ` ± ${found.parts[1]}` : '';
}

const spread = (
  kind: Spread['kind'],
  deviation: number,
  least: number,
  most: number,
  values: readonly number[] = [],
): Spread => ({ kind, deviation, least, most, values });

/**
 * Reads a figure of a document that may carry a spread:
 * - "2.4 kg ± 5 %", "2.4 kg ± 0.1 kg", "2.4 ± 0.1 kg" (also +- and +/-): normal; what stands behind ± is two standard
 *   deviations, and nothing is further off than twice that. Source: expanded uncertainty with a coverage factor of 2,
 *   NIST Technical Note 1297 (1994), section 6; the cut at four standard deviations is our own.
 * - "2.3 .. 2.6 kg": anything between, all as likely.
 * - "2.38; 2.41; 2.43 kg": measured repeats, one as likely as the other; their mean is the figure.
 * @returns the middle and the spread in SI, or why it cannot be read
 */
export function parseFigure(written: number | string, dimension: Dimension): Read<Figure> {
  const found = typeof written === 'string' && written.length <= 400 ? apart(written) : undefined;
  if (found === undefined || typeof written === 'number') {
    const plain = parseQuantity(written, dimension);
    return plain.ok ? { ok: true, value: { value: plain.value } } : plain;
  }
  if (found.sign === '±') return aboutMiddle(written, found.parts, dimension);
  const values: number[] = [];
  for (const part of found.parts) {
    const read = parseQuantity(part, dimension);
    if (!read.ok) return read;
    values.push(read.value);
  }
  return found.sign === '..' ? between(written, values) : repeats(values);
}

function aboutMiddle(written: string, parts: readonly string[], dimension: Dimension): Read<Figure> {
  const [first = '', second = '', ...more] = parts;
  if (more.length > 0) return unread(`${quoted(written)} has more than one ±`);
  const middle = parseQuantity(first, dimension);
  if (!middle.ok) return middle;
  const share = unitBehind(second) === '%';
  if (dimension === 'ratio' && unitBehind(first) === '%')
    return unread(
      `${quoted(written)} can be read in two ways`,
      'write it without %, such as "0.2 ± 0.05", or as a range, such as "15 .. 25 %"',
    );
  const read = parseQuantity(second, share ? 'ratio' : dimension);
  if (!read.ok) return read;
  const size = share ? read.value * Math.abs(middle.value) : read.value;
  if (!(size > 0))
    return unread(
      `${quoted(written)} has nothing behind its ±`,
      share && middle.value === 0 ? 'a share of 0 is 0: write it with the unit' : 'leave the ± out',
    );
  const { value } = middle;
  return {
    ok: true,
    value: { value, spread: spread('normal', size / 2, value - 2 * size, value + 2 * size) },
  };
}

function between(written: string, values: readonly number[]): Read<Figure> {
  const [least = 0, most = 0, ...more] = values;
  if (more.length > 0) return unread(`${quoted(written)} has more than two ends`);
  if (!(least < most))
    return unread(
      `${quoted(written)} is upside down`,
      'write the least value first, such as "2.3 .. 2.6 kg"',
    );
  // Deviation of a uniform distribution: its width over √12 (any text on statistics).
  const deviation = (most - least) / Math.sqrt(12);
  return {
    ok: true,
    value: { value: (least + most) / 2, spread: spread('uniform', deviation, least, most) },
  };
}

function repeats(given: readonly number[]): Read<Figure> {
  const values = [...given].sort((a, b) => a - b);
  const value = values.reduce((sum, each) => sum + each, 0) / values.length;
  const squares = values.reduce((sum, each) => sum + (each - value) ** 2, 0);
  const deviation = Math.sqrt(squares / values.length);
  const [least = 0, most = 0] = [values[0], values.at(-1)];
  return { ok: true, value: { value, spread: spread('samples', deviation, least, most, values) } };
}
