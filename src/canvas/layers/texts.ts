import { Container, Text } from 'pixi.js';
import { faces } from '../../charts/palette.ts';

/** Look of a text on the picture. */
export interface TextLook {
  readonly size: number;
  readonly face: keyof typeof faces;
  readonly weight: '400' | '500' | '600' | '700';
  readonly color: number;
}

/**
 * A row of texts that are kept and reused: a text is laid out again only when its words change, and lies on whole
 * pixels. Anchor 0 … 1: which part of the text lies on its place.
 */
export class Texts {
  readonly container = new Container();
  readonly #texts: Text[] = [];
  #used = 0;
  #look: TextLook;
  readonly #resolution: number;

  constructor(look: TextLook, resolution: number) {
    this.#look = look;
    this.#resolution = resolution;
  }

  /** Changes colour (and the rest) of all texts. */
  wear(look: TextLook): void {
    this.#look = look;
    for (const text of this.#texts) {
      text.style.fill = look.color;
      text.style.fontWeight = look.weight;
    }
  }

  /** Starts a new row: texts that are not put again are hidden by `end`. */
  begin(): void {
    this.#used = 0;
  }

  /** Shows words at a place, px. Returns the text's size, px. */
  put(
    words: string,
    x: number,
    y: number,
    anchorX: number,
    anchorY: number,
  ): { readonly width: number; readonly height: number } {
    const text = this.#next();
    if (text.text !== words) text.text = words;
    text.visible = true;
    const { width, height } = text;
    text.position.set(Math.round(x - anchorX * width), Math.round(y - anchorY * height));
    return { width, height };
  }

  end(): void {
    for (let i = this.#used; i < this.#texts.length; i++) (this.#texts[i] as Text).visible = false;
  }

  #next(): Text {
    const made = this.#texts[this.#used];
    this.#used++;
    if (made !== undefined) return made;
    const { size, face, weight, color } = this.#look;
    const style = { fontFamily: faces[face], fontSize: size, fontWeight: weight, fill: color };
    const text = new Text({ text: '', style, resolution: this.#resolution });
    this.#texts.push(text);
    this.container.addChild(text);
    return text;
  }
}
