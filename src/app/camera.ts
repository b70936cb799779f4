import { place } from '../../shared/geometry/vec.ts';
import { poseAt } from '../../shared/recording.ts';
import * as camera from '../canvas/camera.ts';
import type { Solved } from '../solved.ts';
import type { Workbench } from './workbench.ts';

/** One press of closer or farther. */
const STEP = 1.25;

/** Zoom limits: at least a tenth of the vehicle, at most ten times the ground. */
const LEAST_SHARE = 0.1;
const MOST_SHARE = 10;

/** Difference between the highest and the lowest point of the ground, m. */
function riseOf({ z, count }: Solved['ground']): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i += 1) {
    least = Math.min(least, z[i] as number);
    most = Math.max(most, z[i] as number);
  }
  return count === 0 ? 0 : most - least;
}

/** The vehicle's box where it is in the frame on show, by the corners of its drawn box. */
function boxInWorld({ mechanism, recording }: Solved, frame: number): camera.Box {
  const pose = poseAt(recording, 0, frame);
  const { xMin, xMax, zMin, zMax } = camera.vehicleBox(mechanism);
  const corners = [xMin, xMax].flatMap((x) => [zMin, zMax].map((z) => place(pose, { x, z })));
  const xs = corners.map(({ x }) => x);
  const zs = corners.map(({ z }) => z);
  return { xMin: Math.min(...xs), xMax: Math.max(...xs), zMin: Math.min(...zs), zMax: Math.max(...zs) };
}

/** Shows the whole ground. */
export function fitGround({ desk, viewport, stage, settings }: Workbench): void {
  const { solved } = desk.state();
  const size = stage.size();
  if (solved === undefined || size === undefined) return;
  const { from, to } = solved.ground;
  settings.setState({ follow: false });
  const ground = { from, to, rise: riseOf(solved.ground) };
  viewport.show(camera.fitGround(ground, camera.statureOf(solved.mechanism), size));
}

/** Shows the vehicle as large as it fits. */
export function fitVehicle({ desk, viewport, stage, playhead }: Workbench): void {
  const { solved } = desk.state();
  const size = stage.size();
  if (solved === undefined || size === undefined) return;
  const box = boxInWorld(solved, playhead.frame);
  viewport.show(camera.fitVehicle(box, camera.statureOf(solved.mechanism), size));
}

/** Moves the picture along the ground so that the vehicle is in sight, if it is not; the scale stays. */
export function bringIntoSight({ desk, viewport, playhead }: Workbench): void {
  const { solved } = desk.state();
  if (solved === undefined) return;
  const { from, to } = viewport.window;
  const { xMin, xMax } = boxInWorld(solved, playhead.frame);
  if (xMin >= from && xMax <= to) return;
  viewport.show(camera.followTo(viewport.window, (xMin + xMax) / 2));
}

/** Goes closer to the middle of the picture, or farther away. */
export function zoom({ desk, viewport }: Workbench, way: 'closer' | 'farther'): void {
  const { solved } = desk.state();
  if (solved === undefined) return;
  const { window } = viewport;
  const box = camera.vehicleBox(solved.mechanism);
  const { from, to } = solved.ground;
  const reach = {
    least: (box.xMax - box.xMin) * LEAST_SHARE,
    most: Math.max(to - from, box.xMax - box.xMin) * MOST_SHARE,
  };
  const middle = (window.from + window.to) / 2;
  viewport.show(camera.zoomBy(window, way === 'closer' ? STEP : 1 / STEP, middle, reach));
}
