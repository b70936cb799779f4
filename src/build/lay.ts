import { pathText } from '../../shared/path.ts';
import type { Handle } from '../edits/edit.ts';
import { type Board, gridStep, spotOn } from './board.ts';

/** Puts the grid, the marks and every handle where they are on the picture. */
export function lay(
  layer: SVGSVGElement,
  handles: readonly Handle[],
  knobs: ReadonlyMap<string, Element>,
  board: Board,
  pitch: number | undefined,
): void {
  const { scale, left, top } = board;
  const metres = `matrix(${scale} 0 0 ${-scale} ${left} ${top})`;
  for (const each of layer.querySelectorAll('.in-metres')) each.setAttribute('transform', metres);
  const grid = layer.querySelector('.build-grid pattern');
  if (grid !== null && pitch !== undefined) {
    const step = Math.max(1, gridStep(pitch, scale) * scale);
    grid.setAttribute('width', String(step));
    grid.setAttribute('height', String(step));
    grid.setAttribute('x', String(left % step));
    grid.setAttribute('y', String(top % step));
    grid.firstElementChild?.setAttribute('d', `M${step} 0H0V${step}`);
  }
  for (const handle of handles) {
    const knob = knobs.get(pathText(handle.path));
    if (knob === undefined) continue;
    const { x, y } = spotOn(board, handle.at);
    knob.setAttribute('transform', `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
  }
}
