import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Checked, type Problem, Problems } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';
import type { Ground, GroundKind, GroundSource } from './ground.ts';
import { groundKinds } from './registry.ts';
import { sameVertex, spoken, tooManyPoints } from './size.ts';

/**
 * Length of the level ground before the first piece and after the last one, m. Longer than any run: an hour at the
 * greatest speed that a document may ask for (100 m/s) is 360 km.
 */
export const levelRun = 1e6;

/** A piece of ground as the document gives it, in SI: its kind and that kind's own fields. */
export type GroundPiece = { readonly kind: string };

/** The vertices laid so far. Only layGround and the functions below it write to it. */
interface Chain {
  readonly x: number[];
  readonly z: number[];
}

/**
 * Lays pieces of ground one after another, from station 0 and height 0: each begins where the one before it ends.
 * Level ground of length `levelRun` is added before and after; vertices that coincide become one; a wall or slot
 * without width (up and down again at one station) is left out with a warning.
 * Lengths in m. Errors, with paths `ground[i]` and `ground[i].field`: what a piece reports about itself, a kind that is
 * not registered, more than `limits.groundPoints` vertices.
 */
export function layGround(pieces: readonly GroundPiece[], source: GroundSource): Checked<Ground> {
  const problems = new Problems();
  const chain: Chain = { x: [-levelRun, 0], z: [0, 0] };
  const laid: { kind: string; title: string; from: number; to: number }[] = [];
  let start: Vec2 = { x: 0, z: 0 };
  for (const [i, piece] of pieces.entries()) {
    const path = `ground[${i}]`;
    const kind = kindOf(piece);
    if (kind === undefined) {
      problems.error(
        `${path}.kind`,
        `no ground is called '${piece.kind}'`,
        `known: ${groundKinds.map((k) => k.kind).join(', ')}`,
      );
      continue;
    }
    const shape = kind.shape(piece, source);
    problems.add(shape.problems.map((p) => under(path, p)));
    if (chain.x.length + shape.points.length > limits.groundPoints) {
      problems.error(path, tooManyPoints(chain.x.length + shape.points.length), 'make it shorter or coarser');
      break;
    }
    const end = append(chain, start, shape.points, (station) =>
      problems.warn(
        path,
        `goes up and down again at station ${spoken(station)}; that wall or slot without width is left out`,
        'put a short flat between the two faces',
      ),
    );
    laid.push({ kind: kind.kind, title: kind.title, from: start.x, to: end.x });
    start = end;
  }
  return problems.check(close(chain, start, laid));
}

/** The registered kind of a piece. The document's schema has read the piece's fields with this kind's own. */
function kindOf(piece: GroundPiece): GroundKind | undefined {
  return groundKinds.find((k) => k.kind === piece.kind) as GroundKind | undefined;
}

/** The same problem, seen from the document instead of from the piece. */
function under(path: string, problem: Problem): Problem {
  return { ...problem, path: problem.path === '' ? path : `${path}.${problem.path}` };
}

/** Adds the points of a piece that begins at `start`; gives the place where the next piece begins. */
function append(chain: Chain, start: Vec2, points: readonly Vec2[], onThin: (station: number) => void): Vec2 {
  let end = start;
  for (const point of points) {
    end = { x: start.x + point.x, z: start.z + point.z };
    if (turnsBack(chain, end)) {
      chain.x.pop();
      chain.z.pop();
      onThin(end.x);
    }
    const last = chain.x.length - 1;
    const dx = end.x - (chain.x[last] as number);
    const dz = end.z - (chain.z[last] as number);
    if (Math.hypot(dx, dz) <= sameVertex) continue;
    chain.x.push(end.x);
    chain.z.push(end.z);
  }
  return end;
}

/** Whether the line to `next` runs back over the face that was laid last: up and down again at one station. */
function turnsBack(chain: Chain, next: Vec2): boolean {
  const n = chain.x.length;
  const before = { x: chain.x[n - 2] as number, z: chain.z[n - 2] as number };
  const last = { x: chain.x[n - 1] as number, z: chain.z[n - 1] as number };
  return before.x === last.x && last.x === next.x && (last.z - before.z) * (next.z - last.z) < 0;
}

/** The finished ground: the chain with the level run behind its end. */
function close(chain: Chain, end: Vec2, pieces: Ground['pieces']): Ground {
  return {
    x: Float64Array.from([...chain.x, end.x + levelRun]),
    z: Float64Array.from([...chain.z, end.z]),
    count: chain.x.length + 1,
    from: 0,
    to: end.x,
    pieces,
  };
}
