import type { Palette } from '../charts/palette.ts';
import { BAR_TO } from './Cell.tsx';
import { inkOf, shareWords } from './look.ts';
import type { TreePart } from './tree.ts';

/** What a part is shown to use: now and at its worst; undefined while nobody has worked it out. NaN: its limit is not known. */
export interface Shown {
  readonly now: number | undefined;
  readonly worst: number | undefined;
}

const titled = (use: number): string =>
  Number.isNaN(use) ? 'limit not known' : `${shareWords(use)} of its limit`;

/** What a screen reader is told of a part. */
export function cellLabel(part: TreePart, { now, worst }: Shown, broken: string | undefined): string {
  const words = [`${part.name}, ${part.title}`];
  if (broken !== undefined) words.push(`cannot be built: ${broken}`);
  if (now !== undefined) words.push(`${titled(now)} here`);
  if (worst !== undefined) words.push(`${titled(worst)} at its worst`);
  return words.join(', ');
}

const part = (cell: Element, name: string): SVGElement | null => cell.querySelector<SVGElement>(`.${name}`);

/** Puts the figures of a moment into a cell. Without those of a moment, its worst is what is told. */
export function showUse(cell: Element, { now, worst }: Shown, palette: Palette): void {
  const told = now ?? worst;
  const ink = inkOf(told ?? 0, palette);
  const unknown = told !== undefined && Number.isNaN(told);
  const over = (worst ?? 0) > 1 || (told ?? 0) > 1;
  cell.toggleAttribute('data-unknown', unknown);
  cell.toggleAttribute('data-over', over);
  part(cell, 'drive-plate')?.setAttribute('fill', ink.plate);
  part(cell, 'drive-symbol')?.setAttribute('stroke', ink.line);
  const use = part(cell, 'drive-use');
  const words = told === undefined ? '' : shareWords(told);
  if (use !== null && use.textContent !== words) use.textContent = words;
  use?.toggleAttribute('data-over', (told ?? 0) > 1);
  stretch(part(cell, 'drive-now'), told, ink.plate);
  stretch(part(cell, 'drive-worst'), worst, undefined);
}

/** Makes a bar as long as a share; bars end a little past the limit. */
function stretch(bar: SVGElement | null, use: number | undefined, fill: string | undefined): void {
  const share = use === undefined || Number.isNaN(use) ? 0 : Math.min(BAR_TO, Math.max(0, use)) / BAR_TO;
  bar?.setAttribute('transform', `scale(${share.toFixed(4)} 1)`);
  if (fill !== undefined) bar?.setAttribute('fill', fill);
}
