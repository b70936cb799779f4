import type { Ground } from '../ground/ground.ts';
import type { BoundElement, Mechanism, Pull } from '../mechanism/mechanism.ts';
import { Between } from './between.ts';
import {
  type Chain,
  type ChainState,
  chainOf,
  makeChainState,
  placeChain,
  pointOf,
  pointRates,
} from './chain.ts';
import { Footing, hasUnknown, type Thrust, type WheelBalance } from './footing.ts';

/** What is asked of the balance besides the mechanism itself. */
export interface Asked {
  /** How the wheels push. Without thrust a horizontal hold at the reference point is what is missing on a slope. */
  readonly thrust: Thrust;
  /** Sense of rolling, for rolling resistance: +1 forward, −1 back, 0 standing still. */
  readonly sense: -1 | 0 | 1;
  /** Dry friction in the suspension is let go: the vehicle stands where its springs balance. */
  readonly relaxed: boolean;
}

/** Grounds of joint coordinates, spans and lifts, bound to the chain once. */
interface JointLaw {
  readonly freedom: number;
  readonly element: BoundElement;
  readonly memory: Float64Array;
  readonly trial: Float64Array;
  last: number;
}
interface SpanLaw extends Omit<JointLaw, 'freedom'> {
  readonly line: Between;
  readonly drawn: number;
}
interface LiftLaw extends JointLaw {
  readonly armX: number;
  readonly armZ: number;
}

/**
 * The equations of equilibrium of a mechanism on its ground at one station: residual and exact tangent. Unknowns y:
 * freedoms q (m, rad), then the thrust unknown when the sharing has one, then one tension per rod (N, pull positive).
 * Rows: generalised forces (N, N·m), then ΣFx (N), then rod lengths times weight over size (N).
 */
export class Balance {
  readonly mechanism: Mechanism;
  readonly chain: Chain;
  readonly state: ChainState;
  readonly wheels: readonly WheelBalance[];
  readonly count: number;
  readonly thrustRow: number;
  readonly rodRow: number;
  readonly residual: Float64Array;
  readonly tangent: Float64Array;
  readonly weight: number;
  readonly ground: Ground;
  readonly asked: Asked;
  readonly #joints: readonly JointLaw[];
  readonly #spans: readonly SpanLaw[];
  readonly #lifts: readonly LiftLaw[];
  readonly #footing: Footing;
  readonly #memories: readonly Float64Array[];
  readonly #dx: Float64Array;
  readonly #dz: Float64Array;
  readonly #rods: readonly Between[];
  readonly #point = new Float64Array(2);
  /** What an element answered last: effort, N or N·m, and the rate at which it falls with its coordinate. */
  #effort = 0;
  #rate = 0;

