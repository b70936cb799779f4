import type { RunEvent } from '../../shared/recording.ts';
import { gapOf, gripUseOf } from './frames.ts';
import type { Plant, WorkingWheel } from './plant.ts';

/** A wheel in the air. */
interface Flight {
  readonly event: Extract<RunEvent, { kind: 'lift-off' }>;
  height: number;
}

/** What one wheel did a substep ago. */
interface WheelWatch {
  flight: Flight | undefined;
  depth: number;
  touching: boolean;
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
  #lastStation = Number.NaN;

  constructor(plant: Plant) {
    this.#wheels = plant.wheels.map(() => ({ flight: undefined, depth: 0, touching: true, atGrip: -1e9, atTorque: -1e9 }));
    this.#stops = plant.mechanism.members.map(() => [false, false]);
    this.#motions = plant.mechanism.members.map(() => Number.NaN);
    this.#calm = calm * Math.sqrt(plant.mechanism.size);
  }

  /** Looks at the state whose forces were just found: `time` s. `h`: the substep before it. */
  look(plant: Plant, time: number, h: number): void {
    const station = plant.reference().x;
    const speed = Number.isNaN(this.#lastStation) ? 0 : (station - this.#lastStation) / h;
    const at = (back: number) => ({ time: Math.max(0, time - back * h), station: station - back * h * speed });
    plant.wheels.forEach((w, i) => {
      this.#lookAtWheel(plant, w, this.#wheels[i] as WheelWatch, at, h, time);
    });
    plant.mechanism.members.forEach((_, i) => {
      this.#lookAtStops(plant, i, at);
    });
    this.#lastStation = station;
  }

  #lookAtWheel(plant: Plant, w: WorkingWheel, seen: WheelWatch, at: (back: number) => { time: number; station: number }, h: number, time: number): void {
    const touching = w.line.normal > 0 || w.line.depth > 0;
    if (touching !== seen.touching) {
      const gap = touching ? (seen.flight?.height ?? 0) : gapOf(plant, w);
      if (touching) this.#land(w, seen, at(1), time, h);
      else this.#leave(w, seen, at(1 - seen.depth / Math.max(seen.depth + gap, 1e-300)));
    }
    if (!touching && seen.flight) seen.flight.height = Math.max(seen.flight.height, gapOf(plant, w));
    seen.touching = touching;
    seen.depth = w.line.depth;
    const place = { ...at(0), wheel: w.wheel.name, wheelStation: w.line.station };
    if (touching && gripUseOf(w) > 0.999) {
      if (time - seen.atGrip > this.#calm) this.events.push({ kind: 'grip-limit', ...place });
      seen.atGrip = time;
    }
    if (w.wheel.driven && w.wheel.torqueLimit > 0 && Math.abs(w.torque) >= 0.9999 * w.wheel.torqueLimit) {
      if (time - seen.atTorque > this.#calm) this.events.push({ kind: 'torque-limit', ...place });
      seen.atTorque = time;
    }
  }

  #leave(w: WorkingWheel, seen: WheelWatch, place: { time: number; station: number }): void {
    const event = { kind: 'lift-off' as const, ...place, wheel: w.wheel.name, wheelStation: w.line.station };
    this.events.push(event);
    seen.flight = { event, height: 0 };
  }

  /** A flight that is over within two substeps is rounding, not a lift-off: it is taken back. */
  #land(w: WorkingWheel, seen: WheelWatch, place: { time: number; station: number }, time: number, h: number): void {
    const flight = seen.flight;
    seen.flight = undefined;
    if (!flight) return;
    if (time - flight.event.time < 2.5 * h) {
      this.events.splice(this.events.lastIndexOf(flight.event), 1);
      return;
    }
    const duration = Math.max(0, place.time - flight.event.time);
    this.events.push({ kind: 'touch-down', ...place, wheel: w.wheel.name, wheelStation: w.line.station, duration, height: flight.height });
  }

  #lookAtStops(plant: Plant, index: number, at: (back: number) => { time: number; station: number }): void {
    const member = plant.mechanism.members[index];
    const gauge = plant.members[index];
    if (!member || !gauge || (member.bump === undefined && member.droop === undefined)) return;
    gauge.read(plant.k);
    const before = this.#motions[index] as number;
    this.#motions[index] = gauge.x;
    const reach = (member.bump ?? 0) + (member.droop ?? 0);
    (['bump', 'droop'] as const).forEach((side, s) => {
      const limit = member[side];
      const met = this.#stops[index] as boolean[];
      if (limit === undefined) return;
      const beyond = (side === 'bump' ? gauge.x : -gauge.x) - limit;
      if (beyond < -0.01 * reach) met[s] = false;
      if (beyond < 0 || met[s]) return;
      met[s] = true;
      const earlier = (side === 'bump' ? before : -before) - limit;
      this.events.push({ kind: 'stop-hit', ...at(earlier < 0 ? beyond / (beyond - earlier) : 0), member: member.name, side });
    });
  }
}
