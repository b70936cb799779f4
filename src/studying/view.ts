import type { Sample } from '../../sim/tuning/sample.ts';
import type { Look } from '../solved.ts';
import type { About } from '../workers/trial-protocol.ts';
import type { Brush } from './brush.ts';
import type { Findings } from './course.ts';

/** What all plots and the table are made from. */
export interface ViewProps {
  readonly findings: Findings;
  /** Grows with the findings. */
  readonly grown: number;
  /** Of the first goal. */
  readonly unit: string;
  readonly title: string;
  /** Titles and SI units of all goals. */
  readonly about: About;
  /** Which samples are looked at. */
  readonly brush: Brush;
  readonly picked: Sample | undefined;
  readonly look: Look;
  readonly onPick: (sample: Sample) => void;
}
