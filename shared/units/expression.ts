import { nearest } from '../near.ts';
import type { Powers } from './dimensions.ts';
import { type Cursor, quoted, type Read, take, unread } from './reading.ts';
import { allSymbols, slipOf, type Unit, unitOfSymbol } from './symbols.ts';

const one: Unit = { factor: 1, powers: [0, 0, 0, 0, 0, 0] };

/** a · b^power. */
function times(a: Unit, b: Unit, power: number): Unit {
  const powers = a.powers.map((p, i) => p + power * (b.powers[i] ?? 0));
  return { factor: a.factor * b.factor ** power, powers: powers as unknown as Powers };
}

const superscripts: Readonly<Record<string, string>> = {
  '⁻': '-',
  '⁰': '0',
  '¹': '1',
  '²': '2',
  '³': '3',
  '⁴': '4',
  '⁵': '5',
  '⁶': '6',
};

/** 'Nm', 'kNmm', 'Nms': force and length run together, as on many data sheets. */
function runTogether(symbol: string): Unit | undefined {
  const parts = /^([mcdkM]?N)([mc]?m)?(s)?$/.exec(symbol);
  if (parts === null) return undefined;
  return parts
    .slice(1)
    .filter((part) => part !== undefined)
    .map((part) => unitOfSymbol(part) ?? one)
    .reduce((product, unit) => times(product, unit, 1), one);
}

function unknown(symbol: string): { ok: false; message: string; hint?: string } {
  if (symbol === '') return unread('a unit is missing');
  const near = slipOf(symbol) ?? nearest(symbol, allSymbols());
  const hint =
    near === undefined
      ? 'units are written like mm, kg, N, N/mm, deg, N mm/deg, %'
      : `did you mean "${near}"?`;
  return unread(`${quoted(symbol)} is no unit that is known here`, hint);
}

function takePower(cursor: Cursor): Read<number> {
  const raised = take(cursor, /[⁻⁰¹²³⁴⁵⁶]+/);
  const plain = raised ?? take(cursor, /\s*(?:\^|\*\*)\s*[-−]?\d+|\d+/);
  if (plain === undefined) return { ok: true, value: 1 };
  const digits = [...plain]
    .map((letter) => superscripts[letter] ?? letter)
    .join('')
    .replace('−', '-')
    .replace(/[\^*\s]/g, '');
  const power = Number(digits);
  if (!Number.isInteger(power) || Math.abs(power) > 6)
    return unread(`${quoted(plain)} is no power that a unit can have`);
  return { ok: true, value: power };
}

/** A symbol or a bracket, with its power. */
function takeItem(cursor: Cursor): Read<Unit> {
  let unit: Unit;
  if (take(cursor, /\(\s*/) !== undefined) {
    const inner = takeUnit(cursor);
    if (!inner.ok) return inner;
    if (take(cursor, /\s*\)/) === undefined)
      return unread(`${quoted(cursor.text)} has a bracket that isn't closed`);
    unit = inner.value;
  } else {
    const symbol = take(cursor, /[\p{L}°º%‰"'″”]+/u) ?? '';
    const found = unitOfSymbol(symbol) ?? (symbol === '' ? undefined : runTogether(symbol));
    if (found === undefined) return unknown(symbol);
    unit = found;
  }
  const power = takePower(cursor);
  return power.ok ? { ok: true, value: times(one, unit, power.value) } : power;
}

/** What may begin a unit. */
export const unitBegins = /\(?\s*[\p{L}°º%‰"'″”]/u;

const timesSign = /\s*[*·⋅×.]\s*(?=\(?\s*[\p{L}°])|\s+(?=\(?\s*[\p{L}°])/u;
const perSign = /\s*\/\s*(?=\(?\s*[\p{L}°])/u;

/**
 * Reads a unit at the cursor as far as it goes: 'mm', 'N·mm/deg', 'kg m^2', 'N/(m/s)', 'm³'. Several units after a
 * slash need brackets, since 'N/m s' is read in two ways by two people.
 */
export function takeUnit(cursor: Cursor): Read<Unit> {
  const first = takeItem(cursor);
  if (!first.ok) return first;
  let unit = first.value;
  let divided = false;
  for (;;) {
    const per = take(cursor, perSign) !== undefined;
    if (!per && take(cursor, timesSign) === undefined) return { ok: true, value: unit };
    if (!per && divided) {
      return unread(
        `${quoted(cursor.text)} can be read in two ways`,
        'put the units below the slash in brackets, or last: "N s/m"',
      );
    }
    divided = per;
    const next = takeItem(cursor);
    if (!next.ok) return next;
    unit = times(unit, next.value, per ? -1 : 1);
  }
}

/** Reads a whole text as a unit. */
export function readUnit(text: string): Read<Unit> {
  const cursor: Cursor = { text: text.trim(), at: 0 };
  const unit = takeUnit(cursor);
  if (!unit.ok || cursor.at === cursor.text.length) return unit;
  return unread(`${quoted(text)} is no unit`);
}
