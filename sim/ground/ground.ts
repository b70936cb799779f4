import type { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Problem } from '../../shared/problem.ts';

/**
 * The ground as the engine sees it: a polyline with vertical faces allowed. Vertices i = 0…count−1, x never falls;
 * the solid is below (to the right when walking from the first to the last vertex). Before the first piece and after
 * the last one the ground goes on level, far enough for any run. Never written to after it is built.
 */
export interface Ground {
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly count: number;
  /** Station where the first piece begins (0) and where the last one ends, m. */
  readonly from: number;
  readonly to: number;
  /** The pieces in order, for labels: kind, title, start and end stations, m. */
  readonly pieces: readonly {
    readonly kind: string;
    readonly title: string;
    readonly from: number;
    readonly to: number;
  }[];
}

/** What a ground kind may ask of its surroundings while it is read. */
export interface GroundSource {
  /** Text of a file named in the document, or undefined when there is none (in the browser always). */
  file(name: string): string | undefined;
}

/** One kind of ground: its words and its shape. One file each; one line in registry.ts. */
export interface GroundKind<S extends z.ZodObject = z.ZodObject> {
  readonly kind: string;
  readonly title: string;
  readonly source: string;
  /** Strict object of the kind's own fields, besides kind. */
  readonly fields: S;
  /**
   * Vertices of the piece relative to its start: the first at (0, 0), x never falling, the last where the next piece
   * begins. Problems carry paths relative to the piece.
   */
  shape(
    params: z.output<S>,
    source: GroundSource,
  ): { readonly points: readonly Vec2[]; readonly problems: readonly Problem[] };
  /** A worked instance for tests, gallery and docs. */
  readonly sample: z.input<S>;
}

/** Declares a ground kind; keeps the type of its fields for its shape. */
export function defineGround<S extends z.ZodObject, const N extends string>(
  kind: GroundKind<S> & { readonly kind: N },
): GroundKind<S> & { readonly kind: N } {
  return kind;
}
