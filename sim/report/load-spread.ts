import { column } from '../../shared/recording.ts';
import type { Bogie } from './bogies.ts';
import type { Run } from './criterion.ts';
import type { Peak } from './moments.ts';

/** Load spread of one bogie over the run, as shares of its mean standing load per wheel. */
export interface Spread {
  /** Greatest spread and its frame. */
  readonly peak: Peak;
  /** Mean over all frames. */
  readonly mean: number;
  /** Indices of the most and the least loaded wheel at the greatest spread. */
  readonly most: number;
  readonly least: number;
}

/**
 * Spread of the load between the wheels of a bogie: in each frame, load on ONE wheel of the most loaded line less
 * that of the least loaded line, over the mean standing load per wheel of the bogie. 0 is an even share; 2 is all on
 * one of two lines. Undefined when the bogie carries nothing when standing, or has no finite load.
 */
export function spreadOf({ mechanism, recording }: Run, bogie: Bogie): Spread | undefined {
  const counts = bogie.wheels.map((wheel) => mechanism.wheels[wheel]?.count ?? 1);
  const standing =
    bogie.wheels.reduce(
      (sum, wheel, i) => sum + (recording.standing.loads[wheel] ?? 0) / (counts[i] ?? 1),
      0,
    ) / bogie.wheels.length;
  if (!(standing > 0)) return undefined;
  const loads = bogie.wheels.map((wheel) => column(recording, 'load', wheel));
  let best: Spread | undefined;
  let sum = 0;
  let counted = 0;
  for (let frame = 0; frame < recording.frames; frame++) {
    const each = loads.map((values, i) => (values[frame] ?? Number.NaN) / (counts[i] ?? 1));
    const most = each.indexOf(Math.max(...each));
    const least = each.indexOf(Math.min(...each));
    const value = ((each[most] ?? Number.NaN) - (each[least] ?? Number.NaN)) / standing;
    if (!Number.isFinite(value)) continue;
    sum += value;
    counted += 1;
    if (best === undefined || value > best.peak.value) {
      best = {
        peak: { value, frame },
        mean: 0,
        most: bogie.wheels[most] ?? -1,
        least: bogie.wheels[least] ?? -1,
      };
    }
  }
  return best && { ...best, mean: sum / counted };
}
