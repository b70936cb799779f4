import type { Recording } from '../../shared/recording.ts';
import type { LedgerLine } from '../../shared/report.ts';
import { momentOf } from '../report/moments.ts';

/** One thing of the ledger over a whole run: what it uses of its limit in every frame. */
export interface Track {
  readonly head: Pick<LedgerLine, 'sort' | 'of' | 'path' | 'quantity' | 'unit' | 'how' | 'spread'>;
  /** Share of its limit, one value per frame; NaN where the limit is not known. */
  readonly use: Float64Array;
  /** What ONE carries, SI; never negative. */
  readonly carries: Float64Array;
  /** What it may carry in a frame, SI; undefined where nobody knows. */
  limit(frame: number): number | undefined;
  /** The line in one sentence, for its worst frame. */
  says(frame: number): string;
  /** Reaching its limit ends nothing: a stop that may be met, a wheel that may spin while others pull. */
  readonly harmless?: boolean;
  /** Frames at whose limit it gives although its use reads no more than 1: wheels that spin behind a differential. */
  readonly ends?: (frame: number) => boolean;
}

/** Use that is told instead of an endless one, where there is nothing to use: a million times the limit. */
export const boundless = 1e6;

/** Share of a limit, finite: nothing of a limit of 0 is 0, anything of it is a million. NaN stays. */
export function shareOf(carries: number, limit: number): number {
  if (limit > 0) return Math.min(boundless, carries / limit);
  return Number.isNaN(carries) || Number.isNaN(limit) ? Number.NaN : carries > 0 ? boundless : 0;
}

/** Use above 1 that is no more than rounding of a balance, the slack of a crossing that stops there. */
export const rounding = 1e-4;

/** The line of a track: its worst frame (the first of equal ones), and where it first gives. */
export function lineOf(track: Track, recording: Recording): LedgerLine | undefined {
  const { use, carries, head } = track;
  let worst = -1;
  let gives = -1;
  for (let f = 0; f < recording.frames; f++) {
    const here = use[f] as number;
    if (Number.isFinite(here) && (worst < 0 || here > (use[worst] as number))) worst = f;
    if (gives < 0 && !track.harmless && (here > 1 + rounding || track.ends?.(f))) gives = f;
  }
  const known = worst >= 0;
  for (let f = 0; f < recording.frames && !known; f++)
    if (Number.isFinite(carries[f]) && (worst < 0 || (carries[f] as number) > (carries[worst] as number)))
      worst = f;
  if (worst < 0) return undefined;
  return {
    ...head,
    use: known ? (use[worst] as number) : null,
    carries: carries[worst] as number,
    limit: known ? (track.limit(worst) ?? null) : null,
    says: track.says(worst),
    moment: momentOf(recording, worst),
    ...(gives < 0 ? {} : { gives: momentOf(recording, gives) }),
    ...(track.harmless ? { harmless: true } : {}),
  };
}
