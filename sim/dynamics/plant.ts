import type { Pose } from '../../shared/geometry/vec.ts';
import { RigidWorld } from '../engine/world.ts';
import type { Ground } from '../ground/ground.ts';
import { type Gauge, gaugeOf, pointRate } from '../mechanism/gauge.ts';
import {
  type Kinematics,
  type Loads,
  makeKinematics,
  makeLoads,
  pushAt,
  twist,
} from '../mechanism/kinematics.ts';
import type { BoundElement, Mechanism, Pull } from '../mechanism/mechanism.ts';
import { TyreLine, type TyreMode } from '../tyre/line.ts';
import { DriveTree } from './tree/drive-tree.ts';
import type { WorkingWheel } from './working-wheel.ts';

/** An element at work: where it is read and pushed, and what it remembers. */
interface Working {
  readonly element: BoundElement;
  readonly gauge: Gauge;
  readonly memory: Float64Array;
  last: number;
  /** Effort when it was pushed last, N or N·m. */
  effort: number;
}

/**
 * What the drive does in a substep. `settle`: no friction, no losses, wheels at rest, a horizontal hold. `park`: wheels
 * locked to their carriers; with a drag (1/s) the vehicle is still being set down and dampers are left out. `drive`: driven wheels are held to `speed`, m/s, within their torque.
 */
export type Command =
  | { readonly kind: 'settle'; readonly drag: number; readonly hold: Hold }
  | { readonly kind: 'park'; readonly drag: number }
  | { readonly kind: 'drive'; readonly speed: number; readonly gain: number };

/** A horizontal spring on the chassis' centre of mass, N/m, that rests at x, m. */
export interface Hold {
  readonly stiffness: number;
  readonly x: number;
}

const settingDown: TyreMode = { friction: false, damping: false };
const atWork: TyreMode = { friction: true, damping: true };

/** The vehicle in motion on its ground: one state, moved on substep by substep. */
export class Plant {
  readonly mechanism: Mechanism;
  readonly ground: Ground;
  readonly world: RigidWorld;
  readonly k: Kinematics;
  readonly wheels: readonly WorkingWheel[];
  readonly members: readonly (Gauge | undefined)[];
  /** The drive line at work, where the vehicle has one; else each driven axle line is held to the speed by itself. */
  readonly tree: DriveTree | undefined;
  /** Work of the drive and energy lost since the last `reset`, J. */
  work = 0;
  lost = 0;
  /** Force of the horizontal hold in the last substep, N. */
  held = 0;
  readonly #loads: Loads;
  readonly #elements: readonly Working[];

