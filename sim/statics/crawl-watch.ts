import type { RunEvent } from '../../shared/recording.ts';
import type { Snapshot } from '../frames/frames.ts';
import type { Source } from '../mechanism/mechanism.ts';
import type { Balance } from './balance.ts';

/** Why a vehicle gets no further: what there is too little of, and that in words. */
export interface Shortage {
  readonly by?: 'grip' | 'torque';
  readonly cause: string;
}

/** Use of grip that is no more than rounding: a vehicle without any grip or drive still stands on the level. */
const rounding = 1e-6;

/** What is needed beside what there is, with as many digits (3 to 6) as tell them apart: 'needs 0.9003 … and has 0.9000'. */
export function apart(needs: number, has: number): readonly [needs: string, has: string] {
  const told = (digits: number) =>
    [Math.abs(needs).toPrecision(digits), Math.abs(has).toPrecision(digits)] as const;
  return [3, 4, 5].map(told).find(([a, b]) => a !== b) ?? told(6);
}

/** A wheel in the air. */
interface Flight {
  readonly time: number;
  height: number;
}

/** What one wheel did at the last station. */
interface WheelWatch {
  contacts: number;
  depth: number;
  gap: number;
  flight: Flight | undefined;
  atGrip: boolean;
  atTorque: boolean;
}

/** Looks at each station of a crossing and notes what happens between it and the last one, interpolated. */
export class CrawlWatch {
  readonly events: RunEvent[] = [];
  readonly #balance: Balance;
  readonly #wheels: WheelWatch[];
  readonly #stops: { bump: boolean; droop: boolean; motion: number }[];
  #time = 0;
  #station: number;
  #bellyDown = false;
  #strained = 0;

