import { chainOf, type DriveChain } from '../driveline/chain.ts';
import { motorsOf } from '../driveline/metered.ts';
import { clearanceOf } from '../frames/clearance.ts';
import type { Snapshot, SourceSnapshot, WheelSnapshot } from '../frames/frames.ts';
import { JointForces } from '../joints/forces.ts';
import { type Gauge, gaugeOf } from '../mechanism/gauge.ts';
import { type Kinematics, makeKinematics } from '../mechanism/kinematics.ts';
import type { BoundElement } from '../mechanism/mechanism.ts';
import { distanceToGround } from '../tyre/touch.ts';
import type { Balance } from './balance.ts';

/** Reads snapshots off a balance, and keeps the accounts that run along a crossing: roll angles, work, losses. */
export class Instant {
  readonly #balance: Balance;
  readonly #k: Kinematics;
  readonly #members: readonly (Gauge | undefined)[];
  readonly #elements: readonly Gauge[];
  readonly #forces: JointForces;
  readonly #memories: readonly Float64Array[];
  readonly #start: number;
  readonly #rolls: Float64Array;
  readonly #hubs: Float64Array;
  readonly #torques: Float64Array;
  readonly #chain: DriveChain | undefined;
  readonly #motors: ReturnType<typeof motorsOf>;
  #energy = Number.NaN;
  #work = 0;
  #lost = 0;
  #first = true;

  constructor(balance: Balance, start: number) {
    const { mechanism } = balance;
    this.#balance = balance;
    this.#k = makeKinematics(mechanism.bodies.length);
    this.#members = mechanism.members.map((m) => m.coordinate && gaugeOf(m.coordinate, mechanism));
    this.#elements = mechanism.elements.map((e) => gaugeOf(e.coordinate, mechanism));
    this.#forces = new JointForces(mechanism);
    this.#memories = mechanism.elements.map((e) => new Float64Array(e.law.memory));
    this.#start = start;
    this.#rolls = new Float64Array(mechanism.wheels.length);
    this.#hubs = new Float64Array(2 * mechanism.wheels.length);
    this.#torques = new Float64Array(mechanism.wheels.length);
    this.#chain = chainOf(mechanism);
    this.#motors = mechanism.driveline ? motorsOf(mechanism.driveline) : [];
  }

