import type { z } from 'zod';
import type { LedgerSort } from '../../shared/report.ts';
import type { Material } from './material.ts';
import type { Repeats } from './repeats.ts';

/** What an entry can be about. `pin`: a hinge, or the ends of a rod; `arm`: a member with a line that is bent. */
export type Target = 'pin' | 'guide' | 'rod' | 'arm' | 'element' | 'stop';

/**
 * Loads that a recording tells of a part, sizes, all equal ones together: force of a pin, a guide, a rod's end, a spring
 * or a stop, N; moment of a guide, torque of a bar or of a stop that turns, N·m; pull and push of a rod, N; axial force, N,
 * shear, N, and bending, N·m, of an arm; energy of a stop, J.
 */
export type LoadName =
  | 'force'
  | 'moment'
  | 'torque'
  | 'pull'
  | 'push'
  | 'axial'
  | 'shear'
  | 'bending'
  | 'energy';

/** One limit of a part. What it carries is the sum of its loads, each times its figure in `per`: straight in the load. */
export interface StrengthCheck {
  /** In words: 'shear stress', 'compression', 'twist'. */
  readonly quantity: string;
  /** SI. */
  readonly unit: 'Pa' | 'N' | 'N·m' | 'm' | 'rad' | 'J';
  /** What 1 N, N·m or J of a load on all equal ones brings to ONE, SI. */
  readonly per: Readonly<Partial<Record<LoadName, number>>>;
  /** What ONE may carry: its safety factor is in it already. */
  readonly limit: number;
  /** That factor; 1 where the document gives the limit itself. */
  readonly safety: number;
  /** Material that sets the limit; absent where the document gives the limit itself. */
  readonly material?: Material;
}

/** Figures of a spring or bar that its element in the document has already; of ONE. */
export interface ElementFigures {
  readonly kind: string;
  /** N/m or N·m/rad. */
  readonly rate?: number | undefined;
  /** Torsion modulus of a bar, m³, its thickness, m. */
  readonly bar?: { readonly modulus: number; readonly thickness: number } | undefined;
  readonly wire?: Wire | undefined;
  readonly leaves?: Leaves | undefined;
}

/** Wire of a coil spring, m. */
export interface Wire {
  readonly diameter: number;
  readonly coilDiameter: number;
}

/** Leaves of a leaf spring, m. */
export interface Leaves {
  readonly count: number;
  readonly width: number;
  readonly thickness: number;
  readonly span: number;
  readonly held: 'at both ends' | 'at one end';
}

/** What a kind needs to know of the part that its entry is about. */
export interface Fitted {
  /** Equal ones that share the load. */
  readonly count: number;
  readonly safety: number;
  /** Length of a rod, m. */
  readonly length: number;
  readonly element: ElementFigures | undefined;
  /** Whether its stop works along a turn. */
  readonly turns: boolean;
}

/** What follows from an entry. `missing`: a figure that neither the entry nor its element has, or that both have. */
export interface Judged {
  readonly checks: readonly StrengthCheck[];
  readonly repeats?: Repeats;
  readonly missing?: { readonly field: string; readonly message: string; readonly hint: string };
}

/** One kind of strength entry. One file each in kinds; one line in registry.ts. */
export interface StrengthKind<S extends z.ZodObject = z.ZodObject> {
  readonly kind: string;
  readonly title: string;
  readonly sort: LedgerSort;
  readonly source: string;
  /** What its `member` or `element` names; elements of these kinds only. */
  readonly target: Target;
  readonly elements?: readonly string[];
  /** Safety factor when the entry has none: that of parts, that of springs, or none. */
  readonly safety: 'parts' | 'springs' | 'none';
  /** Strict object of the kind's own fields, besides the common ones. */
  readonly fields: S;
  /** Limits for parsed SI figures. */
  judge(params: z.output<S>, fitted: Fitted): Judged;
  readonly sample: z.input<S>;
}

/** Declares a kind; keeps the type of its fields. */
export function defineStrength<S extends z.ZodObject, const N extends string>(
  kind: StrengthKind<S> & { readonly kind: N },
): StrengthKind<S> & { readonly kind: N } {
  return kind;
}
