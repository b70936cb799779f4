import type { Recording, RunEnd, RunEvent } from '../../shared/recording.ts';
import { Frames, namesOf } from '../frames/frames.ts';
import type { Ground } from '../ground/ground.ts';
import type { DriveShare, Mechanism } from '../mechanism/mechanism.ts';
import { Balance } from './balance.ts';
import { CrawlWatch, type Shortage } from './crawl-watch.ts';
import { overturns, topples } from './fall.ts';
import { Instant } from './instant.ts';
import { type Pressed, Presser } from './press.ts';
import { Solver } from './solve.ts';
import { type Stand, standAt, standWords } from './stand.ts';

/** What a crossing is asked for; stations in m. */
export interface Crossing {
  readonly start: number;
  readonly until: number;
  /** Stations between start and end, before those that are added near contact changes. */
  readonly stations: number;
  /** How the torque is shared; as the mechanism's drive says when left out. */
  readonly share?: DriveShare;
  /** Adds no stations where the pose bends: for callers that look between stations themselves. */
  readonly plain?: boolean;
  /** Go on where grip or torque would not do, to see the loads there; otherwise the crossing ends as stuck. */
  readonly regardless?: boolean;
  /** Finer stations where wheels come near the limit of grip or torque, so that no peak of need is stepped over. */
  readonly closely?: boolean;
  /** Whether the forces in joints and members are found and recorded too; they are when left out. */
  readonly forces?: boolean;
  /** Told the unknowns of the balance at each station that is taken; they are overwritten by the next one. */
  readonly seen?: (station: number, unknowns: Float64Array) => void;
}

/** Finest station step near a contact change, and where a jump is accepted, as shares of the usual step. */
const finest = 1 / 16;
const jumpAt = 1 / 256;
/** Iterations after which a shorter step is the quicker way on. */
const patient = 16;
/** Shares of the usual step at which the next balance is looked for where a branch ends. */
const leapShares = [1 / 64, 1 / 16, 1 / 4, 1, 2];
/** The same for a gap where next to nothing is wanting, and how much that is, as a share of the weight. */
const creepShares = [1 / 64, 1 / 32, 1 / 16];
const negligible = 1e-3;
/** A change of pose between two stations that is no longer the same branch: rad, and wheel radii. */
const leapTurn = 0.05;
const leapSlide = 0.1;
/**
 * A change of pose besides the straight-line guess that calls for finer stations: rad, and wheel radii. Coarse enough for
 * rough ground, fine enough for a wheel that is light for a millimetre only (tests/unit/statics/dips.test.ts).
 */
const swerveTurn = 0.015;
const swerveSlide = 0.015;
/** Share of that which is let pass within the shortest step, where a crossing is looked at closely; elsewhere four times as much. */
const closeLeap = 0.4;

/** The crossing under way: where it is, where it was, and what it wrote down. */
export class Crawl {
  readonly frames: Frames;
  readonly watch: CrawlWatch;
  readonly #balance: Balance;
  readonly #solver: Solver;
  readonly #instant: Instant;
  readonly #crossing: Crossing;
  readonly #sense: 1 | -1;
  readonly #trial: Float64Array;
  readonly #guess: Float64Array;
  #now: Float64Array;
  #before: Float64Array;
  #station: number;
  #stationBefore: number;

