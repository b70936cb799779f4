import type { Joint, Mechanism } from '../mechanism/mechanism.ts';
import { Actions } from './actions.ts';
import { type CutPoint, Cuts } from './cuts.ts';
import { type Given, makeGiven, type Placement } from './given.ts';
import { carryingJoints, memberLines } from './line.ts';

/**
 * The forces in every joint and member, by free-body sums: from the last bodies of the tree towards the chassis, a pin or
 * guide carries what all forces beyond it leave over. Nothing is solved; what does not cancel is the residual.
 *
 * A pin force is what the parent puts on the child, N in world axes; on the parent acts its opposite. A guide passes on a
 * force across its axis at the child's guided point, and a moment (N·m, counter-clockwise on the child).
 * Source: d'Alembert's principle and free-body sums, any text on mechanics.
 */
export class JointForces {
  readonly mechanism: Mechanism;
  readonly given: Given;
  /** One per hinge and guide, in the mechanism's order without free bodies. */
  readonly pinX: Float64Array;
  readonly pinZ: Float64Array;
  readonly pinMoment: Float64Array;
  /** One per member with a line: largest axial force (signed, pull positive), shear and bending, N and N·m; its place, m. */
  readonly axial: Float64Array;
  readonly shear: Float64Array;
  readonly bending: Float64Array;
  readonly bendingAt: Float64Array;
  /** Largest unbalanced force of a body over the weight; moments count by the smallest wheel radius. */
  residual = 0;
  readonly #carrying: readonly Joint[];
  readonly #actions: Actions;
  readonly #cuts: readonly Cuts[];
  /** Index of the carrying joint that holds each body; −1 for the chassis and free bodies. */
  readonly #holding: Int32Array;
  readonly #fx: Float64Array;
  readonly #fz: Float64Array;
  readonly #moment: Float64Array;
  #ox = 0;
  #oz = 0;