  constructor(mechanism: Mechanism, ground: Ground, asked: Asked) {
    this.mechanism = mechanism;
    this.ground = ground;
    this.asked = asked;
    this.chain = chainOf(mechanism);
    this.state = makeChainState(this.chain);
    const n = this.chain.size;
    this.thrustRow = hasUnknown(asked.thrust) ? n : -1;
    this.rodRow = hasUnknown(asked.thrust) ? n + 1 : n;
    this.count = this.rodRow + mechanism.rods.length;
    this.residual = new Float64Array(this.count);
    this.tangent = new Float64Array(this.count * this.count);
    this.weight = mechanism.mass * mechanism.gravity;
    this.#footing = new Footing(
      mechanism,
      this.chain,
      asked.thrust,
      asked.sense,
      this.weight * mechanism.size,
    );
    this.wheels = this.#footing.wheels;
    this.#dx = new Float64Array(n);
    this.#dz = new Float64Array(n);
    this.#rods = mechanism.rods.map((rod) => new Between(this.chain, rod.a, rod.b));
    const laws = mechanism.elements.map((element) => bind(element, mechanism, this.chain));
    this.#memories = laws.map((l) => l.memory);
    this.#joints = laws.filter((l): l is JointLaw => 'freedom' in l && !('armX' in l));
    this.#lifts = laws.filter((l): l is LiftLaw => 'armX' in l);
    this.#spans = laws.filter((l): l is SpanLaw => 'drawn' in l);
  }

  /** Evaluates residual and tangent at unknowns y with the reference point at this station, m. */
  evaluate(y: Float64Array, station: number): void {
    this.residual.fill(0);
    this.tangent.fill(0);
    const { x, z } = this.mechanism.reference;
    placeChain(this.chain, this.state, y, station, x, z);
    this.#weigh();
    this.#footing.add(this.state, this.ground, this.thrustRow < 0 ? 0 : (y[this.thrustRow] as number), this);
    for (const law of this.#joints) this.#pushJoint(law, y);
    for (const law of this.#lifts) this.#pushLift(law, y);
    for (const law of this.#spans) this.#pushSpan(law);
    for (let r = 0; r < this.mechanism.rods.length; r++) this.#pullRod(r, y[this.rodRow + r] as number);
    for (const p of this.mechanism.pulls) this.#pull(p);
  }

  /** Largest unbalanced force over the weight: moments count by the smallest wheel radius. */
  worst(): number {
    let most = 0;
    for (let i = 0; i < this.count; i++) {
      const lever = i < this.chain.size && this.chain.turns[i] ? this.mechanism.size : 1;
      most = Math.max(most, Math.abs(this.residual[i] as number) / lever);
    }
    return most / this.weight;
  }

  /** Takes the state of y as the past of elements with memory; returns the energy that dry friction took on the way, J. */
  remember(y: Float64Array): number {
    let lost = 0;
    for (const law of this.#joints) lost += settleMemory(law, y[law.freedom] as number);
    for (const law of this.#lifts) lost += settleMemory(law, this.#liftOf(law, y));
    for (const law of this.#spans) lost += settleMemory(law, law.drawn - law.line.measure(this.state));
    return lost;
  }

  /** Number of separate contacts of a wheel line. */
  contactsOf(wheel: number): number {
    return this.#footing.contactsOf(wheel);
  }

  /** Energy stored in all tyres, J. */
  storedInTyres(): number {
    return this.#footing.stored();
  }

  /** History variables of element i of the mechanism. */
  memoryOf(i: number): Float64Array {
    return this.#memories[i] as Float64Array;
  }

  /** Adds a constant force at a world point to the rows of a path, with its geometric part of the tangent. */
  #addForce(path: Int32Array, fx: number, fz: number): void {
    const { turns, sign } = this.chain;
    const [dx, dz, n] = [this.#dx, this.#dz, this.count];
    for (let a = 0; a < path.length; a++) {
      const i = path[a] as number;
      this.residual[i] = (this.residual[i] as number) + fx * (dx[i] as number) + fz * (dz[i] as number);
      if (!turns[i]) continue;
      const s = sign[i] as number;
      for (let b = a; b < path.length; b++) {
        const j = path[b] as number;
        const bend = s * (fz * (dx[j] as number) - fx * (dz[j] as number));
        this.tangent[i * n + j] = (this.tangent[i * n + j] as number) + bend;
        if (a !== b) this.tangent[j * n + i] = (this.tangent[j * n + i] as number) + bend;
      }
    }
  }

  #weigh(): void {
    const { bodies, gravity } = this.mechanism;
    for (let b = 0; b < bodies.length; b++) {
      const { centre, mass } = bodies[b] as Mechanism['bodies'][number];
      this.#pushAt(b, centre.x, centre.z, 0, -mass * gravity);
    }
  }

  /** Adds a constant force (N, world axes) at a drawn point of a body. */
  #pushAt(body: number, x: number, z: number, fx: number, fz: number): void {
    const path = this.chain.path[body] as Int32Array;
    pointOf(this.chain, this.state, body, x, z, this.#point);
    const px = this.#point[0] as number;
    const pz = this.#point[1] as number;
    pointRates(this.chain, this.state, path, px, pz, this.#dx, this.#dz);
    this.#addForce(path, fx, fz);
  }

  #pull(p: Pull): void {
    this.#pushAt(p.body, p.at.x, p.at.z, p.fx, p.fz);
    if (this.thrustRow >= 0) this.residual[this.thrustRow] = (this.residual[this.thrustRow] as number) + p.fx;
  }

  /**
   * Asks an element for its effort at x and the rate at which that falls with x. Laws with memory move it along while
   * they are tried, so their rate is taken as a difference: a bristle that slides has none.
   */
  #respond(law: Omit<JointLaw, 'freedom'>, x: number): void {
    const { law: words, count } = law.element;
    if (words.memory === 0) {
      this.#effort = count * words.spring(x, law.memory);
      this.#rate = count * words.stiffness(x, law.memory);
      return;
    }
    const step = 1e-7 * this.mechanism.size;
    this.#effort = count * this.#tryAt(law, x);
    this.#rate = (-count * (this.#tryAt(law, x + step) - this.#tryAt(law, x - step))) / (2 * step);
  }

  #tryAt(law: Omit<JointLaw, 'freedom'>, x: number): number {
    if (this.asked.relaxed) law.element.law.rest?.(x, law.trial);
    else trialMemory(law, x);
    return law.element.law.spring(x, law.trial);
  }

  #pushJoint(law: JointLaw, y: Float64Array): void {
    const i = law.freedom;
    const at = i * this.count + i;
    this.#respond(law, y[i] as number);
    this.residual[i] = (this.residual[i] as number) + this.#effort;
    this.tangent[at] = (this.tangent[at] as number) - this.#rate;
  }

  #liftOf(law: LiftLaw, y: Float64Array): number {
    const turn = y[law.freedom + 2] as number;
    return (y[law.freedom + 1] as number) + Math.sin(turn) * law.armX + (Math.cos(turn) - 1) * law.armZ;
  }

  /** Acts on the rise z and the turn of a free body: x = z + sin·armX + (cos − 1)·armZ. */
  #pushLift(law: LiftLaw, y: Float64Array): void {
    const n = this.count;
    const z = law.freedom + 1;
    const turn = law.freedom + 2;
    const c = Math.cos(y[turn] as number);
    const s = Math.sin(y[turn] as number);
    const x = this.#liftOf(law, y);
    this.#respond(law, x);
    const effort = this.#effort;
    const rate = -this.#rate;
    const byTurn = c * law.armX - s * law.armZ;
    this.residual[z] = (this.residual[z] as number) + effort;
    this.residual[turn] = (this.residual[turn] as number) + effort * byTurn;
    this.tangent[z * n + z] = (this.tangent[z * n + z] as number) + rate;
    this.tangent[z * n + turn] = (this.tangent[z * n + turn] as number) + rate * byTurn;
    this.tangent[turn * n + z] = (this.tangent[turn * n + z] as number) + rate * byTurn;
    this.tangent[turn * n + turn] =
      (this.tangent[turn * n + turn] as number) +
      rate * byTurn * byTurn -
      effort * (s * law.armX + c * law.armZ);
  }

  #pushSpan(law: SpanLaw): void {
    const { line } = law;
    this.#respond(law, law.drawn - line.measure(this.state));
    // x = drawn − L: the effort is a push −effort·∂L/∂q, and its change −rate·(∂L)²
    line.pull(this.state, this.#effort, this.#rate, this.residual, this.tangent, this.count);
  }

  #pullRod(r: number, tension: number): void {
    const line = this.#rods[r] as Between;
    const row = this.rodRow + r;
    const unit = this.weight / this.mechanism.size;
    const length = line.measure(this.state);
    line.pull(this.state, tension, 0, this.residual, this.tangent, this.count);
    this.residual[row] = unit * (length - (this.mechanism.rods[r]?.length as number));
    for (let k = 0; k < line.freedoms.length; k++) {
      const i = line.freedoms[k] as number;
      this.tangent[row * this.count + i] = unit * (line.rates[k] as number);
      this.tangent[i * this.count + row] = -(line.rates[k] as number);
    }
  }
}

