/**
 * Pull on the vehicle over the pull of the winch, with `lines` lines over `lines − 1` sheaves of this efficiency: the
 * next line has η times the tension of the one before, 1 + η + η² + …
 * Source: statics of a tackle whose sheaves each pass on η of the tension.
 */
export function gainOf(lines: number, sheave: number): number {
  let gain = 0;
  for (let i = 0, share = 1; i < lines; i++, share *= sheave) gain += share;
  return gain;
}

/** Longer by this share when it breaks, where the document does not say. Typical; common practice, no source. */
export const typicalStretch = { wire: 0.02, synthetic: 0.04 } as const;

/** A rope under tension. */
export interface Stretched {
  /** Tension of the line on the drum, N, and the lines with their sheaves. */
  readonly tension: number;
  readonly lines: number;
  readonly sheave: number;
  /** Length of ONE line, m. */
  readonly length: number;
  readonly strength: number;
  /** Longer by this share at `strength`. */
  readonly stretch: number;
}

/** Energy stored in the lines of a stretched rope, J: Σ ½·T·ΔL with a straight line of stretch over tension (Hooke). */
export function storedIn({ tension, lines, sheave, length, strength, stretch }: Stretched): number {
  const squares = gainOf(lines, sheave * sheave);
  return (0.5 * squares * tension * tension * stretch * length) / strength;
}

/** Friction of a rope on its drum that is counted on, and no more. Common practice, no source. */
const onDrum = 0.1;

/**
 * Load on the rope's fastening behind `turns` turns on the drum, N: T·e^(−μφ).
 * Source: rope friction (Euler, Eytelwein), any text on statics.
 */
export const endLoad = (tension: number, turns: number, friction = onDrum): number =>
  tension * Math.exp(-friction * 2 * Math.PI * turns);
