import { type Dimension, dimensions, type Powers, samePowers } from './dimensions.ts';
import { readUnit, takeUnit, unitBegins } from './expression.ts';
import { noNumber, sane, wrongDimension } from './parse.ts';
import { type Cursor, quoted, type Read, take, takeNumber, unread } from './reading.ts';
import { scaled, type Unit } from './symbols.ts';

/** A figure on the way: in SI when it has a unit; a bare number has none yet. */
interface Term {
  readonly value: number;
  readonly unit: Unit | undefined;
}

interface Reader {
  readonly cursor: Cursor;
  /** Unit of bare numbers that are added to a figure, and of a bare result. */
  readonly fallback: Unit;
}

const inUnit = (term: Term, unit: Unit): Term =>
  term.unit === undefined ? { value: scaled(term.value, unit.factor), unit } : term;

function joined(powers: Powers, other: Powers, sign: 1 | -1): Powers {
  return powers.map((p, i) => p + sign * (other[i] ?? 0)) as unknown as Powers;
}

function product(a: Term, b: Term): Term {
  const unit =
    a.unit === undefined || b.unit === undefined
      ? (a.unit ?? b.unit)
      : { factor: 1, powers: joined(a.unit.powers, b.unit.powers, 1) };
  return { value: a.value * b.value, unit };
}

/** a / b. A bare number over a figure is a fraction with a unit: '1/8 in' is an eighth of an inch. */
function quotient(a: Term, b: Term, text: string): Read<Term> {
  if (b.value === 0) return unread(`${quoted(text)} divides by zero`);
  if (a.unit === undefined && b.unit !== undefined) {
    return { ok: true, value: { value: (a.value * b.unit.factor ** 2) / b.value, unit: b.unit } };
  }
  if (b.unit === undefined) return { ok: true, value: { value: a.value / b.value, unit: a.unit } };
  return {
    ok: true,
    value: {
      value: a.value / b.value,
      unit: { factor: 1, powers: joined(a.unit?.powers ?? [0, 0, 0, 0, 0, 0], b.unit.powers, -1) },
    },
  };
}

function readFigure(reader: Reader): Read<Term> {
  const { cursor } = reader;
  take(cursor, /\s+/);
  const sign = take(cursor, /[+\-−]/);
  if (sign !== undefined) {
    const inner = readFigure(reader);
    return inner.ok && sign !== '+'
      ? { ok: true, value: { ...inner.value, value: -inner.value.value } }
      : inner;
  }
  if (take(cursor, /\(/) !== undefined) return readBracket(reader);
  const number = takeNumber(cursor);
  if (number === undefined)
    return unread(
      `${quoted(cursor.text)} lacks a number ${cursor.at >= cursor.text.length ? 'at its end' : `before ${quoted(cursor.text.slice(cursor.at))}`}`,
    );
  if (!number.ok) return number;
  return withUnit(cursor, { value: number.value, unit: undefined });
}

function readBracket(reader: Reader): Read<Term> {
  const inner = readSum(reader);
  if (!inner.ok) return inner;
  if (take(reader.cursor, /\s*\)/) === undefined)
    return unread(`${quoted(reader.cursor.text)} has a bracket that isn't closed`);
  return withUnit(reader.cursor, inner.value);
}

/** The unit behind a bare number or bracket, if one follows. */
function withUnit(cursor: Cursor, term: Term): Read<Term> {
  const rest = cursor.text.slice(cursor.at).trimStart();
  if (rest.search(unitBegins) !== 0 || term.unit !== undefined) return { ok: true, value: term };
  take(cursor, /\s+/);
  const unit = takeUnit(cursor);
  return unit.ok
    ? { ok: true, value: { value: scaled(term.value, unit.value.factor), unit: unit.value } }
    : unit;
}

