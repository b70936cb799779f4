import { type Branch, mostChanges } from './branch.ts';

/**
 * What one output shaft does with the branches on it. From the speed of the shaft at the end of a substep follows the
 * torque that it takes, `slope`·s + `offset`, and how the branches turn.
 */
export interface Coupling {
  slope: number;
  offset: number;
  begin(): void;
  rise(h: number): void;
  /** Turns the branches: shaft at `speed`, passing `torque`. */
  turn(speed: number, torque: number, h: number): void;
  /** Whether its state fits; it is changed when it does not. */
  settle(speed: number, torque: number): boolean;
  /** Power that is lost in it, W: where it slips, and where it grips at once. `speed`: mean over the substep. */
  lose(speed: number, torque: number): number;
  /** Energy of what turns in it, J. */
  kinetic(): number;
  /** Whether something slips that could hold. */
  readonly slips: boolean;
}

/** All branches turn alike: one shaft, or a locked differential. */
export class Lock implements Coupling {
  slope = 0;
  offset = 0;
  readonly slips = false;
  readonly #branches: readonly Branch[];

  constructor(branches: readonly Branch[]) {
    this.#branches = branches;
  }

  begin(): void {}

  rise(): void {
    this.slope = 0;
    this.offset = 0;
    for (const branch of this.#branches) {
      this.slope += branch.slope;
      this.offset += branch.offset;
    }
  }

  turn(speed: number, _torque: number, h: number): void {
    for (const branch of this.#branches) branch.turn(speed, h);
  }

  settle(): boolean {
    return true;
  }

  lose(): number {
    return 0;
  }

  kinetic(): number {
    return 0;
  }
}

/**
 * An open or limited differential: the shaft turns at the mean of its branches, weighted with their shares of its torque.
 * A limited one turns as a lock until friction gives way; then friction hands torque from the faster to the slower
 * side: T_slow − T_fast = ((b − 1)·|T| + 2·P)/(b + 1), which is T_slow = b·T_fast + P for two equal shares.
 */
export class Differential implements Coupling {
  slope = 0;
  offset = 0;
  readonly #branches: readonly Branch[];
  readonly #shares: readonly number[];
  /** Friction over torque through it, and friction without any, N·m; both 0 when open, without end when locked. */
  readonly #perTorque: number;
  readonly #preload: number;
  readonly #limited: boolean;
  /** Part of the friction torque that each branch gets; those that gain sum to ½, those that lose to −½. */
  readonly #handed: Float64Array;
  readonly #lock: Lock;
  #holds: boolean;
  #sign: 1 | -1 = 1;
  #changes = 0;

  constructor(branches: readonly Branch[], shares: readonly number[], bias: number, preload: number) {
    this.#branches = branches;
    this.#shares = shares;
    this.#perTorque = (bias - 1) / (bias + 1);
    this.#preload = (2 * preload) / (bias + 1);
    this.#limited = bias > 1 || preload > 0;
    this.#handed = new Float64Array(branches.length);
    this.#lock = new Lock(branches);
    this.#holds = this.#limited;
  }

  get slips(): boolean {
    return this.#limited && !this.#holds;
  }

  begin(): void {
    this.#changes = 0;
  }

