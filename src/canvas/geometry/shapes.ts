/** Flat polyline in px of the picture: [x, y, x, y…], y down. */
export type Path = readonly number[];

/** A place on the picture, px, y down. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Unit vector from a to b and the distance between them; straight up when they coincide. */
export function along(
  a: Spot,
  b: Spot,
): { readonly ux: number; readonly uy: number; readonly length: number } {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length > 1e-9
    ? { ux: (b.x - a.x) / length, uy: (b.y - a.y) / length, length }
    : { ux: 0, uy: -1, length: 0 };
}

/** The spot `t` of the way from a to b, then `side` px to the left of that way. */
export function beside(a: Spot, b: Spot, t: number, side: number): Spot {
  const { ux, uy } = along(a, b);
  return { x: a.x + (b.x - a.x) * t + uy * side, y: a.y + (b.y - a.y) * t - ux * side };
}

/** Strands of a coil spring: those in front, those behind, and the flat seats at its ends. */
export interface Coil {
  readonly front: readonly Path[];
  readonly back: readonly Path[];
  readonly seats: readonly Path[];
}

/**
 * A coil spring in elevation between a and b with so many turns and this half width, px. The turns fill the length, so
 * that they close up as a and b come together. `pitch` places them: even by default; a progressive spring passes a
 * function from 0…1 to 0…1 that crowds them at one end.
 */
export function coil(
  a: Spot,
  b: Spot,
  turns: number,
  half: number,
  pitch: (t: number) => number = (t) => t,
): Coil {
  const front: Path[] = [];
  const back: Path[] = [];
  const at = (i: number) => pitch(i / (2 * turns));
  for (let i = 0; i < 2 * turns; i++) {
    const side = i % 2 === 0 ? half : -half;
    const p = beside(a, b, at(i), side);
    const q = beside(a, b, at(i + 1), -side);
    (i % 2 === 0 ? front : back).push([p.x, p.y, q.x, q.y]);
  }
  const seat = (t: number): Path => {
    const p = beside(a, b, t, half * 1.15);
    const q = beside(a, b, t, -half * 1.15);
    return [p.x, p.y, q.x, q.y];
  };
  return { front, back, seats: [seat(0), seat(1)] };
}

/** Arc or spiral round a centre from one angle to another (rad, counter-clockwise on the picture) while the radius goes from r0 to r1, px. */
export function spiral(centre: Spot, r0: number, r1: number, from: number, to: number): Path {
  const steps = Math.max(4, Math.ceil(Math.abs(to - from) / 0.16));
  const out: number[] = [];
  for (let i = 0; i <= steps; i++) {
    const t = i / steps;
    const r = r0 + (r1 - r0) * t;
    const angle = from + (to - from) * t;
    out.push(centre.x + r * Math.cos(angle), centre.y - r * Math.sin(angle));
  }
  return out;
}

/** Corners of a box round the line from `t0` to `t1` of the way from a to b, `half` px wide to either side, moved `side` px to the left. */
export function boxAlong(a: Spot, b: Spot, t0: number, t1: number, half: number, side = 0): Path {
  const p = beside(a, b, t0, side + half);
  const q = beside(a, b, t1, side + half);
  const r = beside(a, b, t1, side - half);
  const s = beside(a, b, t0, side - half);
  return [p.x, p.y, q.x, q.y, r.x, r.y, s.x, s.y];
}

/** A block that bulges: sides between a and b swell by `bulge` px in the middle. Closed path. */
export function barrel(a: Spot, b: Spot, half: number, bulge: number): Path {
  const out: number[] = [];
  const put = (t: number, sign: number) => {
    const p = beside(a, b, t, sign * (half + bulge * 4 * t * (1 - t)));
    out.push(p.x, p.y);
  };
  for (let i = 0; i <= 8; i++) put(i / 8, 1);
  for (let i = 8; i >= 0; i--) put(i / 8, -1);
  return out;
}

/** Bow through three spots: both ends and its middle (a leaf). */
export function bow(a: Spot, middle: Spot, b: Spot): Path {
  const cx = 2 * middle.x - (a.x + b.x) / 2;
  const cy = 2 * middle.y - (a.y + b.y) / 2;
  const out: number[] = [];
  for (let i = 0; i <= 12; i++) {
    const t = i / 12;
    const p = (1 - t) ** 2;
    const q = 2 * t * (1 - t);
    const r = t * t;
    out.push(p * a.x + q * cx + r * b.x, p * a.y + q * cy + r * b.y);
  }
  return out;
}

/** An upright force arrow with its head at `tip`, px: shaft and head. The head shrinks with short arrows. */
export function arrow(tip: Spot, length: number): { readonly shaft: Path; readonly head: Path } {
  const size = Math.min(8, Math.max(3, length * 0.5));
  const half = size * 0.42;
  return {
    shaft: [tip.x, tip.y + length, tip.x, tip.y + size * 0.8],
    head: [tip.x, tip.y, tip.x + half, tip.y + size, tip.x - half, tip.y + size],
  };
}

/** A force arrow from one spot to its tip, px: shaft and head. The head shrinks with short arrows. */
export function arrowTo(from: Spot, tip: Spot): { readonly shaft: Path; readonly head: Path } {
  const { ux, uy, length } = along(from, tip);
  const size = Math.min(8, Math.max(3, length * 0.5));
  const half = size * 0.42;
  const neck = { x: tip.x - ux * size, y: tip.y - uy * size };
  return {
    shaft: [from.x, from.y, tip.x - ux * size * 0.8, tip.y - uy * size * 0.8],
    head: [tip.x, tip.y, neck.x - uy * half, neck.y + ux * half, neck.x + uy * half, neck.y - ux * half],
  };
}

/**
 * The sign of a force along a line, drawn round its spot `at`: two heads that point away from each other where it is
 * pulled (`pull`), towards each other where it is pushed. (ux, uy): unit vector along the line.
 */
export function strain(at: Spot, ux: number, uy: number, pull: boolean): readonly Path[] {
  return [1, -1].map((side) => {
    const near = 2.5 * side;
    const far = 8.5 * side;
    const [tip, base] = pull ? [far, near] : [near, far];
    const x = at.x + ux * base;
    const y = at.y + uy * base;
    return [at.x + ux * tip, at.y + uy * tip, x - uy * 3.5, y + ux * 3.5, x + uy * 3.5, y - ux * 3.5];
  });
}

/** Dashes of a polyline: on and off lengths in px, starting on. */
export function dashes(path: Path, on: number, off: number): Path[] {
  const out: Path[] = [];
  let drawing = true;
  let left = on;
  let current: number[] = [path[0] ?? 0, path[1] ?? 0];
  for (let i = 2; i < path.length; i += 2) {
    let x = path[i - 2] as number;
    let y = path[i - 1] as number;
    const x1 = path[i] as number;
    const y1 = path[i + 1] as number;
    let rest = Math.hypot(x1 - x, y1 - y);
    while (rest > left) {
      const t = left / rest;
      x += (x1 - x) * t;
      y += (y1 - y) * t;
      rest -= left;
      if (drawing) out.push([...current, x, y]);
      drawing = !drawing;
      left = drawing ? on : off;
      current = [x, y];
    }
    left -= rest;
    if (drawing) current.push(x1, y1);
  }
  if (drawing && current.length > 2) out.push(current);
  return out;
}
