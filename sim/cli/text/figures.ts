/** Figures for people. Reports for programs keep SI and all digits; nothing here is ever read back. */
import {
  type Dimension,
  dimensions,
  formatQuantity,
  formatShare,
  shownUnit,
  toUnit,
} from '../../../shared/units.ts';

/** The dimension that has this SI unit; several share some, but none that are shown in different ways here. */
function dimensionOf(unit: string): Dimension | undefined {
  return (Object.keys(dimensions) as Dimension[]).find((name) => dimensions[name].unit === unit);
}

/**
 * A value in SI for people, three significant digits in the unit that suits its size: 0.0402 m as `40.2 mm`, a share
 * as per cent, an angle in degrees. A unit that is in no table is shown as it is.
 * @param unit SI unit, '1' for a share
 */
export function figure(value: number, unit: string): string {
  if (unit === '1') return formatShare(value);
  const dimension = dimensionOf(unit);
  return dimension === undefined
    ? `${Number(value.toPrecision(3))} ${unit}`
    : formatQuantity(value, dimension);
}

/**
 * The figures of one column of a table: one unit and one number of decimals for all, so that their points stand under
 * each other; the largest has three significant digits.
 * @param values in SI
 * @param unit SI unit, '1' for shares
 */
export function column(values: readonly number[], unit: string): string[] {
  const largest = Math.max(0, ...values.map(Math.abs));
  const dimension = dimensionOf(unit);
  const shown = unit === '1' ? '%' : dimension === undefined ? unit : shownUnit(dimension, largest);
  const inUnit = (value: number): number =>
    unit === '1' ? 100 * value : dimension === undefined ? value : toUnit(value, shown);
  const top = inUnit(largest);
  const whole = top < 1 ? 1 : Math.floor(Math.log10(top)) + 1;
  const decimals = Math.max(0, (unit === '1' ? 2 : 3) - whole);
  return values.map((value) => {
    const text = inUnit(value).toFixed(decimals);
    return `${Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−')}${shown === 'deg' ? '°' : ` ${shown}`}`;
  });
}

/** A number with a word that follows it: `1 wheel`, `2 wheels`. */
export function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