  constructor(balance: Balance, start: number) {
    this.#balance = balance;
    this.#station = start;
    const { mechanism } = balance;
    this.#wheels = mechanism.wheels.map(() => ({
      contacts: 0,
      depth: 0,
      gap: 0,
      flight: undefined,
      atGrip: false,
      atTorque: false,
    }));
    this.#stops = mechanism.members.map(() => ({ bump: false, droop: false, motion: 0 }));
  }

  /** Whether any wheel's contacts differ in number from those at the last station. */
  contactsChange(): boolean {
    return this.#wheels.some((seen, w) => seen.contacts !== this.#balance.contactsOf(w));
  }

  /**
   * Whether the strain on grip or torque differs from that at the last station by more than a tenth of what is left of
   * it, and by more than a thousandth.
   */
  strainChange(): boolean {
    const now = this.#strain();
    const left = 1 - Math.max(now, this.#strained);
    return Math.abs(now - this.#strained) > Math.max(1e-3, 0.1 * left);
  }

  /** Greatest share of their grip or torque that driven wheels need now; above 1 where it would not do. */
  #strain(): number {
    let most = 0;
    for (const [w, { driven, tyre, torqueLimit }] of this.#balance.mechanism.wheels.entries()) {
      const state = this.#balance.wheels[w];
      if (!driven || !state || state.normal <= 0) continue;
      if (tyre.grip > 0) most = Math.max(most, Math.abs(state.use) / tyre.grip);
      if (torqueLimit > 0) most = Math.max(most, Math.abs(state.torque) / torqueLimit);
    }
    for (const source of this.#balance.mechanism.drive.sources ?? [])
      if (source.limit > 0) most = Math.max(most, Math.abs(this.#asked(source)) / source.limit);
    return most;
  }

  /** Torque that a source must give now, N·m. */
  #asked({ needs, back = needs }: Source): number {
    const { wheels, mechanism } = this.#balance;
    const sense = Math.sign(mechanism.drive.speed);
    let sum = 0;
    for (let w = 0; w < needs.length; w++) {
      const torque = wheels[w]?.torque ?? 0;
      sum += ((torque * sense < 0 ? back : needs)[w] as number) * torque;
    }
    return sum;
  }

  /** The first source that would have to give more than it has. */
  #overtaxed(): Shortage | undefined {
    const { drive, mass, gravity, size } = this.#balance.mechanism;
    for (const source of drive.sources ?? []) {
      const asked = this.#asked(source);
      const least = rounding * mass * gravity * size * Math.max(...source.needs);
      if (Math.abs(asked) > 1.0001 * source.limit + least)
        return {
          by: 'torque',
          cause: `${source.name} needs ${apart(asked, source.limit).join(' N·m and has ')}`,
        };
    }
    return undefined;
  }

  /** Notes what the step to this station brought. */
  look(station: number, now: Snapshot): void {
    const at = (share: number) => ({
      time: this.#time + share * (now.run.time - this.#time),
      station: this.#station + share * (station - this.#station),
    });
    this.#balance.mechanism.wheels.forEach((_, w) => {
      this.#lookAtWheel(w, now, at);
    });
    this.#balance.mechanism.members.forEach((_, m) => {
      this.#lookAtStops(m, now.motions[m] as number, at);
    });
    const down = this.#balance.mechanism.belly.points.length > 0 && now.run.clearance < 0;
    if (down && !this.#bellyDown) this.events.push({ kind: 'body-touch', ...at(1) });
    this.#bellyDown = down;
    this.#strained = this.#strain();
    this.#time = now.run.time;
    this.#station = station;
  }

  #lookAtWheel(w: number, now: Snapshot, at: (share: number) => { time: number; station: number }): void {
    const seen = this.#wheels[w] as WheelWatch;
    const state = now.wheels[w] as Snapshot['wheels'][number];
    const name = this.#balance.mechanism.wheels[w]?.name ?? '';
    const about = { wheel: name, wheelStation: state.wheelStation };
    const touching = state.normal > 0;
    if (!touching) {
      if (!seen.flight) {
        const place = at(seen.depth / Math.max(seen.depth + state.gap, 1e-300));
        this.events.push({ kind: 'lift-off', ...place, ...about });
        seen.flight = { time: place.time, height: 0 };
      }
      seen.flight.height = Math.max(seen.flight.height, state.gap);
    } else if (seen.flight) {
      const place = at(seen.gap / Math.max(seen.gap + state.depth, 1e-300));
      this.events.push({
        kind: 'touch-down',
        ...place,
        ...about,
        duration: place.time - seen.flight.time,
        height: seen.flight.height,
      });
      seen.flight = undefined;
    }
    const atGrip = state.gripUse > 0.9999;
    if (atGrip && !seen.atGrip) this.events.push({ kind: 'grip-limit', ...at(1), ...about });
    const wheel = this.#balance.mechanism.wheels[w];
    const atTorque =
      wheel?.driven === true && Math.abs(state.torque) >= wheel.torqueLimit && wheel.torqueLimit > 0;
    if (atTorque && !seen.atTorque) this.events.push({ kind: 'torque-limit', ...at(1), ...about });
    Object.assign(seen, {
      contacts: this.#balance.contactsOf(w),
      depth: state.depth,
      gap: state.gap,
      atGrip,
      atTorque,
    });
  }

  #lookAtStops(m: number, motion: number, at: (share: number) => { time: number; station: number }): void {
    const member = this.#balance.mechanism.members[m];
    const seen = this.#stops[m];
    if (!member || !seen) return;
    for (const side of ['bump', 'droop'] as const) {
      const limit = member[side];
      if (limit === undefined) continue;
      const sign = side === 'bump' ? 1 : -1;
      const beyond = sign * motion - limit;
      const before = sign * seen.motion - limit;
      if (beyond >= 0 && !seen[side])
        this.events.push({
          kind: 'stop-hit',
          ...at(before < 0 ? -before / (beyond - before) : 1),
          member: member.name,
          side,
        });
      seen[side] = beyond >= 0;
    }
    seen.motion = motion;
  }

  /** Notes that the vehicle jumped from one pose to another at this station: names what moved most. */
  jump(station: number, from: Float64Array, to: Float64Array): void {
    const { chain, mechanism } = this.#balance;
    let most = 0;
    let moved = 'chassis';
    for (let i = 0; i < chain.size; i++) {
      const change =
        Math.abs((to[i] as number) - (from[i] as number)) * (chain.turns[i] ? mechanism.size : 1);
      if (change <= most) continue;
      most = change;
      const body = chain.last.indexOf(i);
      moved = i < 2 || body < 0 ? 'chassis' : (mechanism.bodies[body]?.name ?? 'chassis');
    }
    this.events.push({ kind: 'snap', time: this.#time, station, of: moved });
  }

  /** Why the vehicle gets no further, if grip or torque would not do at the last station. */
  limit(): Shortage | undefined {
    const { wheels, mechanism } = this.#balance;
    const { sources } = mechanism.drive;
    const short = mechanism.wheels.flatMap((wheel, w): Shortage[] => {
      const state = wheels[w];
      if (!state || !wheel.driven) return [];
      const { name, tyre, torqueLimit } = wheel;
      if (state.spinning)
        return [
          { by: 'grip', cause: `${name} spins, and behind an open differential the others get no more` },
        ];
      if (state.normal <= 0) return [];
      if (Math.abs(state.use) > 1.0001 * tyre.grip + rounding)
        return [
          { by: 'grip', cause: `${name} needs a grip of ${apart(state.use, tyre.grip).join(' and has ')}` },
        ];
      // where there is a drive line its motors and clutches are asked instead
      if (!sources && Math.abs(state.torque) > 1.0001 * torqueLimit + rounding * state.moment)
        return [
          { by: 'torque', cause: `${name} needs ${apart(state.torque, torqueLimit).join(' N·m and has ')}` },
        ];
      return [];
    });
    return short[0] ?? this.#overtaxed();
  }
}
