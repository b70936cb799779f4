import { type Pose, place, type Vec2 } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { GUTTER, HEIGHT, plotWidth } from '../charts/layout.ts';
import type { StationWindow } from '../viewport.ts';

/** Size of the picture, CSS px. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Where the vehicle is drawn, drawing frame or world, m. */
export interface Box {
  readonly xMin: number;
  readonly xMax: number;
  readonly zMin: number;
  readonly zMax: number;
}

/** How the world lies on the picture: px = left + x·scale, py = top − z·scale. Equal scales always, px per m. */
export interface View {
  readonly scale: number;
  /** Pixel of x = 0 and of z = 0. */
  readonly left: number;
  readonly top: number;
  readonly size: Size;
}

/** Free room at the top (legend) and at the foot (station ruler) of the picture, px. */
export const ROOM = { top: 52, foot: HEIGHT.ruler } as const;

/** Share of the spare height that lies above the vehicle. */
const SPARE_ABOVE = 0.6;

/** Arrows under the ground: room for 1.7 standing loads of a wheel's radius each, and the number. */
const BELOW_IN_RADII = 1.7;

/** Picture place of a world point, px. */
export function onPicture(view: View, p: Vec2): { readonly x: number; readonly y: number } {
  return { x: view.left + p.x * view.scale, y: view.top - p.z * view.scale };
}

/** World point of a place on the picture. */
export function inWorld(view: View, x: number, y: number): Vec2 {
  return { x: (x - view.left) / view.scale, z: (view.top - y) / view.scale };
}

/** Everything of the vehicle, in the drawing: outlines, members, wheels. */
export function vehicleBox(mechanism: Pick<Mechanism, 'outlines' | 'wheels' | 'members' | 'cg'>): Box {
  const points: Vec2[] = [mechanism.cg, ...mechanism.outlines.flatMap((o) => o.points)];
  for (const member of mechanism.members) points.push(...member.lines.flatMap((l) => [l.from.at, l.to.at]));
  for (const { hub, radius } of mechanism.wheels)
    points.push({ x: hub.x - radius, z: hub.z - radius }, { x: hub.x + radius, z: hub.z + radius });
  const xs = points.map((p) => p.x);
  const zs = points.map((p) => p.z);
  return { xMin: Math.min(...xs), xMax: Math.max(...xs), zMin: Math.min(...zs), zMax: Math.max(...zs) };
}

/**
 * Everything of the vehicle where it is in these poses, world, m: outlines and members as their bodies carry them, and
 * the wheels at their hubs.
 */
export function boxInPoses(
  mechanism: Pick<Mechanism, 'outlines' | 'wheels' | 'members'>,
  poses: readonly Pose[],
): Box {
  let [xMin, xMax, zMin, zMax] = [Infinity, -Infinity, Infinity, -Infinity];
  const hold = (body: number, at: Vec2, radius: number) => {
    const pose = poses[body];
    if (pose === undefined) return;
    const p = place(pose, at);
    xMin = Math.min(xMin, p.x - radius);
    xMax = Math.max(xMax, p.x + radius);
    zMin = Math.min(zMin, p.z - radius);
    zMax = Math.max(zMax, p.z + radius);
  };
  for (const { body, points } of mechanism.outlines) for (const at of points) hold(body, at, 0);
  for (const { body, hub, radius } of mechanism.wheels) hold(body, hub, radius);
  for (const { lines } of mechanism.members)
    for (const { from, to } of lines) {
      hold(from.body, from.at, 0);
      hold(to.body, to.at, 0);
    }
  return { xMin, xMax, zMin, zMax };
}

/** Room that the vehicle takes above the ground it stands on and that its arrows take below, m. */
export interface Stature {
  readonly above: number;
  readonly below: number;
}

export function statureOf(mechanism: Pick<Mechanism, 'outlines' | 'wheels' | 'members' | 'cg'>): Stature {
  const box = vehicleBox(mechanism);
  const radius = Math.max(...mechanism.wheels.map((w) => w.radius));
  return { above: box.zMax - box.zMin, below: BELOW_IN_RADII * radius };
}

/**
 * The view of a window of stations. `level`: mean height of the ground in sight, m; `lift`: the user's own vertical
 * move, m upwards. Ground and vehicle are centred in the height, with a little more room above.
 */