  rise(): void {
    if (this.#holds) {
      this.#lock.rise();
      this.slope = this.#lock.slope;
      this.offset = this.#lock.offset;
      return;
    }
    let [give, rest] = [0, 0];
    for (let i = 0; i < this.#branches.length; i++) {
      const { slope, offset } = this.#branches[i] as Branch;
      const share = this.#shares[i] as number;
      give += (share * this.#partOf(i)) / slope;
      rest += (share * (offset - this.#fixed(i))) / slope;
    }
    this.slope = 1 / give;
    this.offset = rest / give;
  }

  /** Torque of a branch for 1 N·m through the shaft, and without any. */
  #partOf(i: number): number {
    return (this.#shares[i] as number) + this.#sign * this.#perTorque * (this.#handed[i] as number);
  }
  #fixed(i: number): number {
    return this.#preload * (this.#handed[i] as number);
  }

  turn(speed: number, torque: number, h: number): void {
    if (this.#holds) {
      this.#lock.turn(speed, torque, h);
      return;
    }
    for (let i = 0; i < this.#branches.length; i++) {
      const branch = this.#branches[i] as Branch;
      branch.turn((this.#partOf(i) * torque + this.#fixed(i) - branch.offset) / branch.slope, h);
    }
  }

  settle(speed: number, torque: number): boolean {
    if (!this.#limited || this.#changes > mostChanges) return true;
    if (this.#changes === mostChanges) {
      // as a lock it is sound
      this.#changes++;
      this.#holds = true;
      return false;
    }
    const fits = this.#fits(speed, torque);
    if (!fits) this.#changes++;
    return fits;
  }

  #fits(speed: number, torque: number): boolean {
    if (this.#holds) return this.#settleHeld(torque);
    let apart = 0;
    for (let i = 0; i < this.#branches.length; i++)
      apart += (this.#handed[i] as number) * (speed - (this.#branches[i] as Branch).speed);
    if (apart < 0) {
      this.#holds = true;
      return false;
    }
    const sign = torque < 0 ? -1 : 1;
    const fits = sign === this.#sign || this.#perTorque === 0;
    this.#sign = sign;
    return fits;
  }

  /** Gives way when its branches ask for torques further apart than friction holds. */
  #settleHeld(torque: number): boolean {
    let gained = 0;
    for (let i = 0; i < this.#branches.length; i++)
      gained += Math.max(0, (this.#branches[i] as Branch).torque - (this.#shares[i] as number) * torque);
    if (gained <= 0.5 * (this.#perTorque * Math.abs(torque) + this.#preload) * (1 + 1e-9)) return true;
    this.#holds = false;
    this.#sign = torque < 0 ? -1 : 1;
    let [slow, fast] = [0, 0];
    for (let i = 0; i < this.#branches.length; i++) {
      const share = this.#shares[i] as number;
      const more = (this.#branches[i] as Branch).torque > share * torque;
      this.#handed[i] = more ? share : -share;
      if (more) slow += share;
      else fast += share;
    }
    for (let i = 0; i < this.#branches.length; i++) {
      const handed = this.#handed[i] as number;
      this.#handed[i] = (0.5 * handed) / (handed > 0 ? slow : fast);
    }
    return false;
  }

  lose(speed: number): number {
    if (!this.#limited) return 0;
    let lost = 0;
    for (let i = 0; i < this.#branches.length; i++) {
      const branch = this.#branches[i] as Branch;
      lost += branch.torque * (speed - 0.5 * (branch.before + branch.speed));
    }
    return lost;
  }

  kinetic(): number {
    return 0;
  }
}

/**
 * Inertia of the shaft before a clutch over that of the wheels that it turns, as seen there. Without any, a shaft that has
 * let go would jump; one that changed with the state of what hangs on it would make energy out of nothing. Definition of
 * our own: 1/10 000 is not felt, and is counted.
 */
const ownShare = 1e-4;

/** A clutch that slips above a torque (N·m), or a freewheel that passes none back, before a branch. */
export class Clutch implements Coupling {
  slope = 0;
  offset = 0;
  readonly #branch: Branch;
  readonly #most: number;
  readonly #least: number;
  /** Of its shaft, kg·m². */
  readonly #inertia: number;
  /** Torque that it holds at while it slips; undefined while it holds. */
  #at: number | undefined;
  #changes = 0;
  /** Speed of its shaft, and that of the substep before. */
  #speed = 0;
  #before = 0;

  constructor(branch: Branch, most: number, least: number) {
    this.#branch = branch;
    this.#most = most;
    this.#least = least;
    this.#inertia = (ownShare * branch.rollingMass()) / branch.rolling() ** 2;
  }

  /** A freewheel that is overrun is no news. */
  get slips(): boolean {
    return this.#at !== undefined && this.#at !== 0;
  }

  begin(): void {
    this.#changes = 0;
    this.#before = this.#speed;
  }

  rise(h: number): void {
    const { slope, offset } = this.#branch;
    const own = this.#inertia / h;
    this.slope = own + (this.#at === undefined ? slope : 0);
    this.offset = (this.#at ?? offset) - own * this.#before;
  }

  turn(speed: number, _torque: number, h: number): void {
    const { slope, offset } = this.#branch;
    this.#speed = speed;
    this.#branch.turn(this.#at === undefined ? speed : (this.#at - offset) / slope, h);
  }

  settle(speed: number): boolean {
    if (this.#changes > mostChanges) return true;
    if (this.#changes === mostChanges) {
      // a freewheel that lets go and a clutch that holds are sound
      this.#changes++;
      this.#at = this.#least === 0 ? 0 : undefined;
      return false;
    }
    const fits = this.#fits(speed);
    if (!fits) this.#changes++;
    return fits;
  }

  #fits(speed: number): boolean {
    if (this.#at === undefined) {
      const { torque } = this.#branch;
      if (torque <= this.#most && torque >= this.#least) return true;
      this.#at = torque > this.#most ? this.#most : this.#least;
      return false;
    }
    const ahead = speed - this.#branch.speed;
    if (this.#at === this.#most ? ahead >= 0 : ahead <= 0) return true;
    this.#at = undefined;
    return false;
  }

  lose(speed: number): number {
    return this.#branch.torque * (speed - 0.5 * (this.#branch.before + this.#branch.speed));
  }

  kinetic(): number {
    return 0.5 * this.#inertia * this.#speed ** 2;
  }
}
