import type { Kinematics } from '../mechanism/kinematics.ts';
import type { AngledBy, DrivePart, ShaftEnd } from './driveline.ts';

/** Where all bodies are: world place of each body frame's origin, and its turn. */
export type Placement = Pick<Kinematics, 'x' | 'z' | 'cos' | 'sin'>;

/** Direction in space: forward, across, up. Scratch of one angle; written over at every call. */
type Direction = Float64Array;

/**
 * Angles of joints from the pose of the bodies. A shaft with two ends runs from one to the other; across the vehicle
 * it runs over its `reach` (its length, for a shaft that lies across; the offset of its ends, for a lengthwise one).
 */
export class JointAngles {
  readonly #parts: readonly DrivePart[];
  readonly #a: Direction = new Float64Array(3);
  readonly #b: Direction = new Float64Array(3);

  constructor(parts: readonly DrivePart[]) {
    this.#parts = parts;
  }

  /**
   * Angle at joint `p`, rad from 0 to π/2; NaN where nothing says it. Without a placement: as drawn.
   * Source: angle between two directions, |a × b| over a·b.
   */
  at(p: number, k: Placement | undefined): number {
    const by = this.#parts[p]?.angledBy;
    if (by === undefined) return Number.NaN;
    if (by.kind === 'fixed') return by.angle;
    if (!this.#along(by.shaft, k, this.#a)) return Number.NaN;
    if (by.kind === 'shafts') {
      if (!this.#along(by.other, k, this.#b)) return Number.NaN;
    } else held(by, k, this.#b);
    return between(this.#a, this.#b);
  }

  /** Writes the direction of a shaft; false when it has no ends or no length. */
  #along(shaft: number, k: Placement | undefined, to: Direction): boolean {
    const part = this.#parts[shaft];
    if (part?.ends === undefined) return false;
    const [from, until] = part.ends;
    to[0] = xOf(until, k) - xOf(from, k);
    to[1] = part.law.reach ?? 0;
    to[2] = zOf(until, k) - zOf(from, k);
    return (to[0] as number) ** 2 + (to[1] as number) ** 2 + (to[2] as number) ** 2 > 0;
  }
}

/** Direction of a shaft that a body holds: drawn at `drawn` against the level where it lies lengthwise. */
function held(by: AngledBy & { kind: 'body' }, k: Placement | undefined, to: Direction): void {
  to[0] = by.across ? 0 : turnedCos(by, k);
  to[1] = by.across ? 1 : 0;
  to[2] = by.across ? 0 : turnedSin(by, k);
}

const turnedCos = ({ body, cos, sin }: AngledBy & { kind: 'body' }, k: Placement | undefined): number =>
  k === undefined ? cos : cos * (k.cos[body] as number) - sin * (k.sin[body] as number);
const turnedSin = ({ body, cos, sin }: AngledBy & { kind: 'body' }, k: Placement | undefined): number =>
  k === undefined ? sin : sin * (k.cos[body] as number) + cos * (k.sin[body] as number);

const xOf = ({ body, at }: ShaftEnd, k: Placement | undefined): number =>
  k === undefined
    ? at.x
    : (k.x[body] as number) + (k.cos[body] as number) * at.x - (k.sin[body] as number) * at.z;
const zOf = ({ body, at }: ShaftEnd, k: Placement | undefined): number =>
  k === undefined
    ? at.z
    : (k.z[body] as number) + (k.sin[body] as number) * at.x + (k.cos[body] as number) * at.z;

function between(a: Direction, b: Direction): number {
  const [ax, ay, az] = [a[0] as number, a[1] as number, a[2] as number];
  const [bx, by, bz] = [b[0] as number, b[1] as number, b[2] as number];
  const along = ax * bx + ay * by + az * bz;
  const [cx, cy, cz] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
  return Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), Math.abs(along));
}
