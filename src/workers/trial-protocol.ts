import type { BoundStudy } from '../../sim/tuning/bind.ts';
import type { Design } from '../../sim/tuning/dial.ts';
import type { Reading } from '../../sim/tuning/goal.ts';
import type { Outcome } from '../../sim/tuning/sample.ts';

/** What one worker is given to try: null for today's design. */
export interface Work {
  readonly design: Design | null;
  readonly by: 'crawl' | 'drive';
}

/** What goes to a worker: the study first, then designs, and once what its goals are called. */
export type TrialOrder =
  | { readonly kind: 'study'; readonly study: BoundStudy }
  | { readonly kind: 'work'; readonly id: number; readonly work: Work }
  | { readonly kind: 'about'; readonly id: number };

/** Titles and SI units of the goals. */
export type About = readonly Pick<Reading, 'title' | 'unit'>[];

/** What comes back from a worker. */
export type TrialNews =
  | { readonly kind: 'outcome'; readonly id: number; readonly outcome: Outcome }
  | { readonly kind: 'about'; readonly id: number; readonly about: About };
