import { type Channel, column, type Recording } from '../../shared/recording.ts';
import { percentileOf } from './percentile.ts';

/** A column of a recording at given stations (rising, m): straight lines between frames; NaN where it did not get. */
export function alongStations(
  recording: Recording,
  channel: Channel,
  index: number,
  stations: ArrayLike<number>,
): Float32Array {
  const values = column(recording, channel, index);
  const at = column(recording, 'station');
  const out = new Float32Array(stations.length).fill(Number.NaN);
  // stations are passed in the sense of the drive; the first passing counts where the vehicle rolls back
  const sense = (at[at.length - 1] ?? 0) < (at[0] ?? 0) ? -1 : 1;
  const places = Array.from({ length: stations.length }, (_, i) => i);
  if (sense < 0) places.reverse();
  let frame = 0;
  for (const i of places) {
    const wanted = stations[i] as number;
    while (frame < at.length && sense * ((at[frame] as number) - wanted) < 0) frame += 1;
    if (frame >= at.length) break;
    const [after, before] = [at[frame] as number, at[frame - 1]];
    if (before === undefined) {
      if (after === wanted) out[i] = values[frame] as number;
      continue;
    }
    const share = (wanted - before) / (after - before);
    out[i] =
      (values[frame - 1] as number) + share * ((values[frame] as number) - (values[frame - 1] as number));
  }
  return out;
}

/** Percentiles of one channel over the station: one entry per station; NaN where no draw got. */
export interface Band {
  readonly of: string;
  readonly p5: Float64Array;
  readonly p50: Float64Array;
  readonly p95: Float64Array;
  /** Draws that got there. */
  readonly count: Float64Array;
}

/** The band over the rows of all draws, each from `alongStations` at the same stations. */
export function bandOf(of: string, rows: readonly Float32Array[]): Band {
  const stations = rows[0]?.length ?? 0;
  const make = () => new Float64Array(stations);
  const band = { of, p5: make(), p50: make(), p95: make(), count: make() };
  for (let s = 0; s < stations; s++) {
    const rising = Float64Array.from(rows, (row) => row[s] as number)
      .filter((value) => !Number.isNaN(value))
      .sort();
    band.p5[s] = percentileOf(rising, 0.05);
    band.p50[s] = percentileOf(rising, 0.5);
    band.p95[s] = percentileOf(rising, 0.95);
    band.count[s] = rising.length;
  }
  return band;
}
