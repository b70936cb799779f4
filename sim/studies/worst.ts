import type { Recording } from '../../shared/recording.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Balance } from '../statics/balance.ts';
import { type Stand, standAt } from '../statics/stand.ts';
import { dipsOf } from './dips.ts';
import type { Setting } from './knob.ts';
import { type Reading, readingsOf } from './reading.ts';
import { balanceOf, Search, type Seen } from './search.ts';
import type { Study } from './study.ts';

/** The station at which a crossing is at its worst, found between the stations that it took. */
export interface Worst {
  /** The measure, SI: the reading, over the standing load where it is a share of that. */
  readonly value: number;
  /** The vehicle's station, m. */
  readonly station: number;
  readonly reading: Reading;
  /** What the reading is a share of; 1 when it is none. */
  readonly whole: number;
  /** The balance there and its unknowns. */
  readonly balance: Balance;
  readonly unknowns: Float64Array;
  /** How the vehicle stands at the start, and where that is. */
  readonly stand: Extract<Stand, { kind: 'stands' }>;
  readonly start: number;
  /** The reading has a smooth extreme there: no kink, no end of the crossing, no jump beside it. */
  readonly smooth: boolean;
}

/** Whether equilibria of this vehicle depend on where it came from: dry friction remembers. */
export const remembers = ({ elements }: Mechanism): boolean => elements.some((e) => e.law.memory > 0);

/** Greatest distance between two stations, wheel radii: a dip where one wheel rolls over an edge is about this wide. */
const resolved = 0.1;

/** How many of the lowest dips between stations are looked at closely. */
const closely = 6;

/**
 * Finds where a crossing with these figures is at its worst, as far as the measure is the extreme of one figure, no wheel
 * is off the ground there, and the vehicle does not remember its way; undefined otherwise. Stations of the crossing may
 * lie to both sides of a sharp dip, so its lowest dips are all searched between theirs.
 */
export function worstOf(study: Study, settings: readonly Setting[] = []): Worst | undefined {
  const vehicle = study.vehicle(settings);
  if (!vehicle.ok || remembers(vehicle.mechanism)) return undefined;
  const { mechanism, ground } = vehicle;
  const readings = readingsOf(study.choice, mechanism);
  if (readings.length === 0) return undefined;
  const seen: Seen[] = [];
  const recording = study.cross(vehicle, {
    seen: (station, y) => seen.push({ station, unknowns: y.slice() }),
    apart: resolved * mechanism.size,
  });
  const start = seen[0]?.station ?? 0;
  const stand = standAt(mechanism, ground, start);
  if (recording.end.kind !== 'arrived' || stand.kind !== 'stands') return undefined;
  const sense = (seen[1]?.station ?? start) < start ? -1 : 1;
  const balance = balanceOf(mechanism, ground, sense);
  const wholes = readings.map(({ shareOf }) =>
    shareOf === undefined ? 1 : (stand.standing.loads[shareOf] ?? 0),
  );
  const found = dipsOf(balance, readings, wholes, seen, breaksOf(recording, seen))
    .slice(0, closely)
    .flatMap(({ reading, whole, from, to }): Worst[] => {
      const place = new Search(balance, reading, seen.slice(from, to + 1)).run();
      return place === undefined
        ? []
        : [{ value: place.raw / whole, ...place, reading, whole, balance, stand, start }];
    });
  const worst = found.reduce<Worst | undefined>((best, w) => (isWorse(w, best) ? w : best), undefined);
  // a wheel in the air: the least load is 0 for whatever is changed a little
  return worst !== undefined && worst.reading.shareOf !== undefined && !(worst.value > 0) ? undefined : worst;
}

/** Whether a place is worse than another; of equals a smooth one is taken. */
function isWorse(place: Worst, than: Worst | undefined): boolean {
  if (than === undefined) return true;
  const by = place.reading.sense * (place.value - than.value);
  const same = Math.abs(by) <= 1e-7 * Math.abs(than.value);
  return same ? place.smooth && !than.smooth : by > 0;
}

/** Indices of the stations that were reached by a jump to another balance. */
function breaksOf({ events }: Recording, seen: readonly Seen[]): ReadonlySet<number> {
  const jumps = events.filter((e) => e.kind === 'snap').map((e) => e.station);
  return new Set(seen.flatMap(({ station }, i) => (jumps.includes(station) ? [i] : [])));
}
