import { type Pose, place as placed } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { onPicture } from '../canvas/camera.ts';
import type { Seen } from '../canvas/sight.ts';
import { type Drawing, waysOf } from './Diagram.tsx';
import { guidePath, leaderPath, linkPath, type Spot, wheelPath } from './layout.ts';
import { type Anchor, drawnAt, type Place } from './places.ts';
import type { Tree } from './tree.ts';

/** Where places truly are on the picture, px across. */
export interface Across {
  readonly parts: readonly number[];
  readonly wheels: readonly number[];
}

/** Index of a body by its name; the chassis for a name that no body has. */
export function bodyFinder(mechanism: Pick<Mechanism, 'bodies'> | undefined): (name: string) => number {
  const places = new Map((mechanism?.bodies ?? []).map(({ name }, b) => [name, b]));
  return (name) => places.get(name) ?? 0;
}

/** Where all parts and axle lines are on the picture that is seen. */
export function acrossOf(
  tree: Tree,
  places: readonly Place[],
  { view, poses }: Seen,
  bodyOf: (name: string) => number,
): Across {
  const chassis: Pose = poses[0] ?? { x: 0, z: 0, angle: 0 };
  const x = (on: string, at: Anchor['at']) => onPicture(view, placed(poses[bodyOf(on)] ?? chassis, at)).x;
  return {
    parts: places.map(({ anchors }) =>
      anchors.reduce((sum, { on, at, weight }) => sum + weight * x(on, at), 0),
    ),
    wheels: tree.wheels.map(({ hub }) => x(hub.on, hub.at)),
  };
}

/** Share of the strip that a drive line takes while there is no picture to go by. */
const FILLED = 0.7;

/** Where they would be on a picture of the vehicle as it is drawn, for one that cannot be shown. */
export function acrossDrawn(tree: Tree, places: readonly Place[], width: number): Across {
  const parts = places.map(({ anchors }) => drawnAt(anchors).x);
  const wheels = tree.wheels.map(({ hub }) => hub.at.x);
  const all = [...parts, ...wheels];
  const [from, to] = [Math.min(...all), Math.max(...all)];
  const scale = (FILLED * width) / Math.max(to - from, 1e-6);
  const px = (x: number) => width / 2 + (x - (from + to) / 2) * scale;
  return { parts: parts.map(px), wheels: wheels.map(px) };
}

const moveTo = (element: Element | undefined, { x, y }: Spot): void => {
  element?.setAttribute('transform', `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
};

/** Puts parts, axle lines and all lines where they stand; `about`: the part that is led to from the picture. */
export function draw({ svg, cells, layout }: Drawing, tree: Tree, about: number | undefined): void {
  for (const [index, cell] of cells) {
    const spot = layout.parts[index];
    if (spot !== undefined) moveTo(cell, spot);
  }
  const led = about === undefined ? undefined : layout.parts[about];
  svg.querySelector('.drive-guide')?.setAttribute('d', led === undefined ? '' : guidePath(led));
  const children = (name: string) => svg.querySelector(`.${name}`)?.children ?? [];
  const wheels = children('drive-wheels');
  const guides = children('drive-guides');
  layout.wheels.forEach((spot, i) => {
    moveTo(wheels[i], spot);
    guides[i]?.setAttribute('d', `M${spot.anchor.toFixed(1)} 0v3L${spot.x.toFixed(1)} ${spot.y - 7}`);
  });
  const leaders = children('drive-leaders');
  layout.parts.forEach((spot, i) => {
    leaders[i]?.setAttribute('d', leaderPath(spot));
  });
  const paths = children('drive-ways');
  waysOf(tree).forEach(({ from, to, wheel }, i) => {
    const a = layout.parts[from];
    const b = wheel ? layout.wheels[to] : layout.parts[to];
    if (a !== undefined && b !== undefined)
      paths[i]?.setAttribute('d', wheel ? wheelPath(a, b) : linkPath(a, b));
  });
}
