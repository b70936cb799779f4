import { column, type Recording } from '../../shared/recording.ts';
import { chainOf, type DriveChain } from '../driveline/chain.ts';
import type { DrivePart } from '../driveline/driveline.ts';
import { type Kinematics, makeKinematics } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { stationWords } from '../report/words.ts';
import type { Track } from './track.ts';
import { carriesWords, figureWords, usedWords } from './words.ts';

/** What every part of a drive line carries over a run, frame by frame; of ONE part. */
export interface PartSeries {
  readonly part: DrivePart;
  readonly index: number;
  /** N·m, a size, at its worst in a turn of a joint; what it may carry there; the share of it. NaN: not known. */
  readonly torque: Float64Array;
  readonly limit: Float64Array;
  readonly use: Float64Array;
  /** Joints: angle, rad, and its share of the greatest one; NaN where not known. */
  readonly angle: Float64Array;
  readonly angleUse: Float64Array;
}

/** Parts and battery over a run. */
export interface DriveSeries {
  readonly parts: readonly PartSeries[];
  /** Current that the battery gives, A; NaN where figures are missing. */
  readonly current: Float64Array;
}

/** Solves the chain in every frame of a run; undefined without a drive line. */
export function driveSeries({ mechanism, recording }: Run): DriveSeries | undefined {
  const chain = chainOf(mechanism);
  if (chain === undefined) return undefined;
  const row = () => new Float64Array(recording.frames);
  const parts = chain.driveline.parts.map((part, index): PartSeries => {
    return { part, index, torque: row(), limit: row(), use: row(), angle: row(), angleUse: row() };
  });
  const current = row();
  const poses = new Poses(mechanism, recording);
  const torques = mechanism.wheels.map((_, w) => column(recording, 'torque', w));
  const here = new Float64Array(torques.length);
  const speeds = column(recording, 'speed');
  for (let f = 0; f < recording.frames; f++) {
    for (let w = 0; w < here.length; w++) here[w] = torques[w]?.[f] as number;
    chain.solve(here, senseAt(speeds[f] as number, mechanism), poses.at(f));
    current[f] = chain.supplyCurrent;
    for (const series of parts) take(series, chain, f);
  }
  return { parts, current };
}

/** Which way the vehicle goes; where it stands still, the way that it is driven. */
const senseAt = (speed: number, { drive }: Mechanism): 1 | -1 =>
  (speed === 0 ? drive.speed : speed) < 0 ? -1 : 1;

function take(
  { index, torque, limit, use, angle, angleUse }: PartSeries,
  chain: DriveChain,
  f: number,
): void {
  torque[f] = chain.carries(index);
  limit[f] = chain.limit(index)?.value ?? Number.NaN;
  use[f] = chain.partUse(index);
  angle[f] = chain.angle[index] as number;
  angleUse[f] = chain.angleUse(index);
}

/** Columns of one body. */
type PoseColumns = readonly [x: Float64Array, z: Float64Array, turn: Float64Array];

/** Poses of all bodies out of a recording, one frame at a time. */
class Poses {
  readonly #k: Kinematics;
  readonly #columns: readonly PoseColumns[];

  constructor({ bodies }: Mechanism, recording: Recording) {
    this.#k = makeKinematics(bodies.length);
    this.#columns = bodies.map((_, b) => [
      column(recording, 'x', b),
      column(recording, 'z', b),
      column(recording, 'angle', b),
    ]);
  }

  /** Places of a frame; written over by the next call. */
  at(frame: number): Kinematics {
    const k = this.#k;
    for (let b = 0; b < this.#columns.length; b++) {
      const [x, z, angle] = this.#columns[b] as PoseColumns;
      k.x[b] = x[frame] as number;
      k.z[b] = z[frame] as number;
      k.angle[b] = angle[frame] as number;
      k.cos[b] = Math.cos(k.angle[b] as number);
      k.sin[b] = Math.sin(k.angle[b] as number);
    }
    return k;
  }
}

/** Torque of every part against its rating, angle of every joint against its greatest, current against the battery's. */
export function partTracks(run: Run, series: DriveSeries): Track[] {
  return [
    ...series.parts.flatMap((each) => [torqueTrack(run, each), ...angleTrack(run, each)]),
    ...supplyTrack(run, series.current),
  ];
}

function torqueTrack(run: Run, { part, torque, limit, use }: PartSeries): Track {
  const { name, sort, index, count, rating } = part;
  const motor = part.law.motor !== undefined;
  const known = rating === undefined || motor ? {} : { how: rating.how, spread: rating.spread };
  const of = count > 1 ? `${name} (one of ${count})` : name;
  const stations = column(run.recording, 'station');
  const at = (f: number) => (Number.isNaN(limit[f]) ? undefined : (limit[f] as number));
  return {
    head: {
      sort,
      of: name,
      path: `vehicle.driveline.parts[${index}]`,
      quantity: 'torque',
      unit: 'N·m',
      ...(motor ? { how: 'given' as const } : known),
    },
    use,
    carries: torque,
    limit: at,
    says: (f) => {
      const place = stationWords(run, stations[f] as number);
      const carried = torque[f] as number;
      if (!motor) return carriesWords(of, carried, at(f), 'N·m', place, known);
      return `${of} gives ${figureWords(carried, 'N·m')} at ${place} and has ${figureWords(at(f) ?? 0, 'N·m')} at standstill (${usedWords(use[f] as number)}).`;
    },
  };
}

function angleTrack(run: Run, { part, angle, angleUse }: PartSeries): Track[] {
  const most = part.law.angled?.mostAngle;
  if (most === undefined || !angle.some((a) => !Number.isNaN(a))) return [];
  const stations = column(run.recording, 'station');
  return [
    {
      head: {
        sort: part.sort,
        of: part.name,
        path: `vehicle.driveline.parts[${part.index}].mostAngle`,
        quantity: 'angle',
        unit: 'rad',
        how: 'given',
      },
      use: angleUse,
      carries: angle,
      limit: () => most,
      says: (f) =>
        `${part.name} bends by ${figureWords(angle[f] as number, 'rad')} at ${stationWords(run, stations[f] as number)} and can take ${figureWords(most, 'rad')} (${usedWords(angleUse[f] as number)}).`,
    },
  ];
}

function supplyTrack(run: Run, current: Float64Array): Track[] {
  const most = run.mechanism.driveline?.supply?.currentLimit;
  if (most === undefined || current.some(Number.isNaN)) return [];
  const stations = column(run.recording, 'station');
  const carries = current.map((amperes) => Math.max(0, amperes));
  return [
    {
      head: {
        sort: 'supply',
        of: 'battery',
        path: 'vehicle.driveline.battery.currentLimit',
        quantity: 'current',
        unit: 'A',
        how: 'given',
      },
      use: carries.map((amperes) => amperes / most),
      carries,
      limit: () => most,
      says: (f) =>
        `The battery gives ${figureWords(carries[f] as number, 'A')} at ${stationWords(run, stations[f] as number)} and may give ${figureWords(most, 'A')} (${usedWords((carries[f] as number) / most)}).`,
    },
  ];
}
