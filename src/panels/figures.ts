import {
  type Dimension,
  dimensions,
  formatNumber,
  formatShare,
  ownFigures,
  type Showing,
  showQuantity,
} from '../../shared/units.ts';

/** Shares read best in per cent; these have no unit either, but are plain numbers. */
const plainNumbers = /coefficient|residual/i;

/** The dimension that a unit of reports and recordings stands for: 'N·m' is a torque; undefined for none. */
export const dimensionOf = (unit: string): Dimension | undefined =>
  (Object.keys(dimensions) as Dimension[]).find((name) => dimensions[name].unit === unit);

/** A figure of a report for people. `name` is its name in JSON, `size` a figure whose unit it should share. */
export function figureWords(
  value: number | null,
  unit: string,
  name: string,
  showing: Showing = ownFigures,
  size = value,
): string {
  if (value === null) return '–';
  if (unit === '1') return plainNumbers.test(name) ? formatNumber(value) : formatShare(value);
  const dimension = dimensionOf(unit);
  if (dimension === undefined) return `${formatNumber(value)} ${unit}`;
  return showQuantity(value, dimension, showing, 3, size ?? value);
}

/** A difference with its sign, in the unit of the figures that differ. */
export function differenceWords(
  difference: number | null,
  unit: string,
  name: string,
  size: number | null,
  showing: Showing = ownFigures,
): string {
  if (difference === null) return '';
  // A share that goes from 10 % to 15 % has grown by half, not by 5 %: differences of shares are points.
  const words = figureWords(difference, unit, name, showing, size).replace('%', 'points');
  return difference > 0 ? `+${words}` : words;
}
