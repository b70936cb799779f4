/* Loads over station: how a crossing looks to those who compare two solvers. */

import { place } from '../../shared/geometry/vec.ts';
import { column, poseAt, type Recording } from '../../shared/recording.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { Balance } from '../../sim/statics/balance.ts';
import { Solver } from '../../sim/statics/solve.ts';
import { standAt } from '../../sim/statics/stand.ts';
import { findTouch, makeTouch } from '../../sim/tyre/touch.ts';

/** Stations of a crossing, m, rising or falling, and the load of each axle line there, N. */
export interface Passage {
  readonly stations: readonly number[];
  readonly loads: readonly (readonly number[])[];
  /**
   * Stations at which a tyre's contacts changed in number since the one before, or its contact was somewhere else at
   * once (by a twentieth of its radius), or the vehicle jumped.
   */
  readonly changes: readonly number[];
}

/** The loads of a recorded crawl. */
export function passageOf(crawl: Recording, mechanism: Mechanism, ground: Ground): Passage {
  const frames = [...Array(crawl.frames).keys()];
  const stations = column(crawl, 'station');
  const hub = (frame: number, w: Mechanism['wheels'][number]) => place(poseAt(crawl, w.body, frame), w.hub);
  const contacts = frames.map((frame) => contactsAt(mechanism, ground, (w) => hub(frame, w)));
  const contact = mechanism.wheels.map((_, w) => column(crawl, 'wheelStation', w));
  const hops = (f: number) => {
    const step = (stations[f] as number) - (stations[f - 1] as number);
    return mechanism.wheels.some(
      ({ radius }, w) =>
        Math.abs((contact[w]?.[f] as number) - (contact[w]?.[f - 1] as number) - step) >
        Math.abs(step) + 0.05 * radius,
    );
  };
  const changed = frames
    .filter((f) => f > 0 && (contacts[f] !== contacts[f - 1] || hops(f)))
    .map((f) => stations[f] as number);
  const jumps = crawl.events.filter((e) => e.kind === 'snap').map((e) => e.station);
  return {
    stations: [...stations],
    loads: frames.map((f) => crawl.wheels.map((_, w) => column(crawl, 'load', w)[f] as number)),
    changes: [...changed, ...jumps],
  };
}

/** Number of contacts of every wheel, as one word. */
function contactsAt(
  mechanism: Mechanism,
  ground: Ground,
  hub: (wheel: Mechanism['wheels'][number]) => { x: number; z: number },
): string {
  const touch = makeTouch();
  return mechanism.wheels
    .map((w) => {
      const { x, z } = hub(w);
      findTouch(touch, ground, x, z, w.radius);
      return touch.count;
    })
    .join();
}

/**
 * The balance of a vehicle that is drawn over the ground by a level pull at its reference point, wheels rolling freely.
 * Follows its branch by straight-line guesses; where that ends the vehicle sinks into its next balance.
 */
export function drawnOver(
  mechanism: Mechanism,
  ground: Ground,
  from: number,
  until: number,
  count: number,
): Passage {
  const start = standAt(mechanism, ground, from);
  if (start.kind !== 'stands') throw new Error(`it does not stand: ${start.kind}`);
  const balance = new Balance(mechanism, ground, { thrust: { kind: 'none' }, sense: 0, relaxed: false });
  const solver = new Solver(balance);
  let now = new Float64Array(balance.count);
  now.set(start.unknowns.subarray(0, balance.chain.size));
  now.set(start.unknowns.subarray(start.unknowns.length - mechanism.rods.length), balance.rodRow);
  let before = now.slice();
  balance.remember(now);
  const passage: { stations: number[]; loads: number[][]; changes: number[] } = {
    stations: [],
    loads: [],
    changes: [],
  };
  let contacts = '';
  let places: readonly number[] = [];
  for (let n = 0; n <= count; n++) {
    const station = from + ((until - from) * n) / count;
    let y = now.map((v, i) => 2 * v - (before[i] as number));
    if (!solver.newton(y, station).found) {
      y = now.slice();
      if (!solver.sink(y, station).found) throw new Error(`no balance at ${station} m`);
    }
    balance.remember(y);
    const seen = balance.wheels.map((_, w) => balance.contactsOf(w)).join();
    const step = (until - from) / count;
    const hops = balance.wheels.some(
      ({ contact }, w) =>
        Math.abs(contact - (places[w] as number) - step) >
        Math.abs(step) + 0.05 * (mechanism.wheels[w]?.radius as number),
    );
    if (n > 0 && (seen !== contacts || hops)) passage.changes.push(station);
    contacts = seen;
    places = balance.wheels.map((w) => w.contact);
    passage.stations.push(station);
    passage.loads.push(balance.wheels.map((w) => Math.max(0, w.fz)));
    before = now;
    now = y;
  }
  return passage;
}

/** Loads between two stations of a passage, N, in a straight line. */
export function loadsAt({ stations, loads }: Passage, station: number): number[] {
  const sense = (stations.at(-1) as number) < (stations[0] as number) ? -1 : 1;
  let low = 0;
  let high = stations.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (sense * ((stations[middle] as number) - station) <= 0) low = middle;
    else high = middle;
  }
  const [a, b] = [stations[low] as number, stations[high] as number];
  const share = b === a ? 0 : Math.min(1, Math.max(0, (station - a) / (b - a)));
  return (loads[low] as number[]).map((load, w) => load + share * ((loads[high]?.[w] as number) - load));
}

/** What two solvers make of one crossing, as shares of the weight. */
export interface Agreement {
  /** Mean over the way, and greatest difference of any wheel's load outside the bands. */
  readonly mean: number;
  readonly greatest: number;
  readonly where: number;
  /** Share of the samples that the bands leave out. */
  readonly out: number;
}

/** Compares the samples of `other` with the balances, leaving out `band` m behind every change of contacts. */
export function agreementOf(
  balances: Passage,
  other: Pick<Passage, 'stations' | 'loads'>,
  weight: number,
  band: number,
): Agreement {
  const [first, last] = [Math.min(...balances.stations), Math.max(...balances.stations)];
  const sense = (balances.stations.at(-1) as number) < (balances.stations[0] as number) ? -1 : 1;
  const found = { sum: 0, greatest: 0, where: 0, out: 0, count: 0 };
  other.stations.forEach((station, i) => {
    if (station < first || station > last) return;
    const behind = balances.changes.some(
      (c) => sense * (station - c) > -0.2 * band && sense * (station - c) < band,
    );
    if (behind || sense * (station - (balances.stations[0] as number)) < band) {
      found.out++;
      return;
    }
    const expected = loadsAt(balances, station);
    const gap =
      Math.max(...expected.map((load, w) => Math.abs(load - (other.loads[i]?.[w] as number)))) / weight;
    found.sum += gap;
    found.count++;
    if (gap > found.greatest) [found.greatest, found.where] = [gap, station];
  });
  return {
    mean: found.sum / found.count,
    greatest: found.greatest,
    where: found.where,
    out: found.out / (found.out + found.count),
  };
}
