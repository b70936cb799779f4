import type { Vec2 } from '../../shared/geometry/vec.ts';
import {
  type Dimension,
  dimensions,
  fromUnit,
  parseFigure,
  shownUnit,
  spreadBehind,
  toUnit,
  writtenUnit,
} from '../../shared/units.ts';
import { isObject, type Json } from '../documents/json.ts';

/** A figure of a document in SI, its middle where it has a spread; undefined when it is none of this dimension. */
export function readFigure(value: Json | undefined, dimension: Dimension): number | undefined {
  if (typeof value !== 'number' && typeof value !== 'string') return undefined;
  const read = parseFigure(value, dimension);
  return read.ok ? read.value.value : undefined;
}

/** A point {x, z} of a document, m; undefined when it is none. */
export function readPoint(value: Json | undefined): Vec2 | undefined {
  if (!isObject(value)) return undefined;
  const x = readFigure(value.x, 'length');
  const z = readFigure(value.z, 'length');
  return x === undefined || z === undefined ? undefined : { x, z };
}

/** Unit that a text figure is written in; undefined when it has none. */
function unitIn(text: string): string | undefined {
  return writtenUnit(text) || undefined;
}

/** Decimals that a step of `grid` (SI) needs in a unit: 2 for 0.01 mm in mm. */
function decimalsOf(grid: number, unit: string): number {
  const step = unit === '1' ? grid : toUnit(grid, unit);
  return Math.max(0, Math.min(12, Math.ceil(-Math.log10(step) - 1e-9)));
}

/**
 * A number with the digits that are meant: one that is short anyway keeps all of its digits, up to three more than
 * asked for; the noise behind a pointer or a division is cut off at `decimals`.
 */
function meant(number: number, decimals: number): number {
  const noise = 1e-9 * Math.max(1, Math.abs(number));
  for (let k = 0; k <= decimals + 3; k++) {
    const short = Number(number.toFixed(k));
    if (Math.abs(short - number) <= noise * 10 ** -Math.max(0, decimals - 2)) return short === 0 ? 0 : short;
  }
  const cut = Number(number.toFixed(decimals));
  return cut === 0 ? 0 : cut;
}

/**
 * A computed figure as it goes into the document: in the unit that the user wrote, with the digits that are meant. A
 * bare number stays a bare number in SI; a figure that did not change keeps its text; a new one gets the unit that
 * people would use. What stands behind a ± stays there.
 * @param si in SI
 * @param was what stands there now
 * @param grid step in SI below which digits mean nothing
 */
export function writeFigure(si: number, was: Json | undefined, dimension: Dimension, grid: number): Json {
  const now = readFigure(was, dimension);
  if (was !== undefined && now === si) return was;
  if (typeof was === 'number') return meant(si, decimalsOf(grid, '1'));
  const shown = shownUnit(dimension, si);
  const unit = (now === undefined ? undefined : unitIn(was as string)) ?? shown;
  const behind = spreadBehind(was);
  if (unit === '1') return withBehind(meant(si, decimalsOf(grid, '1')), behind);
  const number = meant(toUnit(si, unit), decimalsOf(grid, unit));
  // A text that says the same already stays as the user wrote it: '45.0 mm'.
  if (now !== undefined && sameFigure(now, fromUnit(number, unit))) return was as string;
  return `${number} ${unit}${behind}`;
}

const withBehind = (number: number, behind: string): Json => (behind === '' ? number : `${number}${behind}`);

const sameFigure = (a: number, b: number): boolean =>
  Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

/** A point as it goes into the document; everything beside x and z stays. */
export function writePoint(at: Vec2, was: Json | undefined, grid: number): Json {
  const old = isObject(was) ? was : {};
  const x = writeFigure(at.x, old.x, 'length', grid);
  const z = writeFigure(at.z, old.z, 'length', grid);
  return x === old.x && z === old.z ? old : { ...old, x, z };
}

/**
 * A figure of our own for a new part: two significant digits, in the unit that people would use, as text.
 * @param si in SI
 */
export function roundFigure(si: number, dimension: Dimension, digits = 2): Json {
  if (si === 0) return 0;
  const unit = shownUnit(dimension, si);
  if (unit === '1' || dimensions[dimension].unit === '1') return Number(si.toPrecision(digits));
  return `${Number(toUnit(si, unit).toPrecision(digits))} ${unit}`;
}
