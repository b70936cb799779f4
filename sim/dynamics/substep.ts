import type { Mechanism } from '../mechanism/mechanism.ts';
import { modesOf } from './modes.ts';

/** A substep and why it is this one. */
export interface Substep {
  /** s. */
  readonly h: number;
  /** Substeps between two recorded frames. */
  readonly perFrame: number;
  /** In words, for the recording. */
  readonly says: string;
}

/**
 * h·ω of the stiffest motion. Symplectic Euler turns a frequency ω into (2/h)·asin(h·ω/2), an error of (h·ω)²/24: 0.26 %
 * at 0.25. Source: closed form of the method's map, texts on geometric integration.
 */
export const finest = 0.25;
/** h·ω above which a forced substep is refused: the method itself ends at 2, losses and contacts end sooner. */
export const coarsest = 0.5;

/** Highest frequency of the mechanism, rad/s, with stops met and tyres pressed hard, and what causes it. */
export function stiffestMotion(mechanism: Mechanism): {
  readonly frequency: number;
  readonly damping: number;
  readonly name: string;
} {
  const modes = modesOf(mechanism, 'greatest', 0);
  const body = { frequency: modes.frequencies.at(-1) ?? 0, damping: modes.damping, name: modes.stiffest };
  return mechanism.wheels.reduce((worst, w) => {
    const spin = Math.sqrt((w.tyre.shearStiffness * w.radius ** 2) / w.inertia);
    const rub = (w.tyre.shearDamping * w.radius ** 2) / w.inertia;
    return {
      frequency: Math.max(worst.frequency, spin),
      damping: Math.max(worst.damping, rub),
      name: spin > worst.frequency ? `${w.name} spin on its tread` : worst.name,
    };
  }, body);
}

/**
 * Substep for a mechanism recorded at `rate` frames per second: a whole number of substeps per frame.
 * `forced`: s, or undefined for the fitting one.
 * @throws RangeError when a forced substep is too long for the stiffest part; the message names it and the longest one.
 */
export function chooseSubstep(mechanism: Mechanism, rate: number, forced: number | undefined): Substep {
  const stiffest = stiffestMotion(mechanism);
  const longest = Math.min(finest / stiffest.frequency, 0.5 / Math.max(stiffest.damping, 1e-12));
  if (forced !== undefined && forced * stiffest.frequency > coarsest) {
    const most = (coarsest / stiffest.frequency).toPrecision(3);
    throw new RangeError(
      `a substep of ${forced} s is too long for ${stiffest.name} (${stiffest.frequency.toPrecision(3)} rad/s): use at most ${most} s, or leave run.substep out`,
    );
  }
  // bounded, so that the substep never is zero: such a run is refused (see drive.ts)
  const perFrame = Math.min(1e9, Math.max(1, Math.ceil(1 / (rate * (forced ?? longest)) - 1e-9)));
  const h = 1 / (rate * perFrame);
  const cause =
    forced === undefined
      ? `from ${stiffest.name}, ${stiffest.frequency.toPrecision(3)} rad/s`
      : 'asked for by run.substep';
  return { h, perFrame, says: `${(h * 1e3).toPrecision(3)} ms, ${cause}` };
}
