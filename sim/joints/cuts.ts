import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Actions } from './actions.ts';
import type { Placement } from './given.ts';
import { type MemberLine, nearestWay, pointOnLine } from './line.ts';

/**
 * What a member carries just beside a point of its line. Axial force N, pull positive; shear V = dM/ds, N; bending moment
 * M, N·m, positive where the forces beyond the cut (further forward) lift that end: it presses the upper side.
 */
export interface CutPoint {
  /** Way along the line, m, and the drawn point there. */
  readonly way: number;
  readonly at: Vec2;
  readonly axial: number;
  readonly shear: number;
  readonly bending: number;
}

/** A stretch of a line between two places where forces act or where it bends: straight, nothing acts inside. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** Drawn ends and direction. */
  readonly ax: number;
  readonly az: number;
  readonly bx: number;
  readonly bz: number;
  readonly tx: number;
  readonly tz: number;
  /** Rows of the forces that act at the far end. */
  readonly beyond: Int32Array;
}

/**
 * The inner forces along one member's line. Every force on its body is taken where its place is nearest to the line, with
 * its moment about the cut (a stiff bracket across); between such places axial and shear force are constant and the
 * moment is straight, so that it is greatest at one of them.
 * Source: method of sections, any text on strength of materials.
 */
export class Cuts {
  readonly line: MemberLine;
  /** Largest sizes along the line, N and N·m; axial with its sign; and where bending is largest, m along the line. */
  axial = 0;
  shear = 0;
  bending = 0;
  bendingAt = 0;
  readonly #stretches: readonly Stretch[];
  /** Forces beyond the cut so far. */
  #fx = 0;
  #fz = 0;
  #moment = 0;

  constructor(line: MemberLine, actions: Actions) {
    this.line = line;
    this.#stretches = stretchesOf(line, actions);
  }

  /** Finds the largest of each along the line; writes every stretch's two ends to `out` when it is given, front first. */
  cut(k: Placement, actions: Actions, out?: CutPoint[]): void {
    const { body } = this.line;
    const c = k.cos[body] as number;
    const s = k.sin[body] as number;
    this.#clear();
    for (let n = this.#stretches.length - 1; n >= 0; n--) {
      const part = this.#stretches[n] as Stretch;
      this.#gather(part.beyond, actions, k.x[body] as number, k.z[body] as number);
      const tx = c * part.tx - s * part.tz;
      const tz = s * part.tx + c * part.tz;
      const axial = this.#fx * tx + this.#fz * tz;
      const shear = this.#fx * tz - this.#fz * tx;
      const far = this.#momentAt(c * part.bx - s * part.bz, s * part.bx + c * part.bz);
      const near = this.#momentAt(c * part.ax - s * part.az, s * part.ax + c * part.az);
      if (Math.abs(axial) > Math.abs(this.axial)) this.axial = axial;
      this.shear = Math.max(this.shear, Math.abs(shear));
      this.#bend(far, part.to);
      this.#bend(near, part.from);
      out?.push(
        { way: part.to, at: { x: part.bx, z: part.bz }, axial, shear, bending: far },
        { way: part.from, at: { x: part.ax, z: part.az }, axial, shear, bending: near },
      );
    }
  }

  #clear(): void {
    this.#fx = 0;
    this.#fz = 0;
    this.#moment = 0;
    this.axial = 0;
    this.shear = 0;
    this.bending = 0;
    this.bendingAt = 0;
  }

  /** Adds forces to those beyond the cut; moments about the origin of the body's frame, (ox, oz) in the world. */
  #gather(rows: Int32Array, actions: Actions, ox: number, oz: number): void {
    for (let j = 0; j < rows.length; j++) {
      const i = rows[j] as number;
      const fx = actions.fx[i] as number;
      const fz = actions.fz[i] as number;
      this.#fx += fx;
      this.#fz += fz;
      const moment = ((actions.x[i] as number) - ox) * fz - ((actions.z[i] as number) - oz) * fx;
      this.#moment += (actions.couple[i] as number) + moment;
    }
  }

  /** Moment of the forces beyond the cut about a point (from the body frame's origin, world axes). */
  #momentAt(x: number, z: number): number {
    return this.#moment - x * this.#fz + z * this.#fx;
  }

  #bend(moment: number, way: number): void {
    if (!(Math.abs(moment) > this.bending)) return;
    this.bending = Math.abs(moment);
    this.bendingAt = way;
  }
}

/** Stretches of a line between its corners and the places of all forces on its body. */
function stretchesOf(line: MemberLine, actions: Actions): Stretch[] {
  const length = line.ways.at(-1) as number;
  const rows = [...actions.body.keys()]
    .filter((i) => actions.body[i] === line.body)
    .map((i) => ({ i, way: nearestWay(line, actions.drawn[i] as Vec2) }));
  const marks = [...line.ways, ...rows.map((r) => r.way)].sort((a, b) => a - b);
  // places closer than a billionth of the line are one
  const knots = marks.filter((way, i) => i === 0 || way - (marks[i - 1] as number) > 1e-9 * length);
  return knots.slice(1).map((to, n) => {
    const from = knots[n] as number;
    const [a, b] = [pointOnLine(line, from), pointOnLine(line, to)];
    const size = Math.hypot(b.x - a.x, b.z - a.z);
    // the last knot of the chain that is not past the force: near duplicates belong to the knot before them
    const beyond = rows.filter(
      ({ way }) => way >= to - 1e-9 * length && !(way >= (knots[n + 2] ?? Infinity) - 1e-9 * length),
    );
    return {
      from,
      to,
      ax: a.x,
      az: a.z,
      bx: b.x,
      bz: b.z,
      tx: (b.x - a.x) / size,
      tz: (b.z - a.z) / size,
      beyond: Int32Array.from(beyond, (r) => r.i),
    };
  });
}
