import { atThickness, type Material } from './material.ts';

/**
 * What is known of a spring or bar under repeated loads: its shear stress per load of all equal ones, Pa/N or Pa/(N·m),
 * the shear stress that it endures swung to both sides alike, Pa, and that at which it breaks at once, Pa.
 */
export interface Repeats {
  readonly per: number;
  readonly endures?: number;
  readonly breaks: number;
  /** The rule, by name. */
  readonly rule: string;
}

/** Zimmerli's amplitude and mean, Pa, for steel springs not shot-peened, whatever their steel and thickness up to 10 mm. */
const zimmerli = { amplitude: 241e6, mean: 379e6 } as const;

/** Thickest wire that they are for, m. */
const THICKEST = 0.01;

/** Shear strength over tensile strength of spring steel. Source: Joerres, in Shigley, springs (from memory). */
const SHEAR_STRENGTH = 0.67;

/**
 * The endurance line of a spring or bar of round or other section in shear.
 * - spring wire and spring steel up to 10 mm: Zimmerli (1957): 241 ± MPa about 379 MPa endures; his pair is brought to a
 *   swing about zero by Goodman's line, Se = 241/(1 − 379/Ssu), Ssu = 0.67·tensile. Source: Shigley, fatigue of springs.
 * - other steels, and thicker spring bars: 0.577 · half the tensile strength · 4.51·tensile^−0.265 (MPa; machined), above
 *   1400 MPa tensile as at 1400. Source: Shigley, endurance limit and surface factor (from memory).
 * - others: nothing published that would hold.
 * @param per stress per load, Pa/N or Pa/(N·m), @param thickness m
 */
export function repeatsOf(material: Material, thickness: number, per: number): Repeats {
  const { tensile, repeats } = atThickness(material, thickness);
  const breaks = SHEAR_STRENGTH * tensile;
  if (repeats === 'unknown') return { per, breaks, rule: '' };
  if (repeats === 'spring' && thickness <= THICKEST && breaks > zimmerli.mean)
    return {
      per,
      breaks,
      endures: zimmerli.amplitude / (1 - zimmerli.mean / breaks),
      rule: 'Goodman through Zimmerli',
    };
  const most = Math.min(tensile, 1400e6);
  const surface = Math.min(1, 4.51 * (most / 1e6) ** -0.265);
  return { per, breaks, endures: 0.577 * 0.5 * most * surface, rule: 'Goodman, machined steel' };
}

/**
 * Use of Goodman's line by a load that swings between two: amplitude/endured + mean/breaking, 1 on the line; undefined
 * where nothing is known. Source: Goodman; Shigley, fluctuating stresses.
 */
export function repeatedUse(
  { per, endures, breaks }: Repeats,
  least: number,
  most: number,
): number | undefined {
  if (endures === undefined) return undefined;
  const amplitude = (Math.abs(per) * (most - least)) / 2;
  const mean = (Math.abs(per) * Math.abs(most + least)) / 2;
  return amplitude / endures + mean / breaks;
}
