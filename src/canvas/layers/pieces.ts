import { Container, Graphics } from 'pixi.js';
import { HEIGHT } from '../../charts/layout.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { Texts } from './texts.ts';

/** Height of the row at the foot of the earth that names the pieces of ground, px. */
export const PIECES_ROW = 18;

/** Names of the pieces of ground where they begin, at the foot of the earth. Level pieces speak for themselves. */
export class PiecesLayer implements Layer {
  readonly container = new Container();
  readonly #ticks = new Graphics();
  readonly #names: Texts;

  constructor(resolution: number) {
    this.#names = new Texts({ size: 11, face: 'sans', weight: '400', color: 0 }, resolution);
    this.container.addChild(this.#ticks, this.#names.container);
  }

  build({ inks }: Setting): void {
    this.#names.wear({ size: 11, face: 'sans', weight: '400', color: inks.of.soft });
  }

  show({ run, inks }: Setting, { view }: Moment): void {
    const { size, scale, left } = view;
    const foot = size.height - HEIGHT.ruler;
    this.#ticks.clear();
    this.#names.begin();
    let clear = Number.NEGATIVE_INFINITY;
    let ticks = 0;
    for (const piece of run.solved.ground.pieces) {
      const x = left + piece.from * scale;
      if (piece.kind === 'flat' || x > size.width || left + piece.to * scale < 0 || x < clear) continue;
      this.#ticks.moveTo(Math.round(x) + 0.5, foot).lineTo(Math.round(x) + 0.5, foot - PIECES_ROW + 4);
      ticks++;
      clear = x + 12 + this.#names.put(piece.title, x + 5, foot - PIECES_ROW / 2, 0, 0.5).width;
    }
    if (ticks > 0) this.#ticks.stroke({ width: 1, color: inks.of.faint });
    this.#names.end();
  }
}
