import type { Vec2 } from '../../../shared/geometry/vec.ts';
import type { Json } from '../../documents/json.ts';
import { roundFigure } from '../figures.ts';
import { wheelFigures } from '../wheel-figures.ts';

/** Standard gravity, m/s²: ISO 80000-3. The new parts are measured for it; the document's own gravity counts in a run. */
export const gravity = 9.80665;

/** Where a compound is put and what it has to carry. SI. */
export interface Berth {
  /** Middle of its hubs in the drawing, m. */
  readonly at: Vec2;
  /** Unloaded wheel radius, m. */
  readonly radius: number;
  /** Load of the ground on ONE axle line, N, its own weight included. */
  readonly axleLoad: number;
  /** 1 when the middle of the vehicle lies ahead of it, −1 when behind: rods and arms are held from there. */
  readonly inward: 1 | -1;
  /** First word of all names: 'rear'. */
  readonly label: string;
  /** Names of its axle lines from front to rear. */
  readonly wheels: readonly string[];
}

/** New entries of the vehicle, as the document has them. */
export interface Parts {
  readonly members: readonly Json[];
  readonly wheels: readonly Json[];
  readonly elements: readonly Json[];
  readonly masses: readonly Json[];
}

/** Several entries that builders think of as one thing. One file each; one line in registry.ts. */
export interface Compound {
  readonly id: string;
  /** 'Bogie with two axles'. */
  readonly title: string;
  /** What it is for, in one sentence. */
  readonly says: string;
  readonly axles: number;
  /** Way from the middle of its hubs to the foremost and to the rearmost one, in wheel radii. */
  readonly reach: number;
  /** Where weight on it loads all its axle lines alike, in wheel radii ahead of that middle; 0 when left out. */
  readonly centre?: number;
  make(berth: Berth): Parts;
}

/** A length for people, four digits: '112.5 mm'. */
export const lengthText = (si: number): Json => (Math.abs(si) < 1e-9 ? '0 mm' : roundFigure(si, 'length', 4));

/** A point so many wheel radii from another one. */
export function pointFrom(
  { at, radius }: Pick<Berth, 'at' | 'radius'>,
  x: number,
  z: number,
): { readonly [key: string]: Json } {
  return { x: lengthText(at.x + x * radius), z: lengthText(at.z + z * radius) };
}

/** Shares of an axle line's load: its wheels, and the housing or beam part that carries them. Common practice, no source. */
const WHEELS_SHARE = 0.15;
const AXLE_SHARE = 0.12;

/** Load on an axle line that its springs carry, N: without its wheels and its own axle. */
export const sprungLoad = ({ axleLoad }: Berth): number => axleLoad * (1 - WHEELS_SHARE - AXLE_SHARE);

/** Mass of the axle (or of its share of a beam), kg. */
export const axleMass = ({ axleLoad }: Berth): number => (AXLE_SHARE * axleLoad) / gravity;

/** An axle line of two wheels. */
export function wheelLine(berth: Berth, name: string, on: string, x = 0): Json {
  const figures = wheelFigures({
    radius: berth.radius,
    load: berth.axleLoad / 2,
    mass: (WHEELS_SHARE * berth.axleLoad) / gravity / 2,
  });
  return { name, on, at: pointFrom(berth, x, 0), ...figures };
}

/** A mass item on a member. `spread`: its half length, m, for the pitch inertia of an even bar, m·l²/12. */
export function massOn(
  berth: Berth,
  name: string,
  on: string,
  mass: number,
  [x, z]: readonly [number, number],
  spread: number,
): Json {
  return {
    name,
    on,
    mass: roundFigure(mass, 'mass'),
    at: pointFrom(berth, x, z),
    inertia: roundFigure((mass * (2 * spread) ** 2) / 12, 'inertia'),
  };
}

/** How far the springs of an axle give under their load, in wheel radii. Common practice, no source. */
const SAG = 0.4;
/** Damping over critical damping of the sprung mass on one axle; common practice, no source. */
const DAMPED = 0.4;

/** Wheel rate, N/m, and damping, N·s/m, of one axle line: c = 2·ζ·√(k·m), textbooks on vibration. */
export function springing(berth: Berth): { readonly rate: number; readonly damping: number } {
  const load = sprungLoad(berth);
  const rate = load / (SAG * berth.radius);
  return { rate, damping: 2 * DAMPED * Math.sqrt(rate * (load / gravity)) };
}
