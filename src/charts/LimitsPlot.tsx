import type { Look } from '../solved.ts';
import type { Shown } from './figures.ts';

/** One point of a limit curve, SI. */
export interface LimitPoint {
  /** Grip, or mass in kg. */
  readonly at: number;
  /** Largest size of the obstacle that is crossed, m or rad; 0 when none is. */
  readonly limit: number;
  /** What stops it there, in a word or two: 'grip', 'tipping'; absent when nothing does up to the largest size tried. */
  readonly by?: string;
}

export interface LimitsPlotProps {
  /** 'highest step up' */
  readonly title: string;
  /** How sizes are shown, and figures along the axis. */
  readonly size: Shown;
  readonly along: Shown & { readonly title: string };
  /** In order of `at`. */
  readonly points: readonly LimitPoint[];
  /** Where the scenario is today: its grip or mass, and the size of the obstacle on its ground if there is one. */
  readonly today: { readonly at: number; readonly size?: number };
  readonly look: Look;
}

/** The limit of one obstacle as a curve over grip or mass, with today's ground marked; as a table on demand. */
export function LimitsPlot(_props: LimitsPlotProps) {
  return null;
}
