import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Shown } from '../charts/figures.ts';

/** A part of the map: nodes on a grid, the first at `from`, the last at `to`, in columns along x and rows along z. */
export interface MapTile {
  readonly from: Vec2;
  readonly to: Vec2;
  /** At least two of each. */
  readonly columns: number;
  readonly rows: number;
  /** Value at node row · columns + column, SI; NaN where the vehicle gives no answer. */
  readonly values: ArrayLike<number>;
  /** At the same nodes: 1 where all criteria hold, 0 where not; between them where it is not known yet. */
  readonly holds: ArrayLike<number>;
}

/** What a measure would come to, for every place of a pivot in a rectangle: drawn on the vehicle. */
export interface PivotMap {
  /** Index of the body whose drawing the rectangle lies in; 0 for the chassis. */
  readonly body: number;
  /** Coarse ones first; where tiles overlap, the later one counts. */
  readonly tiles: readonly MapTile[];
  /** What it shows: 'least share of the standing load'. */
  readonly title: string;
  /** How its figures are shown. */
  readonly shown: Shown;
  /** `share`: in the colours of the wheels' load shares (values 0…2); `plain`: one hue from least to most. */
  readonly scale: 'share' | 'plain';
  /** Whether there are criteria at all: without them nothing is outlined. */
  readonly criteria: boolean;
  /** Best place so far and its value. */
  readonly best?: { readonly at: Vec2; readonly value: number };
  /** Share of the work that is done, 0…1. */
  readonly done: number;
}
