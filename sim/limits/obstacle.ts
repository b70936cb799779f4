import type { GroundPiece } from '../ground/lay.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Extent } from './extent.ts';

/** One piece of a scenario's own ground. */
export type Piece = Scenario['ground'][number];

/**
 * One kind of obstacle whose largest crossable size is looked for. One file each; one line in registry.ts. It is laid
 * from station 0 on, with level ground before and behind it; the vehicle comes from the negative side.
 */
export interface ObstacleKind {
  /** Name in JSON and on the command line, lower case with hyphens. */
  readonly kind: string;
  /** Title for people, and what its size measures. */
  readonly title: string;
  readonly measures: string;
  /** SI unit of the size: a length or an angle against the level. */
  readonly unit: 'm' | 'rad';
  /** First size that is tried, and the largest worth asking for, of this vehicle. */
  least(extent: Extent): number;
  most(extent: Extent): number;
  /** The obstacle of this size (m or rad) as pieces of ground. */
  pieces(size: number, extent: Extent): readonly (GroundPiece & Readonly<Record<string, unknown>>)[];
  /** Station past which the whole vehicle must come, m: the end of the obstacle, or its foot where it has no end. */
  ends(size: number): number;
  /**
   * Size of this obstacle in a piece of the scenario's own ground, undefined when the piece is something else. `sense`:
   * +1 for a vehicle that drives forward, −1 for one in reverse, which climbs what goes down.
   */
  sizeIn(piece: Piece, sense: 1 | -1): number | undefined;
}
