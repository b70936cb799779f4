import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Size } from '../canvas/camera.ts';
import { ROOM } from '../canvas/camera.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Seen } from '../canvas/sight.ts';

/** How the drawing (not the world) lies on the picture: px = left + x·scale, py = top − z·scale. */
export interface Board {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly size: Size;
}

/** The drawing under a picture that shows the vehicle as it is drawn; its chassis stands straight there. */
export function boardOf({ view, poses }: Seen): Board {
  const chassis = poses[0] ?? { x: 0, z: 0 };
  return {
    scale: view.scale,
    left: view.left + chassis.x * view.scale,
    top: view.top - chassis.z * view.scale,
    size: view.size,
  };
}

/** Share of the width that points take where there is no picture to go by. */
const FILLED = 0.6;

/** A board round some points, for a vehicle that cannot be drawn yet. Half a metre round the origin without any. */
export function boardRound(points: readonly Vec2[], size: Size): Board {
  const xs = points.map(({ x }) => x);
  const zs = points.map(({ z }) => z);
  const [xMin, xMax] = xs.length === 0 ? [-0.4, 0.1] : [Math.min(...xs), Math.max(...xs)];
  const zMax = zs.length === 0 ? 0.2 : Math.max(...zs);
  const width = Math.max(xMax - xMin, 0.05);
  const height = Math.max(zMax, 0.05);
  const free = size.height - ROOM.top - ROOM.foot;
  const scale = Math.min((FILLED * size.width) / width, (FILLED * free) / height);
  return {
    scale,
    left: size.width / 2 - ((xMin + xMax) / 2) * scale,
    top: ROOM.top + free * 0.5 + (height / 2) * scale,
    size,
  };
}

/** Where a drawn point is on the picture, px. */
export const spotOn = ({ left, top, scale }: Board, { x, z }: Vec2): Spot => ({
  x: left + x * scale,
  y: top - z * scale,
});

/** The drawn point at a spot of the picture, m. */
export const pointOn = ({ left, top, scale }: Board, { x, y }: Spot): Vec2 => ({
  x: (x - left) / scale,
  z: (top - y) / scale,
});

/** Lines of the grid closer than this are drawn at a coarser step, px. */
const CLOSEST = 7;

/** Step of the lines that are drawn for a pitch, m: the pitch itself, or 2, 5, 10 … of it where it is too fine to see. */
export function gridStep(pitch: number, scale: number): number {
  const wanted = CLOSEST / scale;
  if (pitch >= wanted) return pitch;
  const times = wanted / pitch;
  const power = 10 ** Math.floor(Math.log10(times));
  const k = [1, 2, 5, 10].find((each) => each * power >= times * (1 - 1e-9)) ?? 10;
  return pitch * k * power;
}
