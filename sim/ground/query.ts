import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Ground } from './ground.ts';

/*
 * Segment i joins vertex i to vertex i + 1; there are count − 1 of them. All searches are binary, O(log count), and
 * allocate nothing except where an array is returned.
 */

/** Number of vertices with x below the station (`orAt`: below or at it). */
function verticesBefore(ground: Ground, station: number, orAt: boolean): number {
  const { x } = ground;
  let low = 0;
  let high = ground.count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const at = x[middle] as number;
    if (at < station || (orAt && at === station)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Index of the first segment that reaches the station (m) from the rear, faces at the station included; the last
 * segment for a station past the end. With `lastSegment` it spans all segments between two stations:
 * `for (let i = firstSegment(g, a), n = lastSegment(g, b); i <= n; i++)`, where a ≤ b.
 */
export function firstSegment(ground: Ground, station: number): number {
  return clampSegment(ground, verticesBefore(ground, station, false) - 1);
}

/** Index of the last segment that begins at or before the station (m); the first segment for a station before the start. */
export function lastSegment(ground: Ground, station: number): number {
  return clampSegment(ground, verticesBefore(ground, station, true) - 1);
}

function clampSegment(ground: Ground, index: number): number {
  return Math.max(0, Math.min(index, ground.count - 2));
}

/** Height of the ground at a station, m; the upper end of a vertical face; level beyond both ends. */
export function heightAt(ground: Ground, station: number): number {
  const { x, z, count } = ground;
  const after = verticesBefore(ground, station, true);
  if (after === 0) return z[0] as number;
  const left = after - 1;
  if (x[left] === station) return upperEnd(ground, left);
  if (after === count) return z[left] as number;
  const share = (station - (x[left] as number)) / ((x[after] as number) - (x[left] as number));
  return (z[left] as number) + share * ((z[after] as number) - (z[left] as number));
}

/** Highest of the vertices that share the x of vertex `last`, the last of them. */
function upperEnd(ground: Ground, last: number): number {
  const { x, z } = ground;
  let top = z[last] as number;
  for (let i = last - 1; i >= 0 && x[i] === x[last]; i--) top = Math.max(top, z[i] as number);
  return top;
}

/**
 * The line of the ground between two stations (m, `from` ≤ `to`), for drawing: a point at each end and every vertex
 * between, faces included. A face that lies exactly at an end is drawn whole.
 */
export function profileBetween(ground: Ground, from: number, to: number): Vec2[] {
  const first = verticesBefore(ground, from, false);
  const behind = verticesBefore(ground, to, true);
  const line: Vec2[] = [];
  if (ground.x[first] !== from) line.push({ x: from, z: heightAt(ground, from) });
  for (let i = first; i < behind; i++) line.push({ x: ground.x[i] as number, z: ground.z[i] as number });
  if (line.at(-1)?.x !== to) line.push({ x: to, z: heightAt(ground, to) });
  return line;
}