  constructor(mechanism: Mechanism, ground: Ground, poses: readonly Pose[]) {
    this.mechanism = mechanism;
    this.ground = ground;
    this.world = new RigidWorld(mechanism, poses);
    this.k = makeKinematics(mechanism.bodies.length);
    this.#loads = makeLoads(mechanism.bodies.length);
    this.world.read(this.k);
    this.#elements = mechanism.elements.map((element) => ({
      element,
      gauge: gaugeOf(element.coordinate, mechanism),
      memory: new Float64Array(element.law.memory),
      last: Number.NaN,
      effort: 0,
    }));
    this.members = mechanism.members.map((m) => m.coordinate && gaugeOf(m.coordinate, mechanism));
    this.wheels = mechanism.wheels.map((wheel) => ({
      wheel,
      line: new TyreLine(wheel),
      roll: 0,
      rate: 0,
      torque: 0,
      lastCarrierAngle: Number.NaN,
      lastRoll: 0,
    }));
    this.tree = mechanism.driveline && new DriveTree(mechanism, mechanism.driveline, this.wheels);
  }

  /** Starts the accounts of work and losses anew. */
  reset(): void {
    this.work = 0;
    this.lost = 0;
  }

  /** Finds all forces at the present state and moves on by h seconds. */
  substep(h: number, command: Command): void {
    this.evaluate(h, command);
    this.move(h);
  }

  /** Moves on by h seconds under the forces found last. */
  move(h: number): void {
    this.world.apply(this.#loads);
    this.world.step(h);
    this.world.read(this.k);
  }

  /** Finds all forces at the present state without moving; a step of h seconds is to follow. */
  evaluate(h: number, command: Command): void {
    this.#loads.fx.fill(0);
    this.#loads.fz.fill(0);
    this.#loads.torque.fill(0);
    const working = command.kind === 'drive' || (command.kind === 'park' && command.drag === 0);
    for (const w of this.#elements) this.#pushElement(w, h, working);
    for (const w of this.wheels) this.#turnWheel(w, h, command);
    if (this.tree && command.kind === 'drive') this.#driveTree(this.tree, h, command);
    if (command.kind !== 'drive' && command.drag > 0) this.#quieten(command.drag);
    if (command.kind === 'settle') this.#holdBack(command.hold);
    for (const pull of this.mechanism.pulls) this.#pull(pull, working ? h : 0);
  }

  /** A constant force from outside; what it does over h seconds counts as work. */
  #pull({ body, at, fx, fz }: Pull, h: number): void {
    const c = this.k.cos[body] as number;
    const s = this.k.sin[body] as number;
    const px = (this.k.x[body] as number) + c * at.x - s * at.z;
    const pz = (this.k.z[body] as number) + s * at.x + c * at.z;
    pushAt(this.#loads, this.k, body, fx, fz, px, pz);
    this.work += h * pointRate(this.k, body, px, pz, fx, fz);
  }

  #pushElement(w: Working, h: number, working: boolean): void {
    const { law, count } = w.element;
    w.gauge.read(this.k);
    const { x, rate } = w.gauge;
    let effort = 0;
    if (!working) {
      // dry friction and dampers are left out while the vehicle is set down: it stands where its springs balance
      law.rest?.(x, w.memory);
      effort = count * law.spring(x, w.memory);
    } else {
      if (law.advance) this.lost += count * law.advance(Number.isNaN(w.last) ? x : w.last, x, w.memory);
      const loss = law.loss(x, rate);
      effort = count * (law.spring(x, w.memory) + loss);
      this.lost -= count * loss * rate * h;
      w.last = x;
    }
    w.gauge.push(this.#loads, this.k, effort);
    w.effort = effort;
  }

  /** Writes coordinates (m, rad) and efforts (N, N·m) of all elements as they were pushed last. */
  readElements(travel: Float64Array, effort: Float64Array): void {
    this.#elements.forEach((w, e) => {
      travel[e] = w.gauge.x;
      effort[e] = w.effort;
    });
  }

  #turnWheel(w: WorkingWheel, h: number, command: Command): void {
    const { wheel, line } = w;
    const carrier = this.k.angle[wheel.body] as number;
    const locked = command.kind !== 'drive';
    if (locked) w.roll -= Number.isNaN(w.lastCarrierAngle) ? 0 : carrier - w.lastCarrierAngle;
    line.meet(
      this.ground,
      this.k,
      this.#loads,
      w.roll - w.lastRoll,
      h,
      command.kind === 'settle' ? settingDown : atWork,
    );
    w.lastCarrierAngle = carrier;
    w.lastRoll = w.roll;
    w.torque = 0;
    if (command.kind === 'drive') {
      if (!(this.tree && wheel.driven)) this.#spin(w, h, command);
    } else {
      w.rate = 0;
      twist(this.#loads, wheel.body, line.drag);
    }
    this.lost += line.lost;
  }

  #driveTree(tree: DriveTree, h: number, { speed, gain }: Extract<Command, { kind: 'drive' }>): void {
    tree.step(h, speed, gain / this.mechanism.size, this.k, this.#loads);
    this.work += tree.work;
    this.lost += tree.lost;
  }

  /**
   * Spin of a wheel under drive torque, friction and rolling resistance, over h. The speed regulator gives
   * T = gain·(target − rate) within the limit, taken at the end of the step so that it is stable at any gain.
   * Rolling resistance is a dry torque c·N·r: it slows the wheel, never turns it back.
   */
  #spin(w: WorkingWheel, h: number, { speed, gain }: { speed: number; gain: number }): void {
    const { wheel, line } = w;
    const before = w.rate;
    let rate = before - (h * line.drag) / wheel.inertia;
    if (wheel.driven) {
      const limit = wheel.torqueLimit;
      const k = gain * limit;
      const wanted =
        (rate + (h * k * (speed / wheel.radius)) / wheel.inertia) / (1 + (h * k) / wheel.inertia);
      w.torque = Math.max(-limit, Math.min(limit, (wheel.inertia * (wanted - rate)) / h));
      rate += (h * w.torque) / wheel.inertia;
    }
    const slow = (h * wheel.tyre.rolling * line.normal * wheel.radius) / wheel.inertia;
    const slowed = Math.abs(rate) <= slow ? 0 : rate - Math.sign(rate) * slow;
    this.lost += ((wheel.inertia * (rate - slowed)) / h) * 0.5 * (before + slowed) * h;
    w.rate = slowed;
    w.roll += h * slowed;
    this.work += w.torque * h * 0.5 * (before + slowed);
    for (let i = 0; i < wheel.reactions.length; i++) {
      const { body, share } = wheel.reactions[i] as (typeof wheel.reactions)[number];
      twist(this.#loads, body, share * w.torque);
      this.work += share * w.torque * h * (this.k.spin[body] as number);
    }
  }

  /** Slows all bodies in proportion to their mass: `drag` 1/s. */
  #quieten(drag: number): void {
    for (let i = 0; i < this.mechanism.bodies.length; i++) {
      const body = this.mechanism.bodies[i] as Mechanism['bodies'][number];
      this.#loads.fx[i] = (this.#loads.fx[i] as number) - drag * body.mass * (this.k.vx[i] as number);
      this.#loads.fz[i] = (this.#loads.fz[i] as number) - drag * body.mass * (this.k.vz[i] as number);
      this.#loads.torque[i] =
        (this.#loads.torque[i] as number) - drag * body.inertia * (this.k.spin[i] as number);
    }
  }

  #holdBack({ stiffness, x }: Hold): void {
    this.held = -stiffness * ((this.k.cx[0] as number) - x);
    this.#loads.fx[0] = (this.#loads.fx[0] as number) + this.held;
  }

  /** Largest unbalanced force on the vehicle as a whole, N: what is left of weight and ground forces. */
  unbalance(): number {
    const fx = this.wheels.reduce((sum, w) => sum + w.line.fx, 0) + this.held;
    const fz =
      this.wheels.reduce((sum, w) => sum + w.line.fz, 0) - this.mechanism.mass * this.mechanism.gravity;
    return Math.hypot(fx, fz);
  }

  /** Energy of motion of bodies and wheels, J. */
  kinetic(): number {
    const { k, mechanism } = this;
    const bodies = mechanism.bodies.reduce((sum, b, i) => {
      const speed = (k.vx[i] as number) ** 2 + (k.vz[i] as number) ** 2;
      return sum + 0.5 * b.mass * speed + 0.5 * b.inertia * (k.spin[i] as number) ** 2;
    }, 0);
    const wheels = this.wheels.reduce((sum, w) => sum + 0.5 * w.wheel.inertia * w.rate ** 2, 0);
    return bodies + wheels + (this.tree?.kinetic() ?? 0);
  }

  /** Energy of height, m·g·z of all centres of mass, J. */
  height(): number {
    return this.mechanism.bodies.reduce(
      (sum, b, i) => sum + b.mass * this.mechanism.gravity * (this.k.cz[i] as number),
      0,
    );
  }

  /** Energy stored in elements at the present state, J. */
  storedInElements(): number {
    return this.#elements.reduce((sum, w) => {
      w.gauge.read(this.k);
      return sum + w.element.count * w.element.law.energy(w.gauge.x, w.memory);
    }, 0);
  }

  /** Energy stored in tyres and their bristles when they last met the ground, J. */
  storedInTyres(): number {
    return this.wheels.reduce((sum, w) => sum + w.line.stored, 0);
  }

  /** World point of the vehicle's reference, m, with its forward speed, m/s. */
  reference(): { readonly x: number; readonly speed: number } {
    const { x, z } = this.mechanism.reference;
    const c = this.k.cos[0] as number;
    const s = this.k.sin[0] as number;
    const px = (this.k.x[0] as number) + c * x - s * z;
    const pz = (this.k.z[0] as number) + s * x + c * z;
    return {
      x: px,
      speed: (this.k.vx[0] as number) - (this.k.spin[0] as number) * (pz - (this.k.cz[0] as number)),
    };
  }
}
