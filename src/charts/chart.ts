import type { Playhead } from '../playhead.ts';
import type { Look, Solved } from '../solved.ts';
import type { Viewport } from '../viewport.ts';
import type { Span } from './layout.ts';

/** What bands and strips are given. */
export interface ChartProps {
  readonly solved: Solved | null;
  /** The run before this one, drawn faint for comparison. */
  readonly before: Solved | null;
  readonly playhead: Playhead;
  readonly viewport: Viewport;
  readonly look: Look;
  /** What is drawn against: each wheel's own station, or time. */
  readonly axis: Axis;
}

export type Axis = 'station' | 'time';

/** What the pointer points at: px from the chart's top left corner. */
export interface Pointed {
  readonly x: number;
  readonly y: number;
}

/** A chart at work: paints when the axis moves, moves its cursor when the frame does, tells which frame is pointed at. */
export interface Chart {
  /** Height, CSS px. */
  readonly height: number;
  /** Stretch of its axis in a window of stations. */
  spanOf(window: Span): Span;
  paint(paper: Paper, span: Span): void;
  move(frame: number, span: Span, width: number): void;
  /** Frame that belongs to a pointed place; −1 for none. `start`: where the pointer went down. */
  frameAt(pointed: Pointed, start: Pointed, span: Span, width: number): number;
}

/** A canvas to paint on, in CSS px. */
export interface Paper {
  readonly draw: CanvasRenderingContext2D;
  readonly width: number;
  readonly height: number;
  /** Pixels per CSS px. */
  readonly ratio: number;
}
