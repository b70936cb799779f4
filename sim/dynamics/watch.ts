import type { RunEvent } from '../../shared/recording.ts';
import { DriveWatch } from './drive-watch.ts';
import type { Plant } from './plant.ts';
import { gapOf, gripUseOf } from './snapshot.ts';
import type { WorkingWheel } from './working-wheel.ts';

/** A wheel in the air. */
interface Flight {
  readonly event: Extract<RunEvent, { kind: 'lift-off' }>;
  height: number;
}

/** What one wheel did a substep ago. */
interface WheelWatch {
  flight: Flight | undefined;
  depth: number;
  atGrip: number;
  atTorque: number;
}

/** Time for which a limit must be left before reaching it again is news, s, for a wheel of 1 m radius; × √radius. */
const calm = 0.1;

/** Looks at the plant after every substep and notes what happens, at interpolated times and stations. */
export class Watch {
  readonly events: RunEvent[] = [];
  readonly #wheels: WheelWatch[];
  readonly #stops: boolean[][];
  readonly #motions: number[];
  readonly #calm: number;
  readonly #members: readonly string[];
  readonly #drive: DriveWatch | undefined;
  #lastStation = Number.NaN;
  #time = 0;
  #station = 0;
  #speed = 0;
  #h = 0;

  constructor(plant: Plant) {
    this.#wheels = plant.wheels.map(() => ({ flight: undefined, depth: 0, atGrip: -1e9, atTorque: -1e9 }));
    this.#stops = plant.mechanism.members.map(() => [false, false]);
    this.#motions = plant.mechanism.members.map(() => Number.NaN);
    this.#members = plant.mechanism.members.map((m) => m.name);
    this.#calm = calm * Math.sqrt(plant.mechanism.size);
    this.#drive = plant.tree && new DriveWatch(plant.tree, this.#calm);
  }

  /** Looks at the state whose forces were just found: `time` s. `h`: the substep before it. */
  look(plant: Plant, time: number, h: number): void {
    this.#time = time;
    this.#h = h;
    this.#station = plant.reference().x;
    this.#speed = Number.isNaN(this.#lastStation) ? 0 : (this.#station - this.#lastStation) / h;
    this.#lastStation = this.#station;
    for (let i = 0; i < plant.wheels.length; i++) {
      const w = plant.wheels[i] as WorkingWheel;
      const seen = this.#wheels[i] as WheelWatch;
      this.#lookAtContact(plant, w, seen);
      this.#lookAtLimits(w, seen, plant.tree !== undefined);
    }
    for (let i = 0; i < this.#motions.length; i++) this.#lookAtStops(plant, i);
    this.#drive?.look(plant, time, this.events);
  }

  /** Time and station `back` substeps ago. */
  #at(back: number): { time: number; station: number } {
    return {
      time: Math.max(0, this.#time - back * this.#h),
      station: this.#station - back * this.#h * this.#speed,
    };
  }

  #lookAtContact(plant: Plant, w: WorkingWheel, seen: WheelWatch): void {
    const touching = w.line.depth > 0;
    if (touching && seen.flight) this.#land(w, seen);
    else if (!touching) {
      const gap = gapOf(plant, w);
      if (!seen.flight) this.#leave(w, seen, this.#at(1 - seen.depth / Math.max(seen.depth + gap, 1e-300)));
      if (seen.flight) seen.flight.height = Math.max(seen.flight.height, gap);
    }
    seen.depth = w.line.depth;
  }

  /** `tree`: a drive line has limits of its own, and none on an axle line. */
  #lookAtLimits(w: WorkingWheel, seen: WheelWatch, tree: boolean): void {
    if (w.line.rub > 0 && gripUseOf(w) > 0.999) {
      if (this.#time - seen.atGrip > this.#calm)
        this.events.push({ kind: 'grip-limit', ...this.#placeOf(w) });
      seen.atGrip = this.#time;
    }
    const { driven, torqueLimit } = w.wheel;
    if (!tree && driven && torqueLimit > 0 && Math.abs(w.torque) >= 0.9999 * torqueLimit) {
      if (this.#time - seen.atTorque > this.#calm)
        this.events.push({ kind: 'torque-limit', ...this.#placeOf(w) });
      seen.atTorque = this.#time;
    }
  }

  #placeOf(w: WorkingWheel): { time: number; station: number; wheel: string; wheelStation: number } {
    return { ...this.#at(0), wheel: w.wheel.name, wheelStation: w.line.station };
  }

  #leave(w: WorkingWheel, seen: WheelWatch, place: { time: number; station: number }): void {
    const event = { kind: 'lift-off' as const, ...place, wheel: w.wheel.name, wheelStation: w.line.station };
    this.events.push(event);
    seen.flight = { event, height: 0 };
  }

  /** A flight that is over within two substeps is rounding, not a lift-off: it is taken back. */
  #land(w: WorkingWheel, seen: WheelWatch): void {
    const flight = seen.flight;
    seen.flight = undefined;
    if (!flight) return;
    if (this.#time - flight.event.time < 2.5 * this.#h) {
      this.events.splice(this.events.lastIndexOf(flight.event), 1);
      return;
    }
    const place = this.#at(1);
    const duration = Math.max(0, place.time - flight.event.time);
    this.events.push({
      kind: 'touch-down',
      ...place,
      wheel: w.wheel.name,
      wheelStation: w.line.station,
      duration,
      height: flight.height,
    });
  }

  #lookAtStops(plant: Plant, index: number): void {
    const member = plant.mechanism.members[index];
    const gauge = plant.members[index];
    if (!member || !gauge || (member.bump === undefined && member.droop === undefined)) return;
    gauge.read(plant.k);
    const before = this.#motions[index] as number;
    this.#motions[index] = gauge.x;
    const reach = (member.bump ?? 0) + (member.droop ?? 0);
    if (member.bump !== undefined)
      this.#lookAtStop(index, 0, gauge.x - member.bump, before - member.bump, reach);
    if (member.droop !== undefined)
      this.#lookAtStop(index, 1, -gauge.x - member.droop, -before - member.droop, reach);
  }

  /** `beyond` and `earlier`: how far past the stop's face the member is, and was a substep ago, m or rad. */
  #lookAtStop(index: number, side: 0 | 1, beyond: number, earlier: number, reach: number): void {
    const met = this.#stops[index] as boolean[];
    if (beyond < -0.01 * reach) met[side] = false;
    if (beyond < 0 || met[side]) return;
    met[side] = true;
    const back = earlier < 0 ? beyond / (beyond - earlier) : 0;
    this.events.push({
      kind: 'stop-hit',
      ...this.#at(back),
      member: this.#members[index] as string,
      side: side === 0 ? 'bump' : 'droop',
    });
  }
}
