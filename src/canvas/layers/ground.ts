import { Container, Graphics } from 'pixi.js';
import { earthHatch } from '../geometry/hatch.ts';
import { lineBetween, type Profile } from '../geometry/profile.ts';
import type { Inks } from '../inks.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';

/** Hatching, px, and how far below the lowest ground the earth is filled. */
const HATCH = { spacing: 9, depth: 20 } as const;
const DEEP = 6000;

/** Earth, its hatching and the ground line. Drawn for three widths of the picture at once, moved while that lasts. */
export class GroundLayer implements Layer {
  readonly container = new Container();
  readonly #earth = new Graphics();
  readonly #hatch = new Graphics();
  readonly #line = new Graphics();
  #from = 0;
  #to = 0;
  #drawn: { readonly profile: Profile; readonly inks: Inks; readonly scale: number } | undefined;

  constructor() {
    this.container.addChild(this.#earth, this.#hatch, this.#line);
  }

  build({ run: { profile }, inks, scale }: Setting): void {
    const was = this.#drawn;
    this.#drawn = { profile, inks, scale };
    if (was?.profile === profile && was.inks === inks && was.scale === scale) return;
    this.#from = 0;
    this.#to = 0;
  }

  show(setting: Setting, { view }: Moment): void {
    const { scale, left, top, size } = view;
    const from = -left / scale;
    const to = (size.width - left) / scale;
    if (from < this.#from || to > this.#to) this.#draw(setting, from - (to - from), to + (to - from));
    this.container.position.set(left + this.#from * scale, top);
  }

  #draw({ run, inks, scale }: Setting, from: number, to: number): void {
    this.#from = from;
    this.#to = to;
    const metres = lineBetween(run.profile, from, to, 0.75 / scale);
    const line = metres.map((v, i) => (i % 2 === 0 ? (v - from) * scale : -v * scale));
    const width = (to - from) * scale;
    this.#earth
      .clear()
      .poly([...line, width, DEEP, 0, DEEP], true)
      .fill(inks.of.earth);
    this.#hatch.clear();
    strokeOn(
      this.#hatch,
      earthHatch(line, HATCH.spacing, HATCH.depth, (-from * scale) % HATCH.spacing),
      1,
      inks.of.hatch,
    );
    this.#line.clear();
    strokeOn(this.#line, [line], 1.75, inks.of.ink);
  }
}
