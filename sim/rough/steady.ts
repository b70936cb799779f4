import { column, type Recording } from '../../shared/recording.ts';
import type { Ground } from '../ground/ground.ts';
import type { Scenario } from '../scenario/schema.ts';

/** A stretch of ground, stations in m. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Frames `from` … `to` − 1 of a recording, of which the statistics are made. */
export interface Steady extends Stretch {
  /** Frames that were cut because the vehicle was not wholly on the ground asked about, or not yet at its speed. */
  readonly before: number;
  /** Frames that were cut after these, since the start had not died away. */
  readonly dying: number;
}

/** What is done, in words that stand beside every result. */
export const cutWords =
  'Left out: what comes before all wheels are past the stretch where the ground rises to its full height and the speed has reached 95 % of its target; then the beginning that makes what remains more uncertain rather than less (MSER-5 rule, White 1997, on the squared chassis acceleration; half at most); and what comes after the first wheel reaches the fading end.';

/**
 * Where the longest piece of random rough ground has its full height: between the tapers.
 * @returns undefined when the scenario has no such piece
 */
export function roughStretch(scenario: Pick<Scenario, 'ground'>, ground: Ground): Stretch | undefined {
  const stretches = scenario.ground.flatMap((piece, i): Stretch[] => {
    const laid = ground.pieces[i];
    if (piece.kind !== 'rough' || laid === undefined) return [];
    const taper = piece.taper ?? piece.length / 10;
    return [{ from: laid.from + taper, to: laid.to - taper }];
  });
  return stretches.reduce<Stretch | undefined>(
    (longest, each) =>
      longest === undefined || each.to - each.from > longest.to - longest.from ? each : longest,
    undefined,
  );
}

/**
 * The part of a drive whose statistics are those of the ground and not of its start: see `cutWords`.
 * @param speed target speed, m/s, its sign that of the drive
 * @returns undefined when fewer than 120 frames, two segments, are left
 */
export function steadyPart(recording: Recording, stretch: Stretch, speed: number): Steady | undefined {
  const wheels = recording.wheels.map((_, i) => column(recording, 'wheelStation', i));
  const speeds = column(recording, 'speed');
  const inside = (frame: number) =>
    wheels.every((at) => (at[frame] as number) >= stretch.from && (at[frame] as number) <= stretch.to);
  let begin = 0;
  const sense = Math.sign(speed);
  while (
    begin < recording.frames &&
    !(inside(begin) && sense * (speeds[begin] as number) >= 0.95 * Math.abs(speed))
  )
    begin += 1;
  let to = begin;
  while (to < recording.frames && inside(to)) to += 1;
  const acceleration = column(recording, 'heaveAcceleration').subarray(begin, to);
  const dying = dyingFrames(
    acceleration.map((a) => a * a),
    Math.max(5, Math.round(recording.rate / 20)),
  );
  const from = begin + dying;
  return to - from < 120 ? undefined : { from, to, before: begin, dying };
}

/**
 * Frames at the beginning of a series to leave out so that the standard error of the mean of the rest is least, looking
 * at means of `batch` frames; half of the series at most.
 * Source: K. P. White, "An effective truncation heuristic for bias reduction in simulation output", Simulation 69 (1997)
 * 323–334; in batches of five: White, Cobb and Spratt (2000). MSER(d) = Σ_{i>d} (yᵢ − mean)²/(n − d)².
 */
export function dyingFrames(series: ArrayLike<number>, batch: number): number {
  const count = Math.floor(series.length / batch);
  const means = Float64Array.from({ length: count }, (_, b) => {
    let sum = 0;
    for (let i = b * batch; i < (b + 1) * batch; i++) sum += series[i] as number;
    return sum / batch;
  });
  let [sum, squares, best, least] = [0, 0, 0, Number.POSITIVE_INFINITY];
  for (let d = count - 1; d >= 0; d--) {
    const value = means[d] as number;
    sum += value;
    squares += value * value;
    const left = count - d;
    const error = (squares - (sum * sum) / left) / (left * left);
    if (d <= count / 2 && error <= least) [best, least] = [d, error];
  }
  return best * batch;
}
