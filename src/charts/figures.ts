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
export function forceShown(usual: number): Shown {
  const factor = usual >= 10_000 ? 1e-3 : 1;
  return { unit: factor === 1 ? 'N' : 'kN', factor, decimals: decimalsFor(usual * factor) };
}

/** How lengths of travel and ground are shown on a vehicle whose smallest wheel has this radius, m: mm on models, m at full size. */
export function lengthShown(radius: number): Shown {
  return radius < 0.3 ? { unit: 'mm', factor: 1000, decimals: 0 } : { unit: 'm', factor: 1, decimals: 2 };
}

/** How small gaps and travels are shown on such a vehicle: mm with a decimal on models, mm at full size. */
export function travelShown(radius: number): Shown {
  return { unit: 'mm', factor: 1000, decimals: radius < 0.3 ? 1 : 0 };
}

/** Angles in degrees. */
export const angleShown: Shown = { unit: '°', factor: 180 / Math.PI, decimals: 1 };

/** Times in seconds. */
export const timeShown: Shown = { unit: 's', factor: 1, decimals: 3 };

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
