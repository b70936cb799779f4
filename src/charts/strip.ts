import { ownFigures, type Showing } from '../../shared/units.ts';
import { angleShownIn, forceShown, type Shown, travelShown } from './figures.ts';
import type { Span } from './layout.ts';
import { niceRange } from './ticks.ts';
import type { Tracks } from './tracks.ts';
import { extremes } from './words.ts';

/** One curve of a strip. Its axis is the wheel's own station, or the vehicle's. */
export interface Curve {
  readonly name: string;
  /** Short name at the line's end: the axle's number; empty for the vehicle itself. */
  readonly key: string;
  readonly station: Float64Array;
  readonly values: Float64Array;
  readonly dash: readonly number[];
  /** The same of the run before. */
  readonly before?: {
    readonly station: Float64Array;
    readonly time: Float64Array;
    readonly values: Float64Array;
  };
}

/** One strip: some curves over a common scale. */
export interface Strip {
  readonly title: string;
  readonly shown: Shown;
  readonly curves: readonly Curve[];
  /** Range of the scale, SI. */
  readonly range: Span;
  /** Values with a dotted line through them, SI. */
  readonly references: readonly number[];
}

/** Dashes by which wheels differ, px on and off; they repeat after the eighth wheel, the numbers at the lines' ends do not. */
const DASHES: readonly (readonly number[])[] = [
  [],
  [7, 3],
  [2, 2.5],
  [9, 3, 2, 3],
  [4, 2],
  [12, 3],
  [2, 5],
  [9, 3, 2, 3, 2, 3],
];

export function dashOf(i: number): readonly number[] {
  return DASHES[i % DASHES.length] ?? [];
}

/** Standing loads, those that are nearly equal (within 2 %) as one. */
function references(loads: readonly number[]): number[] {
  const kept: number[] = [];
  for (const load of [...loads].sort((a, b) => a - b)) {
    const last = kept.at(-1);
    if (last === undefined || load - last > 0.02 * Math.abs(load)) kept.push(load);
  }
  return kept;
}

export function rangeOf(curves: readonly Curve[], shown: Shown, floor?: number): Span {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const curve of curves)
    for (const values of [curve.values, ...(curve.before === undefined ? [] : [curve.before.values])]) {
      const e = extremes(values);
      least = Math.min(least, e.least);
      greatest = Math.max(greatest, e.greatest);
    }
  return Number.isFinite(least) ? niceRange(least, greatest, 6, shown.factor, floor) : { from: 0, to: 1 };
}

/** The curves of one quantity, a wheel each. */
function wheelCurves(tracks: Tracks, before: Tracks | null, quantity: 'load' | 'travel'): Curve[] {
  return tracks.wheels.map((wheel, i) => {
    const earlier = before?.wheels.find((w) => w.name === wheel.name);
    return {
      name: wheel.name,
      key: String(wheel.axle),
      station: wheel.station,
      values: wheel[quantity],
      dash: dashOf(i),
      ...(earlier === undefined || before === null
        ? {}
        : { before: { station: earlier.station, time: before.time, values: earlier[quantity] } }),
    };
  });
}

/** Loads, travel and pitch of a run. `radius` of the smallest wheel, m, says in which unit travel is shown. */
export function stripsOf(
  tracks: Tracks,
  before: Tracks | null,
  radius: number,
  showing: Showing = ownFigures,
): readonly Strip[] {
  const standing = tracks.wheels.map((w) => w.standing);
  const force = forceShown(standing.reduce((a, b) => a + b, 0) / Math.max(1, standing.length), showing);
  const travel = travelShown(radius, showing);
  const angle = angleShownIn(showing);
  const loads = wheelCurves(tracks, before, 'load');
  const travels = wheelCurves(tracks, before, 'travel');
  const pitch: Curve = {
    name: 'chassis',
    key: '',
    station: tracks.station,
    values: tracks.pitch,
    dash: [],
    ...(before === null
      ? {}
      : { before: { station: before.station, time: before.time, values: before.pitch } }),
  };
  return [
    {
      title: 'Load',
      shown: force,
      curves: loads,
      range: rangeOf(loads, force, 0),
      references: references(standing),
    },
    { title: 'Travel', shown: travel, curves: travels, range: rangeOf(travels, travel, 0), references: [0] },
    {
      title: 'Pitch',
      shown: angle,
      curves: [pitch],
      range: rangeOf([pitch], angle, 0),
      references: [0],
    },
  ];
}
