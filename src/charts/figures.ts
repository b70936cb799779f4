import {
  type Dimension,
  fullSizeFactor,
  ownFigures,
  type Showing,
  shownScale,
  toUnit,
  type UnitSystem,
} from '../../shared/units.ts';

/** How figures of one quantity are shown: SI value × factor, with this unit and this many decimals. */
export interface Shown {
  readonly unit: string;
  readonly factor: number;
  readonly decimals: number;
}

/** Decimals that give a value of this size three significant digits, 0 to 3. */
function decimalsFor(size: number): number {
  if (!(size > 0) || !Number.isFinite(size)) return 0;
  return Math.min(3, Math.max(0, 2 - Math.floor(Math.log10(size))));
}

/** How forces are shown where a usual one has this size, N: N, or kN from 10 kN. The same for a whole run. */
export function forceShown(usual: number, showing: Showing = ownFigures): Shown {
  const { unit, factor } = shownScale('force', usual, showing);
  return { unit, factor, decimals: decimalsFor(usual * factor) };
}

/** Wheels from this radius on are those of a full-size vehicle, m. */
const LARGE = 0.3;

/** Units of lengths by system: of a model and of a full-size vehicle, each with its decimals for stations and for travel. */
const lengths: Readonly<Record<UnitSystem, readonly (readonly [string, number, number])[]>> = {
  builder: [
    ['mm', 0, 1],
    ['m', 2, 0],
  ],
  si: [
    ['m', 3, 4],
    ['m', 2, 3],
  ],
  inch: [
    ['in', 1, 3],
    ['ft', 2, 2],
  ],
};

function shownIn(unit: string, dimension: Dimension, decimals: number, { scale }: Showing): Shown {
  return { unit, factor: toUnit(1, unit) * fullSizeFactor(dimension, scale), decimals };
}

const isLarge = (radius: number, { scale }: Showing): boolean => radius * scale >= LARGE;

/** How lengths of travel and ground are shown on a vehicle whose smallest wheel has this radius, m: mm on models, m at full size. */
export function lengthShown(radius: number, showing: Showing = ownFigures): Shown {
  const [unit, decimals] = lengths[showing.system][isLarge(radius, showing) ? 1 : 0] ?? ['m', 3];
  return shownIn(unit, 'length', decimals, showing);
}

/** How small gaps and travels are shown on such a vehicle: mm with a decimal on models, mm at full size. */
export function travelShown(radius: number, showing: Showing = ownFigures): Shown {
  const { system } = showing;
  const [, , decimals] = lengths[system][isLarge(radius, showing) ? 1 : 0] ?? ['m', 3, 4];
  return shownIn({ builder: 'mm', si: 'm', inch: 'in' }[system], 'length', decimals, showing);
}

/** Angles in degrees. */
export const angleShown: Shown = { unit: '°', factor: 180 / Math.PI, decimals: 1 };

/** Angles as they are wanted. */
export const angleShownIn = ({ system }: Showing): Shown =>
  system === 'si' ? { unit: 'rad', factor: 1, decimals: 3 } : angleShown;

/** Times in seconds. */
export const timeShown: Shown = { unit: 's', factor: 1, decimals: 3 };

/** Times in seconds: the model's, or those of its full size. */
export const timeShownIn = (showing: Showing): Shown => shownIn('s', 'time', 3, showing);

/** The figure without its unit; a true minus sign, and no minus before a zero. */
export function figure(value: number, shown: Shown): string {
  if (!Number.isFinite(value)) return '–';
  const text = (value * shown.factor).toFixed(shown.decimals);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text.replace('-', '−');
}

/** The figure with its unit: '12.7 N', '−3.1°'. */
export function withUnit(value: number, shown: Shown): string {
  return `${figure(value, shown)}${shown.unit === '°' ? '' : ' '}${shown.unit}`;
}
