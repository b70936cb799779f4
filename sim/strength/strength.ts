import type { LedgerSort } from '../../shared/report.ts';
import type { StrengthCheck, Target } from './kind.ts';
import type { Repeats } from './repeats.ts';

/** Strength figures of a vehicle, compiled: what each part may carry. Deeply read-only, SI. */
export interface Strength {
  readonly parts: readonly StrengthPart[];
}

/** One entry of the document. */
export interface StrengthPart {
  readonly kind: string;
  readonly sort: LedgerSort;
  readonly target: Target;
  /** Name of the joint, rod, member or element. */
  readonly of: string;
  /** Index in vehicle.strength.parts of the document. */
  readonly index: number;
  /** Equal ones that share the load. */
  readonly count: number;
  readonly checks: readonly StrengthCheck[];
  readonly repeats?: Repeats;
}