  constructor(
    mechanism: Mechanism,
    ground: Ground,
    crossing: Crossing,
    from: Extract<Stand, { kind: 'stands' }>,
  ) {
    this.#crossing = crossing;
    this.#sense = crossing.until < crossing.start ? -1 : 1;
    this.#balance = new Balance(mechanism, ground, {
      thrust: { kind: 'driven', share: crossing.share ?? mechanism.drive.share },
      sense: this.#sense,
      relaxed: false,
    });
    this.#solver = new Solver(this.#balance);
    this.#now = this.#begin(from.unknowns);
    this.#before = this.#now.slice();
    this.#trial = this.#now.slice();
    this.#guess = this.#now.slice();
    this.#station = crossing.start;
    this.#stationBefore = crossing.start;
    this.frames = new Frames(mechanism, crossing.forces ?? true);
    this.#instant = new Instant(this.#balance, crossing.start);
    this.watch = new CrawlWatch(this.#balance, crossing.start);
  }

  /** Freedoms and rod tensions of the standing vehicle, with no thrust yet. */
  #begin(standing: Float64Array): Float64Array {
    const { chain, rodRow, count, mechanism } = this.#balance;
    const y = new Float64Array(count);
    y.set(standing.subarray(0, chain.size));
    y.set(standing.subarray(standing.length - mechanism.rods.length), rodRow);
    this.#balance.remember(y);
    return y;
  }

  /** Crosses to the end, or to where no balance is found. */
  run(): RunEnd {
    const { start, until, stations } = this.#crossing;
    const usual = Math.abs(until - start) / stations;
    let step = usual;
    let next = start;
    for (;;) {
      const found = this.#solveAt(next, usual, step);
      if (found === 'finer') {
        step /= 2;
        next = this.#station + this.#sense * step;
        continue;
      }
      if (found === 'lost') {
        const pressed = this.#press(next);
        const crept = pressed.kind === 'stuck' ? this.#creep(usual, pressed.missing) : undefined;
        if (pressed.kind === 'stuck' && crept === undefined && !this.#crossing.regardless)
          return this.#stuck(pressed);
        const landed = pressed.kind === 'balanced' ? next : (crept ?? this.#leap(usual));
        if (landed === undefined) return this.#lost(next);
        next = landed;
      }
      const stuck = this.#accept(next);
      if (stuck) return stuck;
      if (this.#sense * (until - next) <= 1e-9 * usual)
        return { kind: 'arrived', time: this.#instant.timeAt(next), station: next };
      step = Math.min(usual, 2 * step);
      const left = this.#sense * (until - next);
      if (step > left - 1e-9 * usual) step = left;
      next += this.#sense * step;
    }
  }

  /** Tries a station from a straight-line guess; asks for a finer step where the branch or the contacts change. */
  #solveAt(station: number, usual: number, step: number): 'found' | 'finer' | 'lost' {
    const ratio =
      this.#station === this.#stationBefore
        ? 0
        : (station - this.#station) / (this.#station - this.#stationBefore);
    for (let i = 0; i < this.#trial.length; i++) {
      const now = this.#now[i] as number;
      this.#trial[i] = now + ratio * (now - (this.#before[i] as number));
    }
    this.#guess.set(this.#trial);
    const solved = this.#solver.newton(this.#trial, station, step > usual * jumpAt ? patient : 40);
    if (solved.found && !this.#leaps(step / usual)) {
      if (this.frames.count === 0) return 'found';
      const coarse =
        step > usual * finest * 1.001 &&
        (this.watch.contactsChange() || (!this.#crossing.plain && this.#swerves()));
      const steep = this.#crossing.closely && step > usual * jumpAt * 1.001 && this.watch.strainChange();
      return coarse || steep ? 'finer' : 'found';
    }
    if (step > usual * jumpAt) return 'finer';
    return 'lost';
  }

  /** Whether the pose is off the straight-line guess by more than a crossing drawn through its stations should be. */
  #swerves(): boolean {
    const { chain, mechanism } = this.#balance;
    for (let i = 0; i < chain.size; i++) {
      const most = chain.turns[i] ? swerveTurn : swerveSlide * mechanism.size;
      if (Math.abs((this.#trial[i] as number) - (this.#guess[i] as number)) > most) return true;
    }
    return false;
  }

  /**
   * Creeps over a gap in the branch that is no obstacle: shorter than a sixteenth of a step, and no more than a thousandth
   * of the weight (`missing`, N) is wanting in it. Returns the station beyond.
   */
  #creep(usual: number, missing: number): number | undefined {
    if (missing > negligible * this.#balance.weight) return undefined;
    for (const share of creepShares) {
      const station = this.#station + this.#sense * usual * share;
      if (this.#sense * (this.#crossing.until - station) < 0) return undefined;
      this.#trial.set(this.#now);
      if (this.#solver.newton(this.#trial, station).found && !this.#leaps()) return station;
    }
    return undefined;
  }

  /**
   * The branch ends just ahead. Right behind its end the sinking is endless (the vehicle hesitates where the old balance
   * has just vanished), so it is tried at growing distances. Returns the station where it found its feet.
   */
  #leap(usual: number): number | undefined {
    for (const share of leapShares) {
      const station = this.#station + this.#sense * usual * share;
      if (this.#sense * (this.#crossing.until - station) >= 0 && this.#jump(station)) return station;
    }
    return undefined;
  }

  /** Whether the trial, `share` of a usual step away, has left the branch of the last station. */
  #leaps(share = 1): boolean {
    const { chain, mechanism } = this.#balance;
    const ease = this.#crossing.closely ? closeLeap + share * (1 - closeLeap) : 4;
    for (let i = 0; i < chain.size; i++) {
      const most = ease * (chain.turns[i] ? leapTurn : leapSlide * mechanism.size);
      if (Math.abs((this.#trial[i] as number) - (this.#now[i] as number)) > most) return true;
    }
    return false;
  }

  /**
   * Where the branch ends the vehicle is held by a horizontal force, with the thrust that it has, and the thrust is then
   * raised (or lowered) until the hold has nothing left to do, as a driver would; suspensions may snap on the way. 'stuck':
   * grip or torque run out first, or no thrust does it. 'falls': it keeps no pose even held.
   */
  #press(station: number): Pressed {
    const { watch } = this;
    const presser = new Presser(this.#solver, station, this.#sense, () => watch.limit());
    this.#trial.set(this.#now);
    const pressed = presser.press(this.#trial);
    if (pressed.kind !== 'balanced') return pressed;
    if (topples(this.#trial, this.#now)) return { kind: 'falls' };
    if (presser.snapped || this.#leaps()) watch.jump(station, this.#now, this.#trial);
    return pressed;
  }

  /**
   * The branch ends here: the vehicle sinks from its last pose to the next one that is stable. When thrust stands in the
   * way of that, it sinks while it is held horizontally, and thrust takes over from the hold.
   */
  #jump(station: number): boolean {
    this.#trial.set(this.#now);
    if (!this.#solver.sink(this.#trial, station).found && !this.#sinkHeld(station)) return false;
    if (topples(this.#trial, this.#now)) return false;
    this.watch.jump(station, this.#now, this.#trial);
    return true;
  }

  #sinkHeld(station: number): boolean {
    const { mechanism, ground, chain, rodRow } = this.#balance;
    const held = new Balance(mechanism, ground, { thrust: { kind: 'none' }, sense: 0, relaxed: true });
    const y = new Float64Array(held.count);
    y.set(this.#now.subarray(0, chain.size));
    y.set(this.#now.subarray(rodRow), held.rodRow);
    if (!new Solver(held).sink(y, station).found) return false;
    this.#trial.fill(0);
    this.#trial.set(y.subarray(0, chain.size));
    this.#trial.set(y.subarray(held.rodRow), rodRow);
    return this.#solver.newton(this.#trial, station, 60).found;
  }

  /** Takes the trial as the state at this station, writes its frame, and tells whether the vehicle gets no further. */
  #accept(station: number): RunEnd | undefined {
    const kept = this.#before;
    this.#before = this.#now;
    this.#now = kept;
    this.#now.set(this.#trial);
    this.#stationBefore = this.#station;
    this.#station = station;
    const lost = this.#balance.remember(this.#now);
    const snapshot = this.#instant.at(station, lost);
    this.frames.add(snapshot);
    if (this.#crossing.forces ?? true) this.frames.addForces(this.#instant.forces(this.#now));
    this.watch.look(station, snapshot);
    this.#crossing.seen?.(station, this.#now);
    if (this.#crossing.regardless) return undefined;
    const short = this.watch.limit();
    return short && this.#stuck(short);
  }

  #stuck({ cause, by }: Shortage): RunEnd {
    const place = { time: this.#instant.timeAt(this.#station), station: this.#station };
    return { kind: 'stuck', ...place, cause, ...(by === undefined ? {} : { by }) };
  }

  /** What became of a vehicle that fell from its pose and found no other: let go with its last thrust, where does it end? */
  #lost(station: number): RunEnd {
    this.#trial.set(this.#now);
    this.#solver.held = true;
    const landed = this.#solver.sink(this.#trial, station);
    this.#solver.held = false;
    if (
      !landed.found ||
      topples(this.#trial, this.#now) ||
      overturns(this.#balance, this.#now, this.#station, station)
    )
      return { kind: 'tipped', time: this.#instant.timeAt(this.#station), station: this.#station };
    return this.#stuck({ cause: 'it drops, and where it lands no thrust of the driven wheels holds it' });
  }
}

/**
 * Moves the vehicle over the ground station by station, in balance at each: no inertia, all the time in the world.
 * Returns a Recording whose frames are stations; its time is what the way takes at the target speed.
 * Where the vehicle cannot stand at the start, the recording has no frames and its end says why.
 */
export function crawlOver(mechanism: Mechanism, ground: Ground, crossing: Crossing): Recording {
  const from = standAt(mechanism, ground, crossing.start);
  if (from.kind !== 'stands') return nothing(mechanism, crossing, from);
  const crawl = new Crawl(mechanism, ground, crossing, from);
  const end = crawl.run();
  const { frames, block } = crawl.frames.pack();
  const time = end.time;
  return {
    mode: 'crawl',
    frames,
    rate: time > 0 ? (frames - 1) / time : 1,
    substep: 0,
    substepSays: 'balance of forces at each station, no substep',
    block,
    columns: crawl.frames.columns,
    ...namesOf(mechanism),
    standing: from.standing,
    events: withEnd(crawl.watch.events, end),
    end,
  };
}

function withEnd(events: readonly RunEvent[], end: RunEnd): RunEvent[] {
  const place = { time: end.time, station: end.station };
  if (end.kind === 'stuck') return [...events, { kind: 'stuck', ...place, cause: end.cause }];
  return end.kind === 'tipped' ? [...events, { kind: 'tip-over', ...place }] : [...events];
}

/** A recording without frames for a vehicle that cannot stand where it is to start. */
function nothing(
  mechanism: Mechanism,
  { start }: Crossing,
  from: Exclude<Stand, { kind: 'stands' }>,
): Recording {
  const frames = new Frames(mechanism, true);
  const cause = `at the start ${standWords(from)}`;
  const end: RunEnd =
    from.kind === 'tips'
      ? { kind: 'tipped', time: 0, station: start }
      : { kind: 'stuck', time: 0, station: start, cause };
  const zero = mechanism.bodies.map(() => ({ x: start, z: 0, angle: 0 }));
  return {
    mode: 'crawl',
    frames: 0,
    rate: 1,
    substep: 0,
    substepSays: 'balance of forces at each station, no substep',
    block: new Float64Array(0),
    columns: frames.columns,
    ...namesOf(mechanism),
    standing: {
      poses: zero,
      loads: mechanism.wheels.map(() => 0),
      travels: mechanism.wheels.map(() => 0),
      station: start,
      pitch: 0,
      motions: mechanism.members.map(() => 0),
      stored: 0,
      residual: 1,
    },
    events: withEnd([], end),
    end,
  };
}
