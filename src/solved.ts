import type { Recording } from '../shared/recording.ts';
import type { Report } from '../shared/report.ts';
import type { Showing } from '../shared/units.ts';
import type { Ground } from '../sim/ground/ground.ts';
import type { Mechanism } from '../sim/mechanism/mechanism.ts';

/** A run that is ready to look at: everything that canvas, bands, strips and verdicts draw from. */
export interface Solved {
  readonly mechanism: Mechanism;
  readonly ground: Ground;
  readonly recording: Recording;
  readonly report: Report;
}

/** What pictures need to know of the looks. */
export interface Look {
  readonly theme: 'light' | 'dark';
  /** Reduced motion is wanted. */
  readonly still: boolean;
  /** How figures are shown; the document's own, as builders speak, when left out. */
  readonly showing?: Showing;
}