export function viewOf(window: StationWindow, size: Size, stature: Stature, level: number, lift = 0): View {
  const scale = plotWidth(size.width) / (window.to - window.from);
  const free = size.height - ROOM.top - ROOM.foot;
  const spare = free - (stature.above + stature.below) * scale;
  const groundLine = ROOM.top + spare * (spare > 0 ? SPARE_ABOVE : 0.5) + stature.above * scale;
  return { scale, left: GUTTER.left - window.from * scale, top: groundLine + (level - lift) * scale, size };
}

/** Moves a view up or down so that the box (world) is in sight, where it fits. */
export function keepInSight(view: View, box: Box): View {
  const over = ROOM.top - (view.top - box.zMax * view.scale);
  const under = view.top - box.zMin * view.scale - (view.size.height - ROOM.foot);
  if (over > 0) return { ...view, top: view.top + over };
  return under > 0 ? { ...view, top: view.top - Math.min(under, -over) } : view;
}

/** Scale at which so many metres fit the height, px per m. */
function heightScale(size: Size, metres: number): number {
  return Math.max(40, size.height - ROOM.top - ROOM.foot) / metres;
}

/** Window of this scale around a middle. */
function around(middle: number, scale: number, size: Size): StationWindow {
  const half = plotWidth(size.width) / scale / 2;
  return { from: middle - half, to: middle + half };
}

/** Window that shows the whole ground, from its first to its last station, with the vehicle's height. */
export function fitGround(
  ground: { from: number; to: number; rise: number },
  stature: Stature,
  size: Size,
): StationWindow {
  const length = Math.max(ground.to - ground.from, 1e-6);
  const scale = Math.min(
    plotWidth(size.width) / length,
    heightScale(size, stature.above + stature.below + ground.rise),
  );
  return around((ground.from + ground.to) / 2, scale, size);
}

/** Share of the plotting column that a fitted vehicle takes at most. */
const VEHICLE_SHARE = 0.62;

/** Window that shows the vehicle (its box in the world, at the frame in sight) as large as it fits with room around. */
export function fitVehicle(box: Box, stature: Stature, size: Size): StationWindow {
  const scale = Math.min(
    (VEHICLE_SHARE * plotWidth(size.width)) / (box.xMax - box.xMin),
    heightScale(size, box.zMax - box.zMin + stature.below),
  );
  return around((box.xMin + box.xMax) / 2, scale, size);
}

/** Share of the whole picture that a vehicle takes while it is built. */
const DRAWING_SHARE = 0.84;

/** Window that shows a vehicle as large as it fits the whole picture, gutters and all: nothing else is looked at. */
export function fitDrawing(box: Box, stature: Stature, size: Size): StationWindow {
  const scale = Math.min(
    (DRAWING_SHARE * size.width) / (box.xMax - box.xMin),
    heightScale(size, box.zMax - box.zMin + stature.below),
  );
  const from = (box.xMin + box.xMax) / 2 - (size.width / 2 - GUTTER.left) / scale;
  return { from, to: from + plotWidth(size.width) / scale };
}

/** Limits of a window's length, m. */
export interface Reach {
  readonly least: number;
  readonly most: number;
}

/** Zooms by a factor (above 1: closer) and keeps the station `at` where it is. Within the limits, without drifting at them. */
export function zoomBy(window: StationWindow, factor: number, at: number, reach: Reach): StationWindow {
  const length = window.to - window.from;
  const wanted = Math.min(reach.most, Math.max(reach.least, length / factor));
  const k = wanted / length;
  return { from: at - (at - window.from) * k, to: at + (window.to - at) * k };
}

/** Moves a window along the ground, m; it keeps at least a tenth of itself over [from, to]. */
export function panBy(
  window: StationWindow,
  by: number,
  ground: { from: number; to: number },
): StationWindow {
  const keep = (window.to - window.from) * 0.1;
  const least = ground.from - (window.to - keep);
  const most = ground.to - (window.from + keep);
  const step = Math.min(Math.max(by, least), Math.max(least, most));
  return { from: window.from + step, to: window.to + step };
}

/** Window of the same length with a station at a share of it (0 left, 1 right). */
export function followTo(window: StationWindow, station: number, share = 0.5): StationWindow {
  const length = window.to - window.from;
  return { from: station - share * length, to: station + (1 - share) * length };
}
