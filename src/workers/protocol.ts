import type { Problem } from '../../shared/problem.ts';
import type { Recording } from '../../shared/recording.ts';
import type { Report } from '../../shared/report.ts';
import type { Told } from './told.ts';

/** How far a run is: model time s, the vehicle's station m, and the share of the way that is done, 0 to 1. */
export interface Progress {
  readonly time: number;
  readonly station: number;
  readonly share: number;
}

/** What the window asks of the worker: drive this document. One worker does one run at a time. */
export interface Order {
  /** Handed back with every answer, so that a late one is told from a fresh one. */
  readonly ticket: number;
  /** The document as the user wrote it. */
  readonly document: unknown;
  /** Whether what was read is wanted too, by a window that has no reader of its own yet. */
  readonly telling?: boolean;
}

/** What the worker answers: any number of `progress`, then one of the others. */
export type Answer =
  | { readonly kind: 'progress'; readonly ticket: number; readonly progress: Progress }
  | { readonly kind: 'refused'; readonly ticket: number; readonly problems: readonly Problem[] }
  | { readonly kind: 'failed'; readonly ticket: number; readonly message: string }
  | {
      readonly kind: 'solved';
      readonly ticket: number;
      readonly recording: Recording;
      readonly report: Report;
      /** How long the engine took, ms. */
      readonly took: number;
      /** What was read, where it was asked for. */
      readonly told?: Told;
    };

/** Buffers of an answer that change hands instead of being copied. */
export function buffersOf(answer: Answer): Transferable[] {
  return answer.kind === 'solved' ? [answer.recording.block.buffer as ArrayBuffer] : [];
}
