import { Container, Graphics } from 'pixi.js';
import type { Lift, WheelTrack } from '../../charts/tracks.ts';
import { overlaps, type Rect } from '../geometry/labels.ts';
import { lineBetween } from '../geometry/profile.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';
import { Texts } from './texts.ts';

/** How far below the ground line a mark lies, px, and how strong marks are that are still to come. */
const BELOW = 5;
const TO_COME = 0.32;

interface Mark {
  readonly track: WheelTrack;
  readonly lift: Lift;
  readonly drawn: Graphics;
}

/** What each lift-off leaves on the ground, where it happened: a stroke along the ground and the wheel's number. */
export class MarksLayer implements Layer {
  readonly container = new Container();
  readonly #strokes = new Container();
  readonly #numbers: Texts;
  #marks: Mark[] = [];

  constructor(resolution: number) {
    this.#numbers = new Texts({ size: 10, face: 'mono', weight: '600', color: 0 }, resolution);
    this.container.addChild(this.#strokes, this.#numbers.container);
  }

  build({ run, inks, scale }: Setting): void {
    for (const old of this.#strokes.removeChildren()) old.destroy();
    this.#numbers.wear({ size: 10, face: 'mono', weight: '600', color: inks.of.lowInk });
    this.#marks = run.tracks.wheels.flatMap((track) =>
      track.lifts.map((lift): Mark => {
        const from = Math.min(lift.station.from, lift.station.to);
        const to = Math.max(lift.station.from, lift.station.to, from + 3 / scale);
        const metres = lineBetween(run.profile, from, to, 1 / scale);
        const path = metres.map((v, i) => (i % 2 === 0 ? (v - from) * scale : -v * scale + BELOW));
        const drawn = new Graphics();
        strokeOn(drawn, [path], 4, inks.of.low);
        this.#strokes.addChild(drawn);
        return { track, lift, drawn };
      }),
    );
  }

  show({ run, scale }: Setting, { frame, view }: Moment): void {
    const now = run.tracks.time[frame] ?? 0;
    const taken: Rect[] = [];
    this.#numbers.begin();
    for (const { track, lift, drawn } of this.#marks) {
      const from = Math.min(lift.station.from, lift.station.to);
      const to = Math.max(lift.station.from, lift.station.to);
      drawn.position.set(view.left + from * scale, view.top);
      drawn.alpha = lift.time.from <= now ? 1 : TO_COME;
      drawn.visible = drawn.x < view.size.width && view.left + to * scale > -10;
      if (!drawn.visible || lift.time.from > now) continue;
      const x = view.left + ((from + to) / 2) * scale;
      const y = view.top + (drawn.getLocalBounds().maxY ?? 0) + 8;
      const rect = { x: x - 5, y: y - 6, width: 10, height: 12 };
      if (taken.some((other) => overlaps(other, rect))) continue;
      taken.push(rect);
      this.#numbers.put(String(track.axle), x, y, 0.5, 0.5);
    }
    this.#numbers.end();
  }
}
