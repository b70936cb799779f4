import { type Dimension, dimensions } from './dimensions.ts';
import { readUnit } from './expression.ts';
import { scaled, unscaled } from './symbols.ts';

/** A unit to show figures in, and the size in SI from which it is used. */
interface Rung {
  readonly unit: string;
  readonly from: number;
}

const rung = (unit: string, from = 0): Rung => ({ unit, from });

/** Units for people, smallest first: those in which builders of models and, further up, of full-size trucks speak. */
const ladders: Readonly<Record<Dimension, readonly Rung[]>> = {
  length: [rung('mm'), rung('m', 1), rung('km', 10_000)],
  mass: [rung('g'), rung('kg', 1), rung('t', 10_000)],
  time: [rung('ms'), rung('s', 1)],
  angle: [rung('deg')],
  force: [rung('N'), rung('kN', 10_000)],
  torque: [rung('N·mm'), rung('N·m', 1), rung('kN·m', 10_000)],
  speed: [rung('m/s')],
  spin: [rung('rpm')],
  acceleration: [rung('m/s²')],
  stiffness: [rung('N/mm'), rung('kN/mm', 1e6)],
  torsionStiffness: [
    rung('N·mm/deg'),
    rung('N·m/deg', 180 / Math.PI),
    rung('kN·m/deg', (1000 * 180) / Math.PI),
  ],
  damping: [rung('N·s/m'), rung('kN·s/m', 10_000)],
  torsionDamping: [rung('N·mm·s/rad'), rung('N·m·s/rad', 1), rung('kN·m·s/rad', 10_000)],
  inertia: [rung('kg·mm²'), rung('kg·m²', 0.01)],
  stress: [rung('Pa'), rung('kPa', 1e3), rung('MPa', 1e6), rung('GPa', 1e9)],
  ratio: [rung('1')],
  energy: [rung('mJ'), rung('J', 1), rung('kJ', 10_000)],
  power: [rung('W'), rung('kW', 10_000)],
  frequency: [rung('Hz')],
  roughness: [rung('m³')],
  perLengthSpeed: [rung('s/m')],
  voltage: [rung('V'), rung('kV', 10_000)],
  current: [rung('mA'), rung('A', 1)],
  resistance: [rung('mΩ'), rung('Ω', 1)],
  charge: [rung('mA·h'), rung('A·h', 36_000)],
  temperature: [rung('K')],
  heatCapacity: [rung('J/K'), rung('kJ/K', 10_000)],
  thermalResistance: [rung('K/W')],
};

/**
 * The unit in which a person would speak of a figure of this size: 'mm' for 0.045 (a length in SI), 'kN' for 12,000 (a
 * force). For an axis give the largest figure on it; for a field, its present one.
 */
export function shownUnit(dimension: Dimension, size: number): string {
  const ladder = ladders[dimension];
  // 0.9995 m is shown as "1 m", not "1000 mm": three digits are rounded before the unit is chosen.
  const rounded = Number.isFinite(size) ? Math.abs(Number(size.toPrecision(3))) : 0;
  const first = size === 0 ? undefined : ladder.findLast((step) => rounded >= step.from);
  return (first ?? ladder[0])?.unit ?? dimensions[dimension].unit;
}

/** All units that figures of this dimension are shown in, smallest first: for a unit menu. */
export function shownUnits(dimension: Dimension): readonly string[] {
  return ladders[dimension].map((step) => step.unit);
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
