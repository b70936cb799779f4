/** Half of the gear's teeth on the tip circle side of its contact: ε = z/2π·|tan α_a − tan α|. Standard addendum, no shift. */
function tipContact(teeth: number, pressureAngle: number, inner: boolean): number {
  // tip circle z ± 2 over base circle z·cos α, both in modules; the tip of an inner gear never goes below its base circle
  const cosine = (teeth * Math.cos(pressureAngle)) / (inner ? teeth - 2 : teeth + 2);
  const tip = Math.acos(Math.min(1, cosine));
  return (teeth / (2 * Math.PI)) * Math.abs(Math.tan(tip) - Math.tan(pressureAngle));
}

/**
 * Loss factor H_V of a straight pair: the mesh loses μ·H_V of the power that goes through. Teeth at least 3; pressure
 * angle rad; `inner` when the second gear is a ring. H_V = π·(1/z₁ ± 1/z₂)·(1 − ε_α + ε₁² + ε₂²) with ε_α = ε₁ + ε₂.
 * Source: Ohlendorf; Niemann & Winter, Maschinenelemente II (from memory).
 */
export function lossFactor(first: number, second: number, pressureAngle: number, inner = false): number {
  const e1 = tipContact(first, pressureAngle, false);
  const e2 = tipContact(second, pressureAngle, inner);
  const sum = 1 / first + (inner ? -1 : 1) / second;
  return Math.PI * sum * (1 - e1 - e2 + e1 ** 2 + e2 ** 2);
}

/** Share of the power that passes one mesh at a mean friction coefficient; above 0. */
export const meshEfficiency = (
  friction: number,
  first: number,
  second: number,
  angle: number,
  inner = false,
) => Math.max(0.01, 1 - friction * lossFactor(first, second, angle, inner));

/**
 * Efficiency of a worm that drives, and of a worm that is driven: η = (cos α − μ·tan γ)/(cos α + μ/tan γ) and
 * η' = (cos α − μ/tan γ)/(cos α + μ·tan γ), nothing or less when it locks itself. Lead angle γ and pressure angle α in
 * the normal plane, rad. Source: Shigley, Mechanical Engineering Design, worm gears (from memory).
 */
export function wormEfficiency(friction: number, lead: number, pressureAngle: number) {
  const cosine = Math.cos(pressureAngle);
  const t = Math.tan(lead);
  return {
    driving: Math.max(0.01, (cosine - friction * t) / (cosine + friction / t)),
    backDriving: Math.max(0, (cosine - friction / t) / (cosine + friction * t)),
  };
}

/** Which member of a planetary stage stands still. */
export type Fixed = 'ring' | 'sun' | 'carrier';

/**
 * A planetary stage: ratio, efficiencies from that of its meshes with the carrier at rest (η₀), and sense. Sun drives and
 * carrier is driven while the ring stands still: i = 1 + z_r/z_s, η = (1 + η₀·z_r/z_s)/i, back η' = i/(1 + z_r/(z_s·η₀));
 * with the sun at rest the same with ring and sun exchanged; with the carrier at rest a plain train, i = z_r/z_s,
 * η = η₀, output against input. Source: Willis; Müller, Die Umlaufgetriebe (from memory).
 */
export function planetary(sun: number, ring: number, fixed: Fixed, atRest: number) {
  if (fixed === 'carrier')
    return { ratio: ring / sun, driving: atRest, backDriving: atRest, sense: -1 as const };
  const r = fixed === 'ring' ? ring / sun : sun / ring;
  const ratio = 1 + r;
  return {
    ratio,
    driving: (1 + atRest * r) / ratio,
    backDriving: ratio / (1 + r / atRest),
    sense: 1 as const,
  };
}
