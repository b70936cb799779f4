import { column, type Recording } from '../../shared/recording.ts';
import { type Flight, flights } from '../report/flights.ts';
import { cutsOf, type Estimate, meanOf, segmentMeans, segmentsPerRide, through } from './segments.ts';
import type { Steady } from './steady.ts';
import { partLength, type Spectrum, welch } from './welch.ts';

/** What is kept of one drive: its steady part. */
export interface Ride {
  readonly wheels: readonly string[];
  readonly rate: number;
  /** Time of the first and the last frame, s, and the way between them, m. */
  readonly from: number;
  readonly to: number;
  readonly way: number;
  /** Vertical acceleration of the chassis at its centre of mass, m/s², and load of each axle line, N, frame by frame. */
  readonly acceleration: Float64Array;
  readonly loads: readonly Float64Array[];
  readonly flights: readonly Flight[];
  readonly cut: Pick<Steady, 'before' | 'dying'>;
}

/** Copies the steady part of a drive, so that the rest can be let go. */
export function rideOf(recording: Recording, { from, to, before, dying }: Steady): Ride {
  const time = column(recording, 'time');
  const station = column(recording, 'station');
  return {
    wheels: recording.wheels,
    rate: recording.rate,
    from: time[from] as number,
    to: time[to - 1] as number,
    way: Math.abs((station[to - 1] as number) - (station[from] as number)),
    acceleration: column(recording, 'heaveAcceleration').slice(from, to),
    loads: recording.wheels.map((_, i) => column(recording, 'load', i).slice(from, to)),
    flights: flights(recording),
    cut: { before, dying },
  };
}

/** Figures of one axle line on rough ground. */
export interface WheelFigures {
  readonly wheel: string;
  /** Mean load, N, and the RMS of what goes up and down about it. */
  readonly load: number;
  readonly loadRms: Estimate;
  /** Dynamic load coefficient: that RMS over the mean. */
  readonly coefficient: Estimate;
  /** Share of the time off the ground, and lift-offs per kilometre. */
  readonly off: Estimate;
  readonly liftOffs: Estimate;
}

/** Figures of rides over rough ground at one speed; intervals hold with 95 %. SI. */
export interface RoughFigures {
  readonly rides: number;
  /** Time and way behind the figures, s and m, over all rides. */
  readonly time: number;
  readonly way: number;
  /** Independent segments in all, s of one, and the correlation that is left between neighbours. */
  readonly segments: { readonly count: number; readonly seconds: number; readonly correlation: number };
  /** RMS of the vertical acceleration of the chassis, m/s². */
  readonly acceleration: Estimate;
  readonly wheels: readonly WheelFigures[];
}

/** Shortest segment, s of model time at 240 frames per second: 60 frames, so that a segment has many in it. */
const shortestSegment = 60;

/**
 * Figures of rides at the same speed over equal stretches of grounds with the same statistics, with the confidence that
 * their independent segments give: means over segments scatter as independent values do, so that Student's t applies.
 * Source: method of batch means, any text on simulation (A. Law, Simulation Modeling and Analysis). Dynamic load
 * coefficient: see the measure of that name.
 * @throws RangeError without a ride
 */
export function figuresOf(rides: readonly Ride[]): RoughFigures {
  const [first] = rides;
  if (first === undefined) throw new RangeError('there is no ride');
  const squares = rides.map(({ acceleration }) => acceleration.map((a) => a * a));
  const { perRide, correlation } = segmentsPerRide(squares, shortestSegment);
  const time = rides.reduce((sum, { from, to }) => sum + to - from, 0);
  const meansOver = (series: readonly Float64Array[]): number[] =>
    series.flatMap((each) => segmentMeans(each, cutsOf(each.length, perRide)));
  return {
    rides: rides.length,
    time,
    way: rides.reduce((sum, { way }) => sum + way, 0),
    segments: {
      count: perRide * rides.length,
      seconds: time / (perRide * rides.length),
      correlation,
    },
    acceleration: through(meanOf(meansOver(squares)), Math.sqrt),
    wheels: first.wheels.map((wheel, i) => {
      const loads = rides.map((ride) => ride.loads[i] as Float64Array);
      const load = meanOf(meansOver(loads)).value;
      const variance = meanOf(meansOver(loads.map((each) => each.map((l) => (l - load) ** 2))));
      const loadRms = through(variance, Math.sqrt);
      return {
        wheel,
        load,
        loadRms,
        coefficient: through(loadRms, (rms) => rms / load),
        off: offOf(rides, i, perRide),
        liftOffs: liftOffsOf(rides, i, perRide),
      };
    }),
  };
}

/** Equal times of a ride, one pair of ends per segment, s. */
function spansOf({ from, to }: Ride, count: number): readonly (readonly [from: number, to: number])[] {
  const end = (s: number) => from + ((to - from) * s) / count;
  return Array.from({ length: count }, (_, s) => [end(s), end(s + 1)] as const);
}

function offOf(rides: readonly Ride[], wheel: number, perRide: number): Estimate {
  const shares = rides.flatMap((ride) => {
    const own = ride.flights.filter((flight) => flight.wheel === wheel);
    return spansOf(ride, perRide).map(
      ([from, to]) =>
        own.reduce((sum, f) => sum + Math.max(0, Math.min(to, f.to) - Math.max(from, f.from)), 0) /
        (to - from),
    );
  });
  const { value, low, high } = meanOf(shares);
  return { value, low: Math.max(0, low), high: Math.min(1, high) };
}

/**
 * Lift-offs per kilometre. Where none was seen the high end is −ln(0.025) over the way: a rate above it would have shown
 * one with 97.5 % (Poisson events, any text on statistics).
 */
function liftOffsOf(rides: readonly Ride[], wheel: number, perRide: number): Estimate {
  const rates = rides.flatMap((ride) => {
    const own = ride.flights.filter((flight) => flight.wheel === wheel);
    const kilometres = ride.way / perRide / 1000;
    return spansOf(ride, perRide).map(
      ([from, to]) => own.filter((f) => f.from >= from && f.from < to).length / kilometres,
    );
  });
  const { value, low, high } = meanOf(rates);
  if (value > 0) return { value, low: Math.max(0, low), high };
  return { value, low: 0, high: -Math.log(0.025) / (rides.reduce((sum, { way }) => sum + way, 0) / 1000) };
}

/** Power spectral densities of rides at one speed. */
export interface Spectra {
  /** Of the chassis acceleration, (m/s²)²/Hz, and of the load of each axle line, N²/Hz. */
  readonly acceleration: Spectrum;
  readonly loads: readonly Spectrum[];
}

/** Spectra over the steady parts of all rides; undefined when these are too short. */
export function spectraOf(rides: readonly Ride[]): Spectra | undefined {
  const [first] = rides;
  if (first === undefined) return undefined;
  const length = partLength(
    rides.reduce((least, r) => Math.min(least, r.acceleration.length), Number.POSITIVE_INFINITY),
  );
  if (length === 0) return undefined;
  const of = (series: readonly Float64Array[]) => welch(series, first.rate, length);
  const acceleration = of(rides.map((ride) => ride.acceleration));
  const loads = first.wheels.flatMap((_, i) => of(rides.map((ride) => ride.loads[i] as Float64Array)) ?? []);
  return acceleration === undefined ? undefined : { acceleration, loads };
}
