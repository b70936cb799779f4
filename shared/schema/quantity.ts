import { z } from 'zod';
import { type Dimension, dimensions, formatNumber, parseFigure, type Spread, unitOf } from '../units.ts';

/** Limits of a quantity in SI; `above`/`below` exclude the limit itself. */
export interface Range {
  readonly above?: number;
  readonly least?: number;
  readonly below?: number;
  readonly most?: number;
}

/**
 * A physical figure in a document: a number in SI, or text with a unit ("45 mm", "0.9 N/mm"). Reads to a finite SI
 * number; a wrong dimension, a number that isn't finite or one out of range is an issue that says what was wanted. A
 * figure with a spread ("2.4 kg ± 5 %", see `parseFigure`) reads to its middle, and all of its spread must be in range.
 * Hints travel in the issue's `params.hint`. The schema's meta holds unit, dimension and range, for forms and docs.
 */
export function quantity(
  dimension: Dimension,
  says: string,
  range: Range = {},
): z.ZodType<number, number | string> {
  const unit = unitOf(dimension);
  return z
    .union([z.number(), z.string()], { error: (issue) => notAFigure(issue.input, dimension) })
    .transform((written, context): number => {
      const read = parseFigure(written, dimension);
      const wrong = read.ok
        ? (outOfRange(read.value.value, range, unit, written) ??
          spreadOut(read.value.spread, range, unit, written))
        : read.message;
      if (read.ok && wrong === undefined) return read.value.value;
      const hint = read.ok ? undefined : read.hint;
      context.addIssue({
        code: 'custom',
        message: wrong ?? '',
        ...(hint === undefined ? {} : { params: { hint } }),
      });
      return z.NEVER;
    })
    .meta({ description: described(says, unit), unit, dimension, ...range }) as z.ZodType<
    number,
    number | string
  >;
}

const described = (says: string, unit: string) =>
  unit === '1' ? `${says} A plain number, or text in %.` : `${says} Unit: ${unit}, or text with a unit.`;

function notAFigure(input: unknown, dimension: Dimension): string {
  const { says, unit, example } = dimensions[dimension];
  const wanted = `${says} was wanted: a number${unit === '1' ? '' : ` in ${unit}`}, or text like "${example}"`;
  if (input === undefined) return `is missing, ${wanted}`;
  return typeof input === 'number' ? `is not a finite number, ${wanted}` : `is ${jsonKind(input)}, ${wanted}`;
}

/** What a JSON value is, with its article, for messages. */
export function jsonKind(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  const names: Readonly<Record<string, string>> = {
    string: 'text',
    number: 'a number',
    boolean: 'true or false',
    object: 'an object',
  };
  return names[typeof value] ?? 'nothing that JSON knows';
}

/** Why an end of a spread is out of range, if one is. */
function spreadOut(
  spread: Spread | undefined,
  range: Range,
  unit: string,
  written: number | string,
): string | undefined {
  if (spread === undefined) return undefined;
  const reach = (end: number) =>
    `${String(written).trim()}, which reaches ${formatNumber(end, 6)}${unit === '1' ? '' : ` ${unit}`}`;
  return (
    outOfRange(spread.least, range, unit, reach(spread.least)) ??
    outOfRange(spread.most, range, unit, reach(spread.most))
  );
}

function outOfRange(value: number, range: Range, unit: string, written: number | string): string | undefined {
  const inUnit = (figure: number) =>
    unit === '1' ? formatNumber(figure, 6) : `${formatNumber(figure, 6)} ${unit}`;
  const said = `is ${typeof written === 'number' ? inUnit(value) : written.trim()}`;
  if (range.above !== undefined && !(value > range.above))
    return `${said}, must be above ${inUnit(range.above)}`;
  if (range.least !== undefined && !(value >= range.least))
    return `${said}, must be at least ${inUnit(range.least)}`;
  if (range.below !== undefined && !(value < range.below))
    return `${said}, must be below ${inUnit(range.below)}`;
  if (range.most !== undefined && !(value <= range.most))
    return `${said}, must be at most ${inUnit(range.most)}`;
  return undefined;
}

/** A point of the drawing: x forward, z up from the drawn ground level, m. */
export const point = (says: string) =>
  z
    .strictObject({
      x: quantity('length', 'Forward of the drawing origin.', { least: -1000, most: 1000 }),
      z: quantity('length', 'Above the drawn ground level.', { least: -1000, most: 1000 }),
    })
    .meta({ description: says });

/** Name of a thing in the document: 1 to 60 characters. */
export const nameOf = (says: string) => z.string().min(1).max(60).meta({ description: says });