  constructor(mechanism: Mechanism) {
    const { bodies } = mechanism;
    const carrying = carryingJoints(mechanism);
    this.mechanism = mechanism;
    this.given = makeGiven(mechanism);
    this.#carrying = carrying.map(({ joint }) => joint);
    this.#actions = new Actions(mechanism, carrying);
    this.#cuts = memberLines(mechanism).map((line) => new Cuts(line, this.#actions));
    this.#holding = new Int32Array(bodies.length).fill(-1);
    this.#carrying.forEach((joint, j) => {
      this.#holding[joint.child] = j;
    });
    const [joint, line, body] = [carrying.length, this.#cuts.length, bodies.length];
    const row = (length: number) => new Float64Array(length);
    [this.pinX, this.pinZ, this.pinMoment] = [row(joint), row(joint), row(joint)];
    [this.axial, this.shear, this.bending, this.bendingAt] = [row(line), row(line), row(line), row(line)];
    [this.#fx, this.#fz, this.#moment] = [row(body), row(body), row(body)];
  }

  /** Finds all forces for bodies that stand at `k` under what is given. */
  solve(k: Placement): void {
    this.#actions.take(k, this.given);
    this.#sum(k);
    this.residual = 0;
    for (let b = this.#fx.length - 1; b > 0; b--) this.#release(b, k);
    if (this.mechanism.root === 'free')
      this.#leave(this.#fx[0] as number, this.#fz[0] as number, this.#moment[0] as number);
    for (let l = 0; l < this.#cuts.length; l++) {
      const cuts = this.#cuts[l] as Cuts;
      cuts.cut(k, this.#actions);
      this.axial[l] = cuts.axial;
      this.shear[l] = cuts.shear;
      this.bending[l] = cuts.bending;
      this.bendingAt[l] = cuts.bendingAt;
    }
  }

  /**
   * Fills in the accelerations that known joint forces imply (m·a is what they and everything given leave over), so that
   * `solve` can tell what happens inside the members of a vehicle in motion from what was recorded of it.
   */
  accelerate(
    k: Placement,
    pinX: ArrayLike<number>,
    pinZ: ArrayLike<number>,
    pinMoment: ArrayLike<number>,
  ): void {
    const { ax, az, alpha } = this.given;
    for (const row of [ax, az, alpha]) row.fill(0);
    this.#actions.take(k, this.given);
    this.#sum(k);
    this.#carrying.forEach(({ child, parent, anchor }, j) => {
      const x =
        (k.x[child] as number) + (k.cos[child] as number) * anchor.x - (k.sin[child] as number) * anchor.z;
      const z =
        (k.z[child] as number) + (k.sin[child] as number) * anchor.x + (k.cos[child] as number) * anchor.z;
      const [fx, fz, couple] = [pinX[j] ?? 0, pinZ[j] ?? 0, pinMoment[j] ?? 0];
      this.#add(child, x, z, fx, fz, couple);
      this.#add(parent, x, z, -fx, -fz, -couple);
    });
    this.mechanism.bodies.forEach(({ mass, inertia }, b) => {
      const [fx, fz] = [this.#fx[b] as number, this.#fz[b] as number];
      ax[b] = fx / mass;
      az[b] = fz / mass;
      alpha[b] =
        ((this.#moment[b] as number) - this.#momentOf(k.cx[b] as number, k.cz[b] as number, fx, fz)) /
        inertia;
    });
  }

  /** Inner forces along the line of a member as they were solved last, from its front end to its rear end. */
  diagram(line: number, k: Placement): CutPoint[] {
    const out: CutPoint[] = [];
    this.#cuts[line]?.cut(k, this.#actions, out);
    return out;
  }

  /** Adds up all forces on each body but those of pins and guides; moments about the chassis' centre of mass. */
  #sum(k: Placement): void {
    const { body, x, z, fx, fz, couple, pins } = this.#actions;
    this.#ox = k.cx[0] as number;
    this.#oz = k.cz[0] as number;
    this.#fx.fill(0);
    this.#fz.fill(0);
    this.#moment.fill(0);
    for (let i = 0; i < pins; i++)
      this.#add(
        body[i] as number,
        x[i] as number,
        z[i] as number,
        fx[i] as number,
        fz[i] as number,
        couple[i] as number,
      );
  }

  /** Lets the joint of a body carry what the body has left over, and hands it to the parent. */
  #release(b: number, k: Placement): void {
    const j = this.#holding[b] as number;
    const fx = this.#fx[b] as number;
    const fz = this.#fz[b] as number;
    const about = this.#moment[b] as number;
    if (j < 0) {
      this.#leave(fx, fz, about);
      return;
    }
    const { kind, parent, anchor, axis } = this.#carrying[j] as Joint;
    const c = k.cos[b] as number;
    const s = k.sin[b] as number;
    const x = (k.x[b] as number) + c * anchor.x - s * anchor.z;
    const z = (k.z[b] as number) + s * anchor.x + c * anchor.z;
    const moment = about - this.#momentOf(x, z, fx, fz);
    if (kind === 'hinge') {
      this.#leave(0, 0, moment);
      this.#hold(j, parent, x, z, -fx, -fz, 0);
      return;
    }
    const pc = k.cos[parent] as number;
    const ps = k.sin[parent] as number;
    const nx = pc * axis.x - ps * axis.z;
    const nz = ps * axis.x + pc * axis.z;
    const along = fx * nx + fz * nz;
    this.#leave(along, 0, 0);
    this.#hold(j, parent, x, z, along * nx - fx, along * nz - fz, -moment);
  }

  /** Writes what joint j puts on its child at a world point, and adds its opposite to the parent. */
  #hold(j: number, parent: number, x: number, z: number, fx: number, fz: number, couple: number): void {
    this.pinX[j] = fx;
    this.pinZ[j] = fz;
    this.pinMoment[j] = couple;
    const row = this.#actions.pins + 2 * j;
    this.#actions.set(row, x, z, fx, fz, couple);
    this.#actions.set(row + 1, x, z, -fx, -fz, -couple);
    this.#add(parent, x, z, -fx, -fz, -couple);
  }

  /** Adds a force with a couple at a world point to the sums of a body. */
  #add(b: number, x: number, z: number, fx: number, fz: number, couple: number): void {
    this.#fx[b] = (this.#fx[b] as number) + fx;
    this.#fz[b] = (this.#fz[b] as number) + fz;
    this.#moment[b] = (this.#moment[b] as number) + couple + this.#momentOf(x, z, fx, fz);
  }

  /** Moment of a force at a world point about the chassis' centre of mass, N·m. */
  #momentOf(x: number, z: number, fx: number, fz: number): number {
    return (x - this.#ox) * fz - (z - this.#oz) * fx;
  }

  /** Takes note of a force and a moment that nothing carries. */
  #leave(fx: number, fz: number, moment: number): void {
    const { mass, gravity, size } = this.mechanism;
    const most = Math.max(Math.abs(fx), Math.abs(fz), Math.abs(moment) / size);
    this.residual = Math.max(this.residual, most / (mass * gravity));
  }
}
