import { type Dimension, dimensionSays, dimensions, samePowers } from './dimensions.ts';
import { takeUnit } from './expression.ts';
import { type Cursor, greatest, quoted, type Read, take, takeNumber, unread } from './reading.ts';
import { scaled, type Unit } from './symbols.ts';

const longest = 200;

/** What to do about a unit of another dimension, where a common slip explains it. */
function wrongDimensionHint(unit: Unit, dimension: Dimension, text: string): string {
  const wanted = dimensions[dimension];
  const [length, mass, time, angle, current, temperature] = unit.powers;
  const sameButAngle = samePowers(
    [length, mass, time, wanted.powers[3], current, temperature],
    wanted.powers,
  );
  if (sameButAngle && angle !== wanted.powers[3])
    return `angles count here: write it like "${wanted.example}"`;
  if (dimension === 'acceleration' && /\dg$|\sg$/.test(text))
    return 'g is the gram; standard gravity is written gn';
  if (dimension === 'force' && samePowers(unit.powers, dimensions.mass.powers))
    return 'the weight of 1 kg is 9.81 N; write N, or kgf';
  return `write it like "${wanted.example}"`;
}

/** Refusal of a figure whose unit measures something else. */
export function wrongDimension(
  text: string,
  unit: Unit,
  dimension: Dimension,
): { ok: false; message: string; hint?: string } {
  const given = dimensionSays(unit.powers) ?? 'of a dimension that is not used here';
  return unread(
    `${quoted(text)} is ${given}, ${dimensions[dimension].says} was wanted`,
    wrongDimensionHint(unit, dimension, text),
  );
}

/** The value if it is a number that a figure of a vehicle can have; −0 becomes 0. */
export function sane(value: number, written: string): Read<number> {
  if (Number.isNaN(value)) return unread(`${written} is no number`);
  if (!(Math.abs(value) <= greatest)) return unread(`${written} is too large to be a figure of a vehicle`);
  return { ok: true, value: value === 0 ? 0 : value };
}

/** Refusal of a text in which no number was found. */
export function noNumber(text: string, dimension: Dimension): { ok: false; message: string; hint?: string } {
  const says = /^[+\-−]?\s*(nan|inf(inity)?|∞)/i.test(text)
    ? 'is not a finite number'
    : 'has no number to read';
  return unread(
    `${quoted(text)} ${says}, ${dimensions[dimension].says} was wanted`,
    `write it like "${dimensions[dimension].example}"`,
  );
}

function bareNumber(text: string, value: number, dimension: Dimension): Read<number> {
  const { says, unit, example } = dimensions[dimension];
  if (dimension === 'ratio') return sane(value, quoted(text));
  return unread(
    `${quoted(text)} has no unit, ${says} was wanted`,
    `write it like "${example}", or as the number ${value} without quotes for ${value} ${unit}`,
  );
}

/**
 * Reads a figure of a document: a number is in SI already; a text is a number and a unit ("45 mm", "0.9 N/mm",
 * "35 N·mm/°", "20 %"), the number with a decimal point. Returns a finite SI figure, or a message that says which
 * dimension was wanted and which one was given, and a hint.
 */
export function parseQuantity(written: number | string, dimension: Dimension): Read<number> {
  if (typeof written === 'number') return sane(written, String(written));
  const text = written.trim();
  if (text === '')
    return unread(
      `is empty, ${dimensions[dimension].says} was wanted`,
      `write it like "${dimensions[dimension].example}"`,
    );
  if (text.length > longest) return unread(`${quoted(text)} is too long for a figure`);
  const cursor: Cursor = { text, at: 0 };
  const sign = take(cursor, /[+\-−]\s*/)?.startsWith('+') === false ? -1 : 1;
  const number = takeNumber(cursor);
  if (number === undefined) return noNumber(text, dimension);
  if (!number.ok) return number;
  take(cursor, /\s+/);
  if (cursor.at === text.length) return bareNumber(text, sign * number.value, dimension);
  return withUnit(cursor, sign * number.value, dimension);
}

function withUnit(cursor: Cursor, value: number, dimension: Dimension): Read<number> {
  if (/^[\d.,]/.test(cursor.text.slice(cursor.at))) {
    return unread(
      `${quoted(cursor.text)} has more than one number`,
      'write one number without spaces in it, then its unit',
    );
  }
  const unit = takeUnit(cursor);
  if (!unit.ok) return unit;
  if (cursor.at < cursor.text.length) {
    return unread(
      `${quoted(cursor.text)} goes on after its unit with ${quoted(cursor.text.slice(cursor.at).trim())}`,
      'write one number and one unit',
    );
  }
  if (!samePowers(unit.value.powers, dimensions[dimension].powers))
    return wrongDimension(cursor.text, unit.value, dimension);
  return sane(scaled(value, unit.value.factor), quoted(cursor.text));
}
