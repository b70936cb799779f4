import type { FieldAbout } from '../../../shared/schema/describe.ts';
import {
  type Dimension,
  dimensions,
  evaluateField,
  formatQuantity,
  parseFigure,
  shownUnit,
  spreadBehind,
  toUnit,
  unitOf,
  writtenUnit,
} from '../../../shared/units.ts';
import type { Json } from '../../documents/json.ts';

/** Digits that a computed figure is written with; hides the rounding of doubles, keeps what anybody measures. */
const WRITTEN_DIGITS = 9;

/** What a field makes of a text: the value for the document, undefined to leave the figure out, or a problem. */
export type Entered =
  | { readonly ok: true; readonly value: Json | undefined }
  | { readonly ok: false; readonly message: string };

/** A number and its unit, as a person wrote them. */
interface Written {
  readonly number: number;
  readonly decimals: number;
  readonly unit: string;
}

const plain = (number: number): string => String(Number(number.toPrecision(WRITTEN_DIGITS)));

const dimensionOf = ({ dimension }: FieldAbout): Dimension => dimension ?? 'ratio';

/** The text that stands in the field: what the user wrote, a bare SI number with its unit. */
export function textOfValue(value: Json | undefined, about: FieldAbout): string {
  if (typeof value === 'string') return value;
  if (typeof value !== 'number') return '';
  const unit = unitOf(dimensionOf(about));
  return unit === '1' ? String(value) : `${value} ${unit}`;
}

/** What is used when the figure is left out: '9.81 m/s²', or nothing that can be said. */
export function standardText({ standard, ...about }: FieldAbout): string {
  if (typeof standard === 'string') return standard;
  if (typeof standard !== 'number') return '';
  return about.dimension === undefined ? String(standard) : formatQuantity(standard, about.dimension);
}

/** Takes 'number unit' apart; undefined for anything else. */
function apart(text: string): Written | undefined {
  const found = /^\s*([+\-−]?)\s*((?:\d+(?:\.(\d*))?|\.(\d+))(?:[eE][+-]?\d+)?)\s*(.*?)\s*$/.exec(text);
  if (found === null) return undefined;
  const [, sign, digits = '', after, only, unit = ''] = found;
  const size = Number(digits);
  if (!Number.isFinite(size) || /^[+\-−*/(.;]/.test(unit)) return undefined;
  const decimals = (after ?? only ?? '').length;
  return { number: sign === '-' || sign === '−' ? -size : size, decimals, unit };
}

/** Unit of bare numbers typed into this field: that of its present value, else the one people would use. */
export function fieldUnit(value: Json | undefined, about: FieldAbout): string {
  const dimension = dimensionOf(about);
  const { unit } = dimensions[dimension];
  if (typeof value === 'number') return unit;
  if (typeof value === 'string' && parseFigure(value, dimension).ok) return writtenUnit(value) || '1';
  return typeof about.standard === 'number' ? shownUnit(dimension, about.standard) : shownUnit(dimension, 0);
}

/** A figure in a unit, without the noise of doubles; a plain number in SI where it is `bare` or has no unit. */
function inUnit(si: number, unit: string, bare: boolean, behind = ''): Json {
  if (unit !== '1' && !bare) return `${plain(toUnit(si, unit))} ${unit}${behind}`;
  return behind === '' ? Number(si.toPrecision(WRITTEN_DIGITS)) : `${plain(si)}${behind}`;
}

/**
 * A computed figure as it goes into the document: in the unit that the field has, with what stands behind its ±, without
 * the noise of doubles.
 * @param si in SI
 * @param value the field's present value in the document
 */
export function written(si: number, value: Json | undefined, about: FieldAbout): Json {
  return inUnit(si, fieldUnit(value, about), typeof value === 'number', spreadBehind(value));
}

function enterWhole(text: string): Entered {
  const number = Number(text);
  if (Number.isInteger(number) && text !== '') return { ok: true, value: number };
  return { ok: false, message: 'a whole number was wanted' };
}

/** Whether a text is a number and a unit already, or a figure with a spread, and can stand in the document as typed. */
function standsAlone(text: string, dimension: Dimension): boolean {
  const read = parseFigure(text, dimension);
  return read.ok && (read.value.spread !== undefined || (apart(text)?.unit ?? '') !== '');
}

/**
 * Reads what was typed into a field. A number with a unit, and a figure with a spread, goes into the document as it was
 * typed; a bare number and arithmetic get the unit that the field had, and are plain figures.
 * @param value the field's present value in the document
 */
export function enter(typed: string, value: Json | undefined, about: FieldAbout): Entered {
  const text = typed.trim();
  if (text === '')
    return about.optional
      ? { ok: true, value: undefined }
      : { ok: false, message: 'a figure is needed here' };
  if (about.takes === 'number') return enterWhole(text);
  if (text === textOfValue(value, about))
    return value === undefined ? { ok: false, message: '' } : { ok: true, value };
  const dimension = dimensionOf(about);
  if (standsAlone(text, dimension)) return { ok: true, value: text };
  const unit = fieldUnit(value, about);
  const spread = /[±;]|\.\./.test(text) ? parseFigure(text, dimension) : undefined;
  const read = spread?.ok === false ? spread : evaluateField(text, dimension, unit);
  if (!read.ok)
    return { ok: false, message: read.hint === undefined ? read.message : `${read.message}: ${read.hint}` };
  return { ok: true, value: inUnit(read.value, unit, typeof value === 'number') };
}

/** One step of the arrow keys: a unit of the second significant digit, 1 for a zero. */
export function stepOf(number: number): number {
  if (number === 0) return 1;
  return 10 ** (Math.floor(Math.log10(Math.abs(number)) + 1e-9) - 1);
}

/**
 * The figure moved by so many steps, in the unit and with at least the decimals it is written with; undefined when the
 * text isn't a plain figure.
 * @param step size of a step in the written unit; a drag keeps the one it began with
 */
export function moved(text: string, steps: number, step?: number): string | undefined {
  const written = apart(text);
  if (written === undefined) return undefined;
  if (steps === 0) return text;
  const by = step ?? stepOf(written.number);
  const decimals = Math.max(
    written.decimals,
    Math.ceil(-Math.log10(by * Math.min(1, Math.abs(steps))) - 1e-9),
    0,
  );
  const number = (written.number + steps * by).toFixed(Math.min(decimals, 12));
  const shown = /^-0(\.0*)?$/.test(number) ? number.slice(1) : number;
  return written.unit === '' ? shown : `${shown} ${written.unit}`;
}

/** Size of a step for a figure as it is written now. */
export function stepOfText(text: string): number {
  return stepOf(apart(text)?.number ?? 0);
}

/** Limits of a figure in words: 'above 0 mm, at most 10 m'. Empty when there are none. */
export function rangeWords({ range, dimension }: FieldAbout): string {
  if (range === undefined || dimension === undefined) return '';
  const words = [
    ['above', range.above],
    ['at least', range.least],
    ['below', range.below],
    ['at most', range.most],
  ] as const;
  return words
    .flatMap(([word, limit]) => (limit === undefined ? [] : [`${word} ${formatQuantity(limit, dimension)}`]))
    .join(', ');
}
