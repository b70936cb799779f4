import { distance, type Vec2 } from '../../shared/geometry/vec.ts';
import type { Joint, Mechanism, Member } from '../mechanism/mechanism.ts';

/**
 * The line along which a member carries its forces: an arm from pivot to end, a beam from end to pivot to end, an axle on
 * rods from pin to pin. Straight pieces between drawn points of its body. It runs forward (upward where it stands
 * upright), so that a bending moment has the same sign on all members.
 */
export interface MemberLine {
  /** Name of the member. */
  readonly name: string;
  readonly member: number;
  readonly body: number;
  /** Corners in order, drawn, m. */
  readonly points: readonly Vec2[];
  /** Way along the line to each corner, m; the last one is its length. */
  readonly ways: readonly number[];
}

/** Lines of all members that have one; a member bolted to its parent, a guide, a housing and a rod have none. */
export function memberLines({ members }: Pick<Mechanism, 'members'>): MemberLine[] {
  return members.flatMap((member, index) => {
    const points = chainOf(member);
    if (points === undefined) return [];
    const ways = [0];
    points.forEach((p, i) => {
      const before = points[i - 1];
      if (before) ways.push((ways.at(-1) ?? 0) + distance(before, p));
    });
    return [{ name: member.name, member: index, body: member.body, points, ways }];
  });
}

/** Joints that carry forces: hinges and guides, with their indices in the mechanism. A free body is held by rods. */
export function carryingJoints(mechanism: Mechanism): { readonly joint: Joint; readonly index: number }[] {
  return mechanism.joints
    .map((joint, index) => ({ joint, index }))
    .filter(({ joint }) => joint.kind !== 'free');
}

/** The load lines on a member's own body, strung together; undefined when there are none or they branch. */
function chainOf({ lines, body }: Member): Vec2[] | undefined {
  const pieces = lines.filter((l) => l.weight === 'load' && l.from.body === body && l.to.body === body);
  const left = pieces.map((l) => [l.from.at, l.to.at] as const);
  const first = left.shift();
  if (first === undefined || body <= 0) return undefined;
  const chain: Vec2[] = [...first];
  for (let grown = true; grown; ) {
    grown = false;
    for (const [i, [a, b]] of left.entries()) {
      const head = chain[0] as Vec2;
      const tail = chain.at(-1) as Vec2;
      if (same(a, tail)) chain.push(b);
      else if (same(b, tail)) chain.push(a);
      else if (same(b, head)) chain.unshift(a);
      else if (same(a, head)) chain.unshift(b);
      else continue;
      left.splice(i, 1);
      grown = true;
      break;
    }
  }
  return left.length > 0 ? undefined : forward(chain);
}

const same = (a: Vec2, b: Vec2): boolean => a.x === b.x && a.z === b.z;

/** Turns a chain so that it runs forward, or upward where its ends lie above each other; drops points met twice. */
function forward(chain: readonly Vec2[]): Vec2[] | undefined {
  const points = chain.filter((p, i) => i === 0 || !same(p, chain[i - 1] as Vec2));
  const [head, tail] = [points[0] as Vec2, points.at(-1) as Vec2];
  if (points.length < 2) return undefined;
  const backward = tail.x < head.x || (tail.x === head.x && tail.z < head.z);
  return backward ? points.reverse() : points;
}

/** Way along a line to its point nearest to a drawn point, m. */
export function nearestWay(line: MemberLine, p: Vec2): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < line.points.length; i++) {
    const [a, b] = [line.points[i] as Vec2, line.points[i + 1] as Vec2];
    const [dx, dz] = [b.x - a.x, b.z - a.z];
    const square = dx * dx + dz * dz;
    const share = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.z - a.z) * dz) / square));
    const off = Math.hypot(p.x - a.x - share * dx, p.z - a.z - share * dz);
    if (off < least) {
      least = off;
      best = (line.ways[i] as number) + share * Math.sqrt(square);
    }
  }
  return best;
}

/** Drawn point at a way along a line, m. */
export function pointOnLine(line: MemberLine, way: number): Vec2 {
  let i = 0;
  while (i + 2 < line.points.length && (line.ways[i + 1] as number) <= way) i++;
  const [a, b] = [line.points[i] as Vec2, line.points[i + 1] as Vec2];
  const from = line.ways[i] as number;
  const share = Math.min(1, Math.max(0, (way - from) / ((line.ways[i + 1] as number) - from)));
  return { x: a.x + share * (b.x - a.x), z: a.z + share * (b.z - a.z) };
}
