import type { RunEnd } from '../../shared/recording.ts';
import type { Ledger, LedgerLine, Moment, Report } from '../../shared/report.ts';

type Head = Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg' | 'pitchInertia' | 'problems' | 'pass'>;

/** Energy that a spring or bar stores at its most. */
export interface StoredReport {
  readonly of: string;
  /** J: of ONE, and of all equal ones together. */
  readonly each: number;
  readonly all: number;
  readonly says: string;
  readonly moment: Moment;
}

/** One change that would help, computed anew. */
export interface AlternativeReport {
  readonly kind: string;
  readonly title: string;
  readonly says: string;
  /** Places in the document and what stands there then, for `--set`; empty where more than figures change. */
  readonly sets: readonly { readonly path: string; readonly value: number | string }[];
  /** Whether everything with a known limit holds then. */
  readonly holds: boolean;
  /** What gives first then; where nothing does, what is nearest to its limit. */
  readonly first: LedgerLine | null;
  /** kg, and m/s on the level; null where it is not known. */
  readonly mass: number;
  readonly topSpeed: number | null;
}

/** What `ledger` prints. */
export interface LedgerReport extends Head {
  readonly mode: 'ledger';
  readonly ledger: Ledger;
  /** The first line that gives; null when none does. */
  readonly first: LedgerLine | null;
  /** Top speed on the level, m/s; null where it is not known. */
  readonly topSpeed: number | null;
  readonly stored: readonly StoredReport[];
  /** What would help the part that gives first; empty when nothing gives. */
  readonly alternatives: readonly AlternativeReport[];
  readonly end: RunEnd;
}

/** One point of the mass curve. */
export interface MassPointReport {
  readonly mass: number;
  readonly size: number;
  readonly setBy: LedgerLine | null;
}

/** What `mass` prints. */
export interface MassReport extends Head {
  readonly mode: 'mass';
  /** Where more mass goes: over all mass items, or to one point, m. */
  readonly spread: 'items' | { readonly x: number; readonly z: number };
  /** kg; null when no lighter vehicle holds either. */
  readonly greatest: number | null;
  /** greatest / mass − 1; null as above. */
  readonly margin: number | null;
  /** kg that may be put on, negative where it has to come off; factor on the mass items for it. */
  readonly more: number | null;
  readonly factor: number | null;
  /** What sets it; null when nothing is up to `most` kg. */
  readonly setBy: LedgerLine | null;
  readonly most: number;
  readonly least: number;
  /** Lines over their limits that no mass helps. */
  readonly unhelped: readonly LedgerLine[];
  /** Largest obstacle over mass, with `--curve` only. */
  readonly curve?: {
    readonly obstacle: string;
    readonly title: string;
    readonly unit: 'm' | 'rad';
    readonly there: number | null;
    readonly points: readonly MassPointReport[];
  };
}
