import type { Problem } from '../../shared/problem.ts';
import type { Recording } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';
import type { Setting } from '../../sim/studies/knob.ts';

/** What is asked of a vehicle in balance: how it stands, or how it crosses its ground. */
export type Balanced = 'stand' | 'crawl';

/** What the window asks of the live worker. */
export interface LiveOrder {
  /** Handed back with the answer. */
  readonly ticket: number;
  readonly mode: Balanced;
  /** The document as the user wrote it; left out when it is the one of the order before. */
  readonly document?: unknown;
  /** Figures put in place of those of the document, SI. */
  readonly settings: readonly Setting[];
  /** Stations of a crossing. */
  readonly stations: number;
}

/** What the live worker answers, one answer to each order. */
export type LiveAnswer =
  | { readonly kind: 'refused'; readonly ticket: number; readonly problems: readonly Problem[] }
  /** With these figures there is no such vehicle, or it cannot stand. */
  | { readonly kind: 'impossible'; readonly ticket: number; readonly why: string }
  | { readonly kind: 'failed'; readonly ticket: number; readonly message: string }
  | {
      readonly kind: 'solved';
      readonly ticket: number;
      readonly recording: Recording;
      readonly report: Report;
      /** How long it took, ms. */
      readonly took: number;
    };