function readProduct(reader: Reader): Read<Term> {
  let left = readFigure(reader);
  while (left.ok) {
    const sign = take(reader.cursor, /\s*[*·×/]/)?.trim();
    if (sign === undefined) return left;
    const right = readFigure(reader);
    if (!right.ok) return right;
    left =
      sign === '/'
        ? quotient(left.value, right.value, reader.cursor.text)
        : { ok: true, value: product(left.value, right.value) };
  }
  return left;
}

function readSum(reader: Reader): Read<Term> {
  let left = readProduct(reader);
  while (left.ok) {
    const sign = take(reader.cursor, /\s*[+\-−]/)?.trim();
    if (sign === undefined) return left;
    const right = readProduct(reader);
    if (!right.ok) return right;
    left = sum(left.value, right.value, sign === '+' ? 1 : -1, reader);
  }
  return left;
}

function sum(a: Term, b: Term, sign: 1 | -1, reader: Reader): Read<Term> {
  if (a.unit === undefined && b.unit === undefined)
    return { ok: true, value: { value: a.value + sign * b.value, unit: undefined } };
  const left = inUnit(a, reader.fallback);
  const right = inUnit(b, reader.fallback);
  if (
    left.unit === undefined ||
    right.unit === undefined ||
    !samePowers(left.unit.powers, right.unit.powers)
  ) {
    return unread(
      `${quoted(reader.cursor.text)} adds figures of different kinds`,
      'add lengths to lengths, forces to forces',
    );
  }
  return { ok: true, value: { value: left.value + sign * right.value, unit: left.unit } };
}

/** The one unit that a text names, so that '412-8 mm' means millimetres throughout; undefined with none or several. */
function onlyUnit(text: string): Unit | undefined {
  const named: Unit[] = [];
  const cursor: Cursor = { text, at: 0 };
  while (cursor.at < text.length) {
    if (takeNumber(cursor) !== undefined) continue;
    if (take(cursor, /[\p{L}°º%‰]/u) === undefined) {
      cursor.at += 1;
      continue;
    }
    cursor.at -= 1;
    const unit = takeUnit(cursor);
    if (!unit.ok) return undefined;
    named.push(unit.value);
  }
  return named.length === 1 ? named[0] : undefined;
}

/**
 * Reads what a person types into a field: a figure, or simple arithmetic with + − * / and brackets ("412-8",
 * "412 - 8 mm", "2*45 mm", "(30+6)/2"). Numbers without a unit have the one unit that the text names, else
 * `defaultUnit`.
 * @returns SI figure, or why it could not be read
 * @throws RangeError if `defaultUnit` is no unit of this dimension (a slip of the caller)
 */
export function evaluateField(text: string, dimension: Dimension, defaultUnit: string): Read<number> {
  const written = text.trim();
  const fallback =
    defaultUnit === '1' || defaultUnit === ''
      ? { ok: true as const, value: { factor: 1, powers: dimensions.ratio.powers } }
      : readUnit(defaultUnit);
  if (!fallback.ok || !samePowers(fallback.value.powers, dimensions[dimension].powers)) {
    throw new RangeError(`${defaultUnit} is no unit for ${dimensions[dimension].says}`);
  }
  if (written.length > 200) return unread(`${quoted(written)} is too long for a figure`);
  if (!/\d/.test(written)) return noNumber(written, dimension);
  const bareUnit = onlyUnit(written) ?? fallback.value;
  const cursor: Cursor = { text: written, at: 0 };
  const read = readSum({ cursor, fallback: bareUnit });
  if (!read.ok) return read;
  if (cursor.at < written.length)
    return unread(
      `${quoted(written)} goes on with ${quoted(written.slice(cursor.at).trim())}`,
      'write a number and a unit, or a sum of them',
    );
  const figure = inUnit(read.value, bareUnit);
  if (!samePowers(figure.unit?.powers ?? dimensions.ratio.powers, dimensions[dimension].powers)) {
    return wrongDimension(written, figure.unit ?? bareUnit, dimension);
  }
  return sane(figure.value, quoted(written));
}
