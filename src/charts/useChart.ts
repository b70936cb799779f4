import { type RefObject, useEffect } from 'react';
import { coalesce } from '../canvas/schedule.ts';
import type { Playhead } from '../playhead.ts';
import type { Viewport } from '../viewport.ts';
import type { Chart, Paper, Pointed } from './chart.ts';

/** Pixels per CSS px at most. */
const MOST_RATIO = 2;

/**
 * Width of the column that a chart lies in, px. The parent's own width, its scroll bar counted in: the chart has to lie
 * on the same ruler as the scene, which has none.
 */
function columnWidth(host: HTMLElement): number {
  return (host.parentElement ?? host).offsetWidth;
}

/** Sizes a canvas for a chart and gives the paper to paint on; undefined where there is nothing to paint on. */
function paperOf(canvas: HTMLCanvasElement, width: number, height: number): Paper | undefined {
  const draw = canvas.getContext('2d');
  if (draw === null || width < 1 || height < 1) return undefined;
  const ratio = Math.min(MOST_RATIO, window.devicePixelRatio || 1);
  const across = Math.round(width * ratio);
  const down = Math.round(height * ratio);
  if (canvas.width !== across) canvas.width = across;
  if (canvas.height !== down) canvas.height = down;
  canvas.style.width = `${width}px`;
  canvas.style.height = `${height}px`;
  draw.setTransform(ratio, 0, 0, ratio, 0, 0);
  draw.clearRect(0, 0, width, height);
  return { draw, width, height, ratio };
}

/** Puts a chart to work in an element; returns the way to stop. */
function run(
  chart: Chart,
  host: HTMLElement,
  canvas: HTMLCanvasElement,
  playhead: Playhead,
  viewport: Viewport,
): () => void {
  const stop = new AbortController();
  let start: Pointed | undefined;
  // Asked for once per change of size: asking while the page is being written to would lay it out anew each time.
  let width = columnWidth(host);
  const span = () => chart.spanOf(viewport.window);
  const move = coalesce(() => chart.move(playhead.frame, span(), width));
  const paint = coalesce(() => {
    const paper = paperOf(canvas, width, chart.height);
    if (paper === undefined) return;
    chart.paint(paper, span());
    chart.move(playhead.frame, span(), paper.width);
  });
  const scrub = (event: PointerEvent) => {
    if (start === undefined) return;
    const box = canvas.getBoundingClientRect();
    const frame = chart.frameAt(
      { x: event.clientX - box.left, y: event.clientY - box.top },
      start,
      span(),
      width,
    );
    if (frame >= 0) playhead.show(frame);
  };
  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const box = canvas.getBoundingClientRect();
    start = { x: event.clientX - box.left, y: event.clientY - box.top };
    canvas.setPointerCapture(event.pointerId);
    scrub(event);
  };
  const up = () => {
    start = undefined;
  };
  const { signal } = stop;
  canvas.addEventListener('pointerdown', down, { signal });
  canvas.addEventListener('pointermove', scrub, { signal });
  canvas.addEventListener('pointerup', up, { signal });
  canvas.addEventListener('pointercancel', up, { signal });
  const sizes = new ResizeObserver(() => {
    width = columnWidth(host);
    paint.ask();
  });
  sizes.observe(host);
  if (host.parentElement !== null) sizes.observe(host.parentElement);
  const unwatch = [playhead.watch(() => move.ask()), viewport.watch(() => paint.ask())];
  void document.fonts.ready.then(() => paint.ask());
  paint.ask();
  return () => {
    stop.abort();
    sizes.disconnect();
    move.stop();
    paint.stop();
    for (const end of unwatch) end();
  };
}

/** Keeps a chart at work while the component lives. Playhead and viewport are followed without React. */
export function useChart(
  chart: Chart | null,
  host: RefObject<HTMLElement | null>,
  canvas: RefObject<HTMLCanvasElement | null>,
  playhead: Playhead,
  viewport: Viewport,
): void {
  useEffect(() => {
    if (chart === null || host.current === null || canvas.current === null) return undefined;
    return run(chart, host.current, canvas.current, playhead, viewport);
  }, [chart, host, canvas, playhead, viewport]);
}
