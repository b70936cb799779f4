import type { Report } from '../../shared/report.ts';
import type { RoughFigures } from '../rough/statistics.ts';

/** Power spectral densities of one speed: lists of equal length. */
export interface SpectraReport {
  /** Hz. */
  readonly frequency: readonly number[];
  /** Of the vertical acceleration of the chassis, (m/s²)²/Hz. */
  readonly acceleration: readonly number[];
  /** Of the load of each axle line, N²/Hz. */
  readonly loads: readonly { readonly wheel: string; readonly density: readonly number[] }[];
  /** Factors from a density to the ends of its 95 % interval. */
  readonly low: number;
  readonly high: number;
}

/** What drives at one speed came to. */
export interface SpeedReport {
  /** m/s, negative rearward. */
  readonly speed: number;
  /** Every ride gets to its end and holds all criteria. */
  readonly holds: boolean;
  /** Why not, each reason once. */
  readonly why: readonly string[];
  /** Seeds of the ground, one per ride. */
  readonly seeds: readonly number[];
  /** Seconds of each ride that were left out at its beginning. */
  readonly cut: readonly number[];
  /** null where too little of the rides is left. */
  readonly figures: RoughFigures | null;
  readonly spectra: SpectraReport | null;
}

/** What `rough` prints. */
export interface RoughReport
  extends Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg' | 'pitchInertia' | 'problems' | 'pass'> {
  readonly mode: 'rough';
  /** Stations between which the ground has its full height, m. */
  readonly stretch: { readonly from: number; readonly to: number };
  /** What is left out of every ride, in words. */
  readonly cutSays: string;
  /** The slowest first. */
  readonly speeds: readonly SpeedReport[];
  /** Fastest speed at which, and below which, all that was tried holds; null when there is none. m/s. */
  readonly fastest: number | null;
  /** Slowest speed that was seen to fail; null when there is none. m/s. */
  readonly fails: number | null;
}
