import type { Pose } from '../../shared/geometry/vec.ts';
import { column } from '../../shared/recording.ts';
import { ownFigures, type Showing } from '../../shared/units.ts';
import { forceShown, lengthShown, type Shown, travelShown } from '../charts/figures.ts';
import { type Tracks, tracksOf } from '../charts/tracks.ts';
import type { Solved } from '../solved.ts';
import { type Box, boxInPoses, type Stature, statureOf, vehicleBox } from './camera.ts';
import { type Profile, profileOf } from './geometry/profile.ts';

/** A run as the picture needs it: columns looked up once, sizes and scales worked out once. */
export interface SceneRun {
  readonly solved: Solved;
  /** How its figures are shown. */
  readonly showing: Showing;
  readonly tracks: Tracks;
  readonly profile: Profile;
  readonly stature: Stature;
  /** The vehicle in the drawing, m. */
  readonly box: Box;
  /** Metres of arrow per newton: the mean standing load is as long as half a mean wheel. */
  readonly arrowScale: number;
  /** Mean standing load of the axle lines, N. */
  readonly meanLoad: number;
  readonly force: Shown;
  readonly lengths: Shown;
  readonly gaps: Shown;
  /** Per body: x, z, angle per frame. */
  readonly poses: readonly {
    readonly x: Float64Array;
    readonly z: Float64Array;
    readonly angle: Float64Array;
  }[];
  /** Per wheel, in the mechanism's order. */
  readonly wheels: readonly WheelColumns[];
}

export interface WheelColumns {
  readonly station: Float64Array;
  readonly load: Float64Array;
  readonly gap: Float64Array;
  readonly depth: Float64Array;
  readonly roll: Float64Array;
  readonly standing: number;
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((a, b) => a + b, 0) / values.length;
}

/** Metres of arrow per newton so that the mean standing load is as long as the mean wheel's radius; 0 without load. */
export function arrowScaleOf(radii: readonly number[], loads: readonly number[]): number {
  const load = mean(loads);
  return load > 0 ? mean(radii) / load : 0;
}

/** Looks up everything that the picture of a run needs. The profile is that of the run before on the same ground. */
export function sceneRunOf(
  solved: Solved,
  was: SceneRun | null = null,
  showing: Showing = ownFigures,
): SceneRun {
  const { mechanism, recording, ground } = solved;
  const { loads } = recording.standing;
  return {
    solved,
    showing,
    tracks: tracksOf(
      recording,
      mechanism.wheels.map((w) => w.axle),
    ),
    profile: was?.solved.ground === ground ? was.profile : profileOf(ground),
    stature: statureOf(mechanism),
    box: vehicleBox(mechanism),
    arrowScale: arrowScaleOf(
      mechanism.wheels.map((w) => w.radius),
      loads,
    ),
    meanLoad: mean(loads),
    force: forceShown(mean(loads), showing),
    lengths: lengthShown(mechanism.size, showing),
    gaps: travelShown(mechanism.size, showing),
    poses: recording.bodies.map((_, i) => ({
      x: column(recording, 'x', i),
      z: column(recording, 'z', i),
      angle: column(recording, 'angle', i),
    })),
    wheels: recording.wheels.map((_, i) => ({
      station: column(recording, 'wheelStation', i),
      load: column(recording, 'load', i),
      gap: column(recording, 'gap', i),
      depth: column(recording, 'depth', i),
      roll: column(recording, 'roll', i),
      standing: loads[i] ?? 0,
    })),
  };
}

/** Poses of all bodies in a frame, with x counted from `origin` m, so that pictures far along the ground stay sharp. */
export function posesIn(run: SceneRun, frame: number, origin: number): Pose[] {
  return run.poses.map(({ x, z, angle }) => ({
    x: (x[frame] as number) - origin,
    z: z[frame] as number,
    angle: angle[frame] as number,
  }));
}

/** A frame that the recording has; −1 when it has none. */
export function frameWithin(run: SceneRun, frame: number): number {
  return Math.min(Math.max(0, frame), run.solved.recording.frames - 1);
}

/** The vehicle's box in the world in a frame, m. */
export function boxIn(run: SceneRun, frame: number): Box {
  return boxInPoses(run.solved.mechanism, posesIn(run, frame, 0));
}