/** Binds an element to the freedoms on which it acts. */
function bind(element: BoundElement, mechanism: Mechanism, chain: Chain): JointLaw | SpanLaw | LiftLaw {
  const memory = () => new Float64Array(element.law.memory);
  const common = { element, memory: memory(), trial: memory(), last: Number.NaN };
  const { coordinate } = element;
  if (coordinate.kind === 'joint') return { ...common, freedom: chain.ofJoint[coordinate.joint] as number };
  if (coordinate.kind === 'span') {
    return { ...common, line: new Between(chain, coordinate.a, coordinate.b), drawn: coordinate.drawn };
  }
  const joint = mechanism.joints.findIndex((j) => j.child === coordinate.body && j.kind === 'free');
  if (joint < 0)
    throw new RangeError(`element '${element.name}' measures the rise of a body that is not free`);
  const centre = mechanism.bodies[coordinate.body]?.centre ?? { x: 0, z: 0 };
  return {
    ...common,
    freedom: chain.ofJoint[joint] as number,
    armX: coordinate.at.x - centre.x,
    armZ: coordinate.at.z - centre.z,
  };
}

/** Sets the trial memory to what it would be after moving to x. */
function trialMemory(law: Omit<JointLaw, 'freedom'>, x: number): void {
  law.trial.set(law.memory);
  if (Number.isNaN(law.last)) law.element.law.rest?.(x, law.trial);
  else law.element.law.advance?.(law.last, x, law.trial);
}

function settleMemory(law: Omit<JointLaw, 'freedom'> & { last: number }, x: number): number {
  let lost = 0;
  if (Number.isNaN(law.last)) law.element.law.rest?.(x, law.memory);
  else lost = law.element.count * (law.element.law.advance?.(law.last, x, law.memory) ?? 0);
  law.last = x;
  return lost;
}
