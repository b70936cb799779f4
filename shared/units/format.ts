import { type Dimension, dimensions } from './dimensions.ts';
import { readUnit } from './expression.ts';
import { scaled, unscaled } from './symbols.ts';
import { rungsOf, type UnitSystem } from './systems.ts';

/**
 * The unit in which a person would speak of a figure of this size: 'mm' for 0.045 (a length in SI), 'kN' for 12,000 (a
 * force). For an axis give the largest figure on it; for a field, its present one.
 */
export function shownUnit(dimension: Dimension, size: number, system: UnitSystem = 'builder'): string {
  const ladder = rungsOf(dimension, system);
  // 0.9995 m is shown as "1 m", not "1000 mm": three digits are rounded before the unit is chosen.
  const rounded = Number.isFinite(size) ? Math.abs(Number(size.toPrecision(3))) : 0;
  const first = size === 0 ? undefined : ladder.findLast((step) => rounded >= step.from);
  return (first ?? ladder[0])?.unit ?? dimensions[dimension].unit;
}

/** All units that figures of this dimension are shown in, smallest first: for a unit menu. */
export function shownUnits(dimension: Dimension): readonly string[] {
  return rungsOf(dimension, 'builder').map((step) => step.unit);
}

function factorOf(unit: string): number {
  if (unit === '1') return 1;
  const read = readUnit(unit);
  if (!read.ok) throw new RangeError(read.message);
  return read.value.factor;
}

/**
 * An SI figure in `unit`: toUnit(0.045, 'mm') is 45.
 * @throws RangeError if there is no such unit
 */
export function toUnit(value: number, unit: string): number {
  return unscaled(value, factorOf(unit));
}

/**
 * A figure in `unit` in SI: fromUnit(45, 'mm') is 0.045.
 * @throws RangeError if there is no such unit
 */
export function fromUnit(value: number, unit: string): number {
  return scaled(value, factorOf(unit));
}

/**
 * A number with so many significant digits, without trailing zeros and, between 1e-4 and 1e9, without powers of ten;
 * whole digits are never dropped (12345 stays 12345). '—' when it isn't finite. The minus is a true minus sign.
 */
export function formatNumber(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return '—';
  const size = Math.abs(value);
  if (size === 0) return '0';
  if (size < 1e-4 || size >= 1e9) {
    const power = value.toExponential(digits - 1).replace(/\.?0*e\+?/, 'e');
    return power.replace(/^-/, '−');
  }
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  const text = value.toFixed(Math.min(places, 20));
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return (Number(trimmed) === 0 ? '0' : trimmed).replace(/^-/, '−');
}

/**
 * An SI figure for people: formatQuantity(0.045, 'length') is '45 mm', 350 N/m '0.35 N/mm', 0.2 rad '11.5°'. `digits`
 * are significant ones; `unit` forces the unit, so that a column of figures keeps one. parseQuantity reads it back.
 */
export function formatQuantity(
  value: number,
  dimension: Dimension,
  digits = 3,
  unit = shownUnit(dimension, value),
): string {
  if (!Number.isFinite(value)) return '—';
  const number = formatNumber(toUnit(value, unit), digits);
  if (unit === '1') return number;
  return unit === 'deg' ? `${number}°` : `${number} ${unit}`;
}

/** A share for people: formatShare(0.123) is '12.3 %'. */
export function formatShare(share: number, digits = 3): string {
  return Number.isFinite(share) ? `${formatNumber(100 * share, digits)} %` : '—';
}
