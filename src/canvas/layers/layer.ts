import type { Container } from 'pixi.js';
import type { Pose } from '../../../shared/geometry/vec.ts';
import type { View } from '../camera.ts';
import type { Rect } from '../geometry/labels.ts';
import type { Inks } from '../inks.ts';
import type { MapChart } from '../map/chart.ts';
import type { SceneRun } from '../run.ts';

/** What a layer draws from. The same `Setting` object as long as only the frame or the place of the picture changes. */
export interface Setting {
  readonly run: SceneRun;
  readonly before: SceneRun | null;
  readonly inks: Inks;
  /** px per m. */
  readonly scale: number;
}

/** One moment on the picture. */
export interface Moment {
  readonly frame: number;
  readonly view: View;
  /** Station from which the vehicle's picture is counted, m. */
  readonly origin: number;
  /** Poses of all bodies, x from `origin`. */
  readonly poses: readonly Pose[];
  /** Whether the forces in pins, rods and members are shown. */
  readonly joints: boolean;
  /** The map on the vehicle, if there is one. */
  readonly chart: MapChart | null;
  /** What the labels of this picture have taken so far; each layer adds its own. */
  readonly taken: Rect[];
}

/** A layer of the picture: `build` draws what does not change with the frame, `show` moves it and redraws the rest. */
export interface Layer {
  readonly container: Container;
  build(setting: Setting): void;
  show(setting: Setting, moment: Moment): void;
}
