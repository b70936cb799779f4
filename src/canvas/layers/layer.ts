import type { Container } from 'pixi.js';
import type { Pose } from '../../../shared/geometry/vec.ts';
import type { View } from '../camera.ts';
import type { Inks } from '../inks.ts';
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
}

/** A layer of the picture: `build` draws what does not change with the frame, `show` moves it and redraws the rest. */
export interface Layer {
  readonly container: Container;
  build(setting: Setting): void;
  show(setting: Setting, moment: Moment): void;
}
