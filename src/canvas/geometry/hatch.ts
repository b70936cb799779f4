import type { Path } from './shapes.ts';

/** A crossing of a hatch line with an outline: how far along the line, and whether it goes in or out. */
interface Crossing {
  readonly s: number;
  readonly inward: boolean;
}

/**
 * Earth hatching: strokes at 45° that hang below a ground line and run down to the left, `spacing` px apart along the
 * level and `depth` px deep, cut where they would come out of the earth again (a step's face, a trench). `line`: the
 * ground as [x, y…] in px with y DOWN, x never falling. `origin`: px that the pattern is tied to, so that it does not
 * swim while the picture is panned.
 */
export function earthHatch(line: Path, spacing: number, depth: number, origin = 0): Path[] {
  const crossings = new Map<number, Crossing[]>();
  for (let i = 0; i + 3 < line.length; i += 2) {
    const x0 = line[i] as number;
    const y0 = line[i + 1] as number;
    const x1 = line[i + 2] as number;
    const y1 = line[i + 3] as number;
    const c0 = (x0 + y0 - origin) / spacing;
    const c1 = (x1 + y1 - origin) / spacing;
    if (c0 === c1) continue;
    const last = Math.ceil(Math.max(c0, c1)) - 1;
    for (let k = Math.ceil(Math.min(c0, c1)); k <= last; k++) {
      const y = y0 + ((y1 - y0) * (k - c0)) / (c1 - c0);
      const list = crossings.get(k) ?? [];
      list.push({ s: y, inward: c1 > c0 });
      crossings.set(k, list);
    }
  }
  return strokes(crossings, spacing, depth, origin);
}

/** Strokes from each inward crossing to the full depth or to the next outward one. */
function strokes(crossings: Map<number, Crossing[]>, spacing: number, depth: number, origin: number): Path[] {
  const out: Path[] = [];
  for (const [k, list] of crossings) {
    list.sort((a, b) => a.s - b.s);
    const sum = k * spacing + origin;
    list.forEach((from, i) => {
      if (!from.inward) return;
      const next = list.slice(i + 1).find((c) => !c.inward);
      const to = Math.min(from.s + depth, next?.s ?? Number.POSITIVE_INFINITY);
      if (to - from.s > 1) out.push([sum - from.s, from.s, sum - to, to]);
    });
  }
  return out;
}

/** Chords at 45° across a circle round (0, 0), `spacing` px apart, rising to the right: the mark of a wheel that is off the ground. */
export function discHatch(radius: number, spacing: number): Path[] {
  const out: Path[] = [];
  const reach = Math.floor(radius / spacing);
  for (let k = -reach; k <= reach; k++) {
    const d = k * spacing;
    const half = Math.sqrt(Math.max(0, radius * radius - d * d));
    const q = Math.SQRT1_2;
    if (half > 1) out.push([d * q - half * q, d * q + half * q, d * q + half * q, d * q - half * q]);
  }
  return out;
}
