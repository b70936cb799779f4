/**
 * Figures with units: reading what people write, and writing what they read. SI inside, units at the edges. This is
 * the only place with conversion factors. Ready-made libraries were looked at: the small ones don't know compound
 * units or dimensions, the others cost more than the table and take N·m/rad for N·m.
 */
export type { Dimension } from './units/dimensions.ts';
export { dimensions, unitOf } from './units/dimensions.ts';
export { evaluateField } from './units/field.ts';
export {
  formatNumber,
  formatQuantity,
  formatShare,
  fromUnit,
  shownUnit,
  shownUnits,
  toUnit,
} from './units/format.ts';
export { parseQuantity } from './units/parse.ts';
export type { Read } from './units/reading.ts';
export {
  fullSizeFactor,
  ownFigures,
  type Showing,
  scaleWords,
  shownScale,
  showQuantity,
  showSentence,
} from './units/showing.ts';
export { type Figure, parseFigure, type Spread, spreadBehind, writtenUnit } from './units/spread.ts';
export { rungsOf, type UnitSystem, unitSystems } from './units/systems.ts';
