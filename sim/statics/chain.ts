import type { Pose } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/**
 * The tree of a mechanism as a chain of single freedoms, for statics. Freedom 0 is the height of the reference point
 * over z = 0, freedom 1 the chassis' pitch; the station of the reference point is given, not free. Then one freedom per
 * hinge or slide (its coordinate) and three per free body (x, z, turn against its parent).
 *
 * For a point p of a body, ∂p/∂q of a turn is sign·ẑ×(p − anchor) and of a slide its axis; ∂²p/∂qi∂qj = signᵢ·ẑ×∂p/∂qj
 * when i is a turn at or above j, zero when i is a slide. Source: planar rigid-body kinematics, any text.
 */
export interface Chain {
  /** Number of freedoms. */
  readonly size: number;
  /** 1 for a turn, 0 for a slide. */
  readonly turns: Uint8Array;
  /** Sign of a turn: +1 raises the coordinate counter-clockwise. */
  readonly sign: Float64Array;
  /** Freedom before this one on the way to the root; −1 for none. */
  readonly before: Int32Array;
  /** Drawn anchor of a turn, drawn axis of a slide. */
  readonly drawnX: Float64Array;
  readonly drawnZ: Float64Array;
  /** Last freedom of each body, and all freedoms from the root to it. */
  readonly last: Int32Array;
  readonly path: readonly Int32Array[];
  /** Freedom of each joint; the first of three for a free body. */
  readonly ofJoint: Int32Array;
}

/** State of a chain: frames after each freedom, and where its turns and slides lie in the world. */
export interface ChainState {
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly angle: Float64Array;
  /** World anchor of a turn, world direction of a slide. */
  readonly wx: Float64Array;
  readonly wz: Float64Array;
}

/** Takes a mechanism apart into single freedoms. */
export function chainOf(mechanism: Mechanism): Chain {
  const turns: number[] = [0, 1];
  const sign: number[] = [1, 1];
  const before: number[] = [-1, 0];
  const drawn = [{ x: 0, z: 1 }, mechanism.reference];
  const last = new Int32Array(mechanism.bodies.length).fill(1);
  const ofJoint = new Int32Array(mechanism.joints.length);
  const add = (turn: boolean, s: number, above: number, at: { x: number; z: number }): number => {
    turns.push(turn ? 1 : 0);
    sign.push(s);
    before.push(above);
    drawn.push(at);
    return turns.length - 1;
  };
  mechanism.joints.forEach(({ kind, parent, child, anchor, axis, sign: s }, j) => {
    const above = last[parent] as number;
    ofJoint[j] = turns.length;
    if (kind === 'hinge') last[child] = add(true, s, above, anchor);
    else if (kind === 'slide') last[child] = add(false, 1, above, axis);
    else {
      const x = add(false, 1, above, { x: 1, z: 0 });
      const z = add(false, 1, x, { x: 0, z: 1 });
      last[child] = add(true, 1, z, mechanism.bodies[child]?.centre ?? { x: 0, z: 0 });
    }
  });
  const path = [...last].map((end) => {
    const way: number[] = [];
    for (let i = end; i >= 0; i = before[i] ?? -1) way.unshift(i);
    return Int32Array.from(way);
  });
  return {
    size: turns.length,
    turns: Uint8Array.from(turns),
    sign: Float64Array.from(sign),
    before: Int32Array.from(before),
    drawnX: Float64Array.from(drawn, (d) => d.x),
    drawnZ: Float64Array.from(drawn, (d) => d.z),
    last,
    path,
    ofJoint,
  };
}

/** Room for the state of a chain. */
export function makeChainState(chain: Chain): ChainState {
  const row = () => new Float64Array(chain.size);
  return { x: row(), z: row(), cos: row(), sin: row(), angle: row(), wx: row(), wz: row() };
}

/** Places all frames for freedoms q (m and rad) with the drawn reference point (rx, rz) at this station, m. */
export function placeChain(
  chain: Chain,
  s: ChainState,
  q: Float64Array,
  station: number,
  rx: number,
  rz: number,
): void {
  for (let i = 0; i < chain.size; i++) {
    const b = chain.before[i] as number;
    const x = b < 0 ? station - rx : (s.x[b] as number);
    const z = b < 0 ? -rz : (s.z[b] as number);
    const c = b < 0 ? 1 : (s.cos[b] as number);
    const sn = b < 0 ? 0 : (s.sin[b] as number);
    const a = b < 0 ? 0 : (s.angle[b] as number);
    const dx = chain.drawnX[i] as number;
    const dz = chain.drawnZ[i] as number;
    const qi = q[i] as number;
    const ux = c * dx - sn * dz;
    const uz = sn * dx + c * dz;
    if (chain.turns[i]) {
      const angle = a + (chain.sign[i] as number) * qi;
      const nc = Math.cos(angle);
      const ns = Math.sin(angle);
      s.wx[i] = x + ux;
      s.wz[i] = z + uz;
      s.x[i] = x + ux - (nc * dx - ns * dz);
      s.z[i] = z + uz - (ns * dx + nc * dz);
      s.cos[i] = nc;
      s.sin[i] = ns;
      s.angle[i] = angle;
    } else {
      s.wx[i] = ux;
      s.wz[i] = uz;
      s.x[i] = x + ux * qi;
      s.z[i] = z + uz * qi;
      s.cos[i] = c;
      s.sin[i] = sn;
      s.angle[i] = a;
    }
  }
}

/** Pose of a body. */
export function poseOf(chain: Chain, s: ChainState, body: number): Pose {
  const i = chain.last[body] as number;
  return { x: s.x[i] as number, z: s.z[i] as number, angle: s.angle[i] as number };
}

/** World place of a drawn point of a body, written to out[0], out[1]. */
export function pointOf(
  chain: Chain,
  s: ChainState,
  body: number,
  px: number,
  pz: number,
  out: Float64Array,
): void {
  const i = chain.last[body] as number;
  out[0] = (s.x[i] as number) + (s.cos[i] as number) * px - (s.sin[i] as number) * pz;
  out[1] = (s.z[i] as number) + (s.sin[i] as number) * px + (s.cos[i] as number) * pz;
}

/** ∂(px, pz)/∂q of freedom i, written to dx[i], dz[i], for all freedoms on the path. */
export function pointRates(
  chain: Chain,
  s: ChainState,
  path: Int32Array,
  px: number,
  pz: number,
  dx: Float64Array,
  dz: Float64Array,
): void {
  for (let n = 0; n < path.length; n++) {
    const i = path[n] as number;
    if (chain.turns[i]) {
      const sign = chain.sign[i] as number;
      dx[i] = -sign * (pz - (s.wz[i] as number));
      dz[i] = sign * (px - (s.wx[i] as number));
    } else {
      dx[i] = s.wx[i] as number;
      dz[i] = s.wz[i] as number;
    }
  }
}
