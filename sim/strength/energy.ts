import type { Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { hasForces, storedEnergy } from './loads.ts';
import { momentOf, peakOf, springSort } from './peak.ts';

/** Standard gravity, m/s². Exact by definition (SI brochure). */
const standardGravity = 9.80665;

/**
 * Kinetic energy above which a hard object that flies off counts as a danger to the eye, J: limit for rigid toy
 * projectiles without a soft tip. Source: EN 71-1, projectile toys (from memory).
 */
const EYE = 0.08;

/** From here on a spring that lets go hurts fingers, and from here on it breaks bones, J. Common practice, no source. */
const [FINGERS, BONES] = [1, 20];

/** A vehicle of this mass or more is no model, kg (definition of our own). */
const FULL_SIZE = 100;

function dangerOf(joules: number): string {
  if (joules < EYE) return 'too little to do harm as a rule';
  if (joules < FINGERS)
    return 'a part that flies off can hurt an eye: wear eye protection and let it go slack first';
  if (joules < BONES)
    return 'it can hurt fingers and eyes when it lets go: wear eye protection, keep fingers out of its way, let it go slack before you take it apart';
  return 'it can break bones and throw parts far: stay out of line with it, hold it with a spring compressor or a stand made for that, let it go slack before you take it apart';
}

/**
 * What a stored energy means, in plain words: how high it would throw a tool of 1 kg (E/(m·g), no loss), fingers and eyes;
 * for a full-size vehicle, whose business it is.
 * @param joules energy of all that could let go together, J
 * @param vehicle mass of the whole vehicle, kg
 */
export function energyWords(joules: number, vehicle: { readonly mass: number }): string {
  const height = formatQuantity(joules / standardGravity, 'length', 2);
  const words = `${formatQuantity(joules, 'energy', 2)} would throw a tool of 1 kg ${height} high; ${dangerOf(joules)}`;
  return vehicle.mass < FULL_SIZE
    ? words
    : `${words}. Springs of full-size vehicles: work for licensed practice, under local codes and the maker's instructions`;
}

/** Most energy that a loaded spring or bar stored over a run. */
export interface StoredEnergy {
  readonly of: string;
  readonly sort: 'bar' | 'spring';
  /** J: of ONE, and of all equal ones together. */
  readonly each: number;
  readonly all: number;
  /** What all of it means: see `energyWords`. */
  readonly says: string;
  readonly moment: Moment;
}

/** The most that each bar and spring stored over a run, in the vehicle's order; empty for a recording without forces. */
export function storedEnergies(mechanism: Mechanism, recording: Recording): StoredEnergy[] {
  if (!hasForces(recording)) return [];
  return mechanism.elements.flatMap((element, i) => {
    const sort = springSort(element);
    if (sort === undefined) return [];
    const { value, frame } = peakOf(recording.frames, storedEnergy(element, i, recording));
    if (!(value > 0)) return [];
    const says = energyWords(value, mechanism);
    const moment = momentOf(recording, frame);
    return [{ of: element.name, sort, each: value / element.count, all: value, says, moment }];
  });
}
