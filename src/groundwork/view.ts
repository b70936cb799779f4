import { useEffect, useState } from 'react';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { View } from '../canvas/camera.ts';
import type { Spot } from '../canvas/geometry/shapes.ts';
import type { Sight } from '../canvas/sight.ts';
import { outlined } from './chain.ts';

/** Where a world point is on the picture, px. */
export const spotIn = (view: View, { x, z }: Vec2): Spot => ({
  x: view.left + x * view.scale,
  y: view.top - z * view.scale,
});

/** The world point at a spot of the picture, m. */
export const worldAt = (view: View, { x, y }: Spot): Vec2 => ({
  x: (x - view.left) / view.scale,
  z: (view.top - y) / view.scale,
});

/** Stations at the edges of the whole picture, m. */
export const edgesOf = ({ left, scale, size }: View): { readonly from: number; readonly to: number } => ({
  from: -left / scale,
  to: (size.width - left) / scale,
});

/** A line as the text of an SVG path, px: no more of it than is in sight, and no more points than pixels can show. */
export function pathIn(view: View, points: readonly Vec2[]): string {
  const { from, to } = edgesOf(view);
  const first = Math.max(0, points.findIndex(({ x }) => x >= from) - 1);
  const behind = points.findIndex(({ x }) => x > to);
  const seen = points.slice(first, behind < 0 ? points.length : behind + 1);
  return outlined(seen, Math.max(1, view.size.width))
    .map((p, i) => {
      const { x, y } = spotIn(view, p);
      return `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
    })
    .join('');
}

const same = (a: View | undefined, b: View | undefined): boolean =>
  a?.scale === b?.scale &&
  a?.left === b?.left &&
  a?.top === b?.top &&
  a?.size.width === b?.size.width &&
  a?.size.height === b?.size.height;

/** How the world lies on the picture now; another one whenever it is moved or zoomed. */
export function useView(sight: Sight): View | undefined {
  const [view, setView] = useState(sight.now?.view);
  useEffect(() => {
    const tell = (): void => {
      const now = sight.now?.view;
      setView((was) => (same(was, now) ? was : now));
    };
    tell();
    return sight.watch(tell);
  }, [sight]);
  return view;
}
