import type { z } from 'zod';

/**
 * A force element acts along one coordinate x of the mechanism:
 * - `travel`, m: shortening of a span, or displacement of a guide; positive in bump (compression);
 * - `twist`, rad: turn of a hinge; positive in the direction that raises the hub (arm) or the nose (beam).
 * x = 0 is the drawn position. The effort (N, or N·m) acts along +x: a spring that is pressed has a negative effort.
 *
 * Every figure of an entry is for ONE element; `count` equal ones side by side are summed by the mechanism.
 */
export interface ElementLaw {
  /**
   * Number of history variables (dry friction, hysteresis); 0 for most laws. They start at 0. Energy, spring and
   * stiffness belong together for any memory, also one that `advance` has not caught up with.
   */
  readonly memory: number;
  /** Stored energy U(x, memory), J; never below zero. */
  energy(x: number, memory: Float64Array): number;
  /** Conservative effort −dU/dx, N or N·m. */
  spring(x: number, memory: Float64Array): number;
  /** Dissipative effort of the speed v (m/s or rad/s), N or N·m; loss·v is never above zero. */
  loss(x: number, v: number): number;
  /** Tangent stiffness d²U/dx² at x, N/m or N·m/rad, never below zero: for the substep, and for Newton's method later. */
  stiffness(x: number, memory: Float64Array): number;
  /** Greatest damping −d(loss)/dv over all speeds, N·s/m or N·m·s/rad: for the substep. */
  readonly damping: number;
  /**
   * Moves the memory from coordinate `from` to `to` and returns the energy that was lost on the way, J, never
   * below zero. Absent when memory is 0.
   */
  advance?(from: number, to: number, memory: Float64Array): number;
  /**
   * Makes the memory that of an element that has come to rest at x without any friction: for setting a vehicle down,
   * where springs alone decide. Absent when memory is 0.
   */
  rest?(x: number, memory: Float64Array): void;
  /** Where U bends (stop faces, table points): tests sample beside them, not across. */
  readonly corners: readonly number[];
}

/** The bar that an element twists, for the stress in it; figures of ONE bar. */
export interface TwistedBar {
  /** Torsion modulus W, m³: torque over the greatest shear stress at the surface. */
  readonly modulus: number;
  /** Length that twists, m. */
  readonly length: number;
}

/** One kind of force element: its words (schema), its law, its source. One file each; one line in registry.ts. */
export interface ElementKind<S extends z.ZodObject = z.ZodObject> {
  /** Name in the document, lower case with hyphens. */
  readonly kind: string;
  /** Title for people. */
  readonly title: string;
  /** Coordinates that it can act along. */
  readonly acts: readonly ('travel' | 'twist')[];
  /** Where the law is written down. */
  readonly source: string;
  /**
   * Strict object of the kind's own fields, besides name, kind, count and where it acts. Checks across fields ("one
   * of rate or wire") hang on it as refinements: add common fields with `extend`, which keeps them. A new object made
   * from `.shape` would lose them.
   */
  readonly fields: S;
  /** Law for parsed SI figures. Throws nothing: impossible figures are refused by `fields`. */
  law(params: z.output<S>): ElementLaw;
  /** The bar that it twists, where the figures tell its section. */
  bar?(params: z.output<S>): TwistedBar | undefined;
  /** A worked instance for tests, gallery and docs (as a user writes it). */
  readonly sample: z.input<S>;
  /** Coordinate range in which tests try the sample. */
  readonly range: readonly [number, number];
}

/** Declares a kind; keeps its name, and the type of its fields for the law. */
export function defineElement<S extends z.ZodObject, const N extends string>(
  kind: ElementKind<S> & { readonly kind: N },
): ElementKind<S> & { readonly kind: N } {
  return kind;
}
