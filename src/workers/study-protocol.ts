import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { LedgerLine } from '../../shared/report.ts';
import type { Alternative } from '../../sim/ledger/alternatives.ts';
import type { MassPoint } from '../../sim/ledger/curve.ts';
import type { GreatestMass } from '../../sim/ledger/mass.ts';
import type { FoundLimit, Limits } from '../../sim/limits/limits.ts';
import type { Part } from '../../sim/studies/lattice.ts';
import type { Tile } from '../../sim/studies/map.ts';
import type { Influences } from '../../sim/studies/matters.ts';

/** The limit of one kind of obstacle as it comes out of a worker: words instead of functions. */
export interface ToldLimit extends Omit<FoundLimit, 'obstacle'> {
  readonly kind: string;
  readonly title: string;
  readonly measures: string;
  readonly unit: 'm' | 'rad';
}

/** All limits of a vehicle, and where it stands on the axes of their curves: its least grip, and its mass, kg. */
export interface ToldLimits extends Omit<Limits, 'found' | 'grip'> {
  readonly found: readonly ToldLimit[];
  readonly grip: number;
  readonly mass: number;
}

/** How heavy the vehicle may come out, and the largest obstacle of one kind over its mass. */
export interface ToldMass {
  readonly greatest: GreatestMass;
  readonly curve: {
    readonly title: string;
    readonly unit: 'm' | 'rad';
    /** The largest such obstacle of the scenario's ground, m or rad. */
    readonly there: number | undefined;
    readonly points: readonly MassPoint[];
  };
}

/** What would help what gives first, beside the vehicle as it is. */
export interface ToldRemedies {
  /** What gives first today, on a crossing that goes on past all limits; undefined when nothing does. */
  readonly first: LedgerLine | undefined;
  /** kg, and m/s on the level. */
  readonly mass: number;
  readonly topSpeed: number | undefined;
  readonly found: readonly Alternative[];
}

/** A job that takes a while: a whole worker is given to it, and ended when nobody wants its answer any more. */
export type StudyOrder =
  | { readonly kind: 'matters'; readonly document: unknown; readonly measure: string }
  | { readonly kind: 'limits'; readonly document: unknown; readonly curves: boolean }
  | { readonly kind: 'mass'; readonly document: unknown; readonly at?: Vec2 }
  | { readonly kind: 'remedies'; readonly document: unknown }
  | {
      readonly kind: 'map';
      readonly document: unknown;
      readonly measure: string;
      /** Name and kind of the plane that the map is drawn over. */
      readonly plane: { readonly name: string; readonly kind: string };
      readonly columns: number;
      readonly rows: number;
      readonly stations: number;
      readonly part: Part;
    };

/** What the worker tells while it is at it, and in the end. */
export type StudyNews =
  | { readonly kind: 'progress'; readonly share: number; readonly next?: string }
  | { readonly kind: 'tile'; readonly tile: Tile }
  | { readonly kind: 'matters'; readonly result: Influences }
  | { readonly kind: 'limits'; readonly result: ToldLimits }
  | { readonly kind: 'mass'; readonly result: ToldMass }
  | { readonly kind: 'remedies'; readonly result: ToldRemedies }
  | { readonly kind: 'mapped' }
  | { readonly kind: 'failed'; readonly message: string };
