import { Container, Graphics } from 'pixi.js';
import { GUTTER, HEIGHT } from '../../charts/layout.ts';
import { rulerTicks } from '../../charts/ticks.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { Texts } from './texts.ts';

/** The station ruler at the foot of the picture, and the vehicle's station on it. */
export class RulerLayer implements Layer {
  readonly container = new Container();
  readonly #strip = new Graphics();
  readonly #cursor = new Graphics();
  readonly #figures: Texts;
  readonly #title: Texts;
  #shown = '';

  constructor(resolution: number) {
    this.#figures = new Texts({ size: 11, face: 'mono', weight: '400', color: 0 }, resolution);
    this.#title = new Texts({ size: 11, face: 'sans', weight: '400', color: 0 }, resolution);
    this.container.addChild(this.#strip, this.#figures.container, this.#title.container, this.#cursor);
  }

  build({ inks }: Setting): void {
    this.#figures.wear({ size: 11, face: 'mono', weight: '400', color: inks.of.soft });
    this.#title.wear({ size: 11, face: 'sans', weight: '400', color: inks.of.soft });
    this.#cursor.clear();
    this.#cursor.moveTo(0, 0).lineTo(0, HEIGHT.ruler).stroke({ width: 1, color: inks.of.accent });
    this.#cursor.poly([-5, 0, 5, 0, 0, 7], true).fill(inks.of.accent);
    this.#shown = '';
  }

  show({ run, inks, scale }: Setting, { frame, view }: Moment): void {
    const { width, height } = view.size;
    const y = height - HEIGHT.ruler;
    const x = view.left + (run.tracks.station[frame] ?? 0) * scale;
    this.#cursor.position.set(Math.round(x) + 0.5, y);
    this.#cursor.visible = x >= GUTTER.left - 1 && x <= width - GUTTER.right + 1;
    const shown = `${view.left} ${scale} ${width} ${height}`;
    if (shown === this.#shown) return;
    this.#shown = shown;
    const from = (GUTTER.left - view.left) / scale;
    const to = (width - GUTTER.right - view.left) / scale;
    this.#strip.clear().rect(0, y, width, HEIGHT.ruler).fill(inks.of.paper);
    this.#strip
      .moveTo(0, y + 0.5)
      .lineTo(width, y + 0.5)
      .stroke({ width: 1, color: inks.of.hair });
    this.#figures.begin();
    for (const tick of rulerTicks({ from, to }, width, run.lengths)) {
      const at = Math.round(tick.pixel) + 0.5;
      this.#strip.moveTo(at, y).lineTo(at, y + 5);
      this.#figures.put(tick.label, at, y + 16, 0.5, 0.5);
    }
    this.#strip.stroke({ width: 1, color: inks.of.soft });
    this.#figures.end();
    this.#title.begin();
    this.#title.put(`station, ${run.lengths.unit}`, 12, y + 16, 0, 0.5);
    this.#title.end();
  }
}