  /** Time at which the vehicle comes to a station at its target speed, s. */
  timeAt(station: number): number {
    const speed = Math.abs(this.#balance.mechanism.drive.speed);
    return Math.abs(station - this.#start) / (speed > 0 ? speed : 1);
  }

  /** Snapshot of the balance as it was last evaluated. `lost`: energy lost in dry friction since the last one, J. */
  at(station: number, lost: number): Snapshot {
    const { mechanism, ground, chain } = this.#balance;
    this.#place();
    const wheels = mechanism.wheels.map((_, w) => this.#wheel(w));
    this.#lost += lost;
    this.#first = false;
    const energy = this.#potential();
    if (Number.isNaN(this.#energy)) this.#energy = energy;
    return {
      run: {
        time: this.timeAt(station),
        station,
        speed: mechanism.drive.speed,
        pitch: this.#balance.state.angle[chain.last[0] as number] as number,
        heaveAcceleration: 0,
        clearance: clearanceOf(mechanism, this.#k, ground),
        work: this.#work,
        energy: energy - this.#energy,
        lost: this.#lost,
      },
      x: this.#k.x,
      z: this.#k.z,
      angle: this.#k.angle,
      wheels,
      motions: this.#members.map((gauge) => {
        gauge?.read(this.#k);
        return gauge?.x ?? 0;
      }),
      sources: this.#sources(),
    };
  }

  /** What the motors must give for the torques on the axle lines, at the target speed. */
  #sources(): SourceSnapshot[] {
    const { wheels, asked, mechanism } = this.#balance;
    const chain = this.#chain;
    if (chain === undefined) return [];
    const parked = asked.thrust.kind === 'parked';
    const torques = wheels.map((w, i) => (parked || !mechanism.wheels[i]?.driven ? 0 : w.torque));
    chain.solve(torques, mechanism.drive.speed < 0 ? -1 : 1);
    return this.#motors.map(({ index, metered }) => ({
      torque: chain.out[index] as number,
      speed: chain.speed[index] as number,
      current: metered ? (chain.current[index] as number) : Number.NaN,
    }));
  }

  /**
   * Forces in joints and members of the balance as it was last evaluated at unknowns y, after `at` has read it. They are
   * overwritten by the next call.
   */
  forces(y: Float64Array): JointForces {
    const { mechanism, wheels, rodRow, asked } = this.#balance;
    const { given } = this.#forces;
    const parked = asked.thrust.kind === 'parked';
    for (let w = 0; w < wheels.length; w++) {
      const { fx, fz, torque } = wheels[w] as (typeof wheels)[number];
      given.groundX[w] = fx;
      given.groundZ[w] = fz;
      given.torque[w] = parked ? 0 : torque;
      given.holding[w] = parked ? torque : 0;
    }
    for (let e = 0; e < mechanism.elements.length; e++) {
      const { x } = this.#elements[e] as Gauge;
      given.travel[e] = x;
      given.effort[e] = this.#effort(e, x);
    }
    given.tension.set(y.subarray(rodRow, rodRow + mechanism.rods.length));
    this.#forces.solve(this.#k);
    return this.#forces;
  }

  /** Effort of an element at its coordinate x, N or N·m: with its memory, or with dry friction let go. */
  #effort(e: number, x: number): number {
    const { law, count } = this.#balance.mechanism.elements[e] as BoundElement;
    if (!this.#balance.asked.relaxed || law.memory === 0)
      return count * law.spring(x, this.#balance.memoryOf(e));
    const rested = this.#memories[e] as Float64Array;
    law.rest?.(x, rested);
    return count * law.spring(x, rested);
  }

  /** Frames and centres of mass of all bodies from the chain. */
  #place(): void {
    const { chain, state, mechanism } = this.#balance;
    for (let b = 0; b < mechanism.bodies.length; b++) {
      const i = chain.last[b] as number;
      const centre = mechanism.bodies[b]?.centre ?? { x: 0, z: 0 };
      const c = state.cos[i] as number;
      const s = state.sin[i] as number;
      this.#k.x[b] = state.x[i] as number;
      this.#k.z[b] = state.z[i] as number;
      this.#k.angle[b] = state.angle[i] as number;
      this.#k.cos[b] = c;
      this.#k.sin[b] = s;
      this.#k.cx[b] = (state.x[i] as number) + c * centre.x - s * centre.z;
      this.#k.cz[b] = (state.z[i] as number) + s * centre.x + c * centre.z;
    }
  }

  #wheel(w: number): WheelSnapshot {
    const { mechanism, ground, wheels } = this.#balance;
    const wheel = mechanism.wheels[w] as (typeof mechanism.wheels)[number];
    const state = wheels[w] as (typeof wheels)[number];
    const { body, hub, radius, tyre } = wheel;
    const c = this.#k.cos[body] as number;
    const s = this.#k.sin[body] as number;
    const x = (this.#k.x[body] as number) + c * hub.x - s * hub.z;
    const z = (this.#k.z[body] as number) + s * hub.x + c * hub.z;
    this.#roll(w, x, z);
    const touching = state.normal > 0;
    const chassis = { x: x - (this.#k.x[0] as number), z: z - (this.#k.z[0] as number) };
    return {
      wheelStation: touching ? state.contact : x,
      load: Math.max(0, state.fz),
      normal: state.normal,
      thrust: state.use * state.normal,
      gripUse: touching && tyre.grip > 0 ? Math.abs(state.use) / tyre.grip : 0,
      torque: state.torque,
      roll: this.#rolls[w] as number,
      travel: -(this.#k.sin[0] as number) * chassis.x + (this.#k.cos[0] as number) * chassis.z - hub.z,
      depth: state.depth,
      gap: touching ? 0 : Math.max(0, distanceToGround(ground, x, z, 10 * radius) - radius),
    };
  }

  /** Rolls a wheel along the way of its hub since the last station, and books work and rolling loss (trapezoid). */
  #roll(w: number, x: number, z: number): void {
    const { mechanism, wheels, asked } = this.#balance;
    const wheel = mechanism.wheels[w] as (typeof mechanism.wheels)[number];
    const state = wheels[w] as (typeof wheels)[number];
    const lever = state.normal > 0 && state.moment > 0 ? state.moment / state.normal : wheel.radius;
    const way = this.#first
      ? 0
      : Math.hypot(x - (this.#hubs[2 * w] as number), z - (this.#hubs[2 * w + 1] as number));
    const turned = (asked.sense * way) / lever;
    this.#rolls[w] = (this.#rolls[w] as number) + turned;
    this.#work += 0.5 * (state.torque + (this.#torques[w] as number)) * turned * (this.#first ? 0 : 1);
    this.#lost += wheel.tyre.rolling * state.moment * Math.abs(turned);
    this.#torques[w] = state.torque;
    this.#hubs[2 * w] = x;
    this.#hubs[2 * w + 1] = z;
  }

  /** Energy of height and of everything stored, J. */
  #potential(): number {
    const { mechanism } = this.#balance;
    let sum = this.#balance.storedInTyres();
    mechanism.bodies.forEach((b, i) => {
      sum += b.mass * mechanism.gravity * (this.#k.cz[i] as number);
    });
    mechanism.elements.forEach((e, i) => {
      const gauge = this.#elements[i] as Gauge;
      gauge.read(this.#k);
      sum += e.count * e.law.energy(gauge.x, this.#balance.memoryOf(i));
    });
    return sum;
  }
}
