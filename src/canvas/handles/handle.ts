import type { Vec2 } from '../../../shared/geometry/vec.ts';

/** From least to most, m. */
export interface Limits {
  readonly from: number;
  readonly to: number;
}

/** A point of the vehicle that may be moved on the picture. */
export interface Handle {
  readonly id: string;
  /** What it is, for people: 'rear bogie: pivot'. */
  readonly label: string;
  /** Index of the body whose drawing the point lies in: where the handle is drawn. */
  readonly body: number;
  /** Drawn point, m, in the run on show. */
  readonly at: Vec2;
  /** Where it may lie, drawn, m; no limits when left out. */
  readonly limits?: { readonly x: Limits; readonly z: Limits };
}

/** Why a move cannot be: shown at the handle while it is held. */
export interface HandleProblem {
  readonly id: string;
  readonly says: string;
}

/** What becomes of a handle that is moved. Points are drawn ones, m. */
export interface HandleWishes {
  /** Moved to a point, still held: as often as the pointer moves. */
  readonly onMove: (id: string, at: Vec2) => void;
  /** Let go at a point: it stays there. */
  readonly onKeep: (id: string, at: Vec2) => void;
  /** Given up: everything is as it was before the move. */
  readonly onCancel: (id: string) => void;
  /** Words for a polite live region. */
  readonly onSay?: (words: string) => void;
}
