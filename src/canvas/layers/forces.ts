import { Container, Graphics } from 'pixi.js';
import { place } from '../../../shared/geometry/vec.ts';
import { withUnit } from '../../charts/figures.ts';
import { ROOM, type View } from '../camera.ts';
import { type Placed, placeLabels, type Rect, type Wish } from '../geometry/labels.ts';
import { heightAt } from '../geometry/profile.ts';
import { arrow } from '../geometry/shapes.ts';
import { tyreOutline, underside } from '../geometry/tyre.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';
import { PIECES_ROW } from './pieces.ts';
import { Texts } from './texts.ts';

/** A number beside its arrow: what it says, where the arrow is. */
interface Reading {
  readonly words: string;
  readonly off: boolean;
  readonly x: number;
  readonly tip: number;
  readonly tail: number;
}

/** Size of a number on the picture, px: mono face at 12 px, and the air around it. */
const GLYPH = { width: 7.25, height: 14, air: 4 } as const;

/** Arrows of the ground's force on each axle line, at its contact, with numbers that keep clear of arrows and each other. */
export class ForcesLayer implements Layer {
  readonly container = new Container();
  readonly #plates = new Graphics();
  readonly #arrows = new Graphics();
  readonly #loads: Texts;
  readonly #gaps: Texts;
  #places: number[] = [];

  constructor(resolution: number) {
    this.#loads = new Texts({ size: 12, face: 'mono', weight: '600', color: 0 }, resolution);
    this.#gaps = new Texts({ size: 12, face: 'mono', weight: '600', color: 0 }, resolution);
    this.container.addChild(this.#plates, this.#arrows, this.#loads.container, this.#gaps.container);
  }

  build({ inks }: Setting): void {
    this.#loads.wear({ size: 12, face: 'mono', weight: '600', color: inks.of.ink });
    this.#gaps.wear({ size: 12, face: 'mono', weight: '600', color: inks.of.lowInk });
    this.#places = [];
  }

  show(setting: Setting, moment: Moment): void {
    const readings = readingsOf(setting, moment);
    const g = this.#arrows.clear();
    const arrows = readings
      .filter((r) => !r.off && r.tail - r.tip >= 1)
      .map((r) => arrow({ x: r.x, y: r.tip }, r.tail - r.tip));
    if (arrows.length > 0) {
      strokeOn(
        g,
        arrows.map((a) => a.shaft),
        2,
        setting.inks.of.ink,
      );
      for (const { head } of arrows) g.poly([...head], true);
      g.fill(setting.inks.of.ink);
    }
    const shafts = shaftsOf(readings);
    const placed = placeReadings(readings, shafts, moment.view, this.#places);
    this.#places = placed.map((p) => p.place);
    moment.taken.push(...shafts, ...placed.filter((p) => p.place >= 0).map((p) => p.rect));
    this.#write(readings, placed, setting);
  }

  #write(readings: readonly Reading[], placed: readonly Placed[], { inks }: Setting): void {
    this.#plates.clear();
    this.#loads.begin();
    this.#gaps.begin();
    readings.forEach((reading, i) => {
      const { place: where, rect } = placed[i] as Placed;
      if (where < 0) return;
      this.#plates.roundRect(rect.x, rect.y, rect.width, rect.height, 3);
      (reading.off ? this.#gaps : this.#loads).put(
        reading.words,
        rect.x + rect.width / 2,
        rect.y + rect.height / 2,
        0.5,
        0.5,
      );
    });
    if (placed.some((p) => p.place >= 0)) this.#plates.fill({ color: inks.of.earth, alpha: 0.92 });
    this.#loads.end();
    this.#gaps.end();
  }
}

/** What each wheel's arrow says and where it is, px. Wheels beside the picture are left out of it by their places. */
function readingsOf({ run, scale }: Setting, { frame, view, poses, origin }: Moment): Reading[] {
  return run.solved.mechanism.wheels.map((wheel, i): Reading => {
    const columns = run.wheels[i];
    const pose = poses[wheel.body];
    if (columns === undefined || pose === undefined)
      return { words: '', off: false, x: -1e6, tip: 0, tail: 0 };
    const local = place(pose, wheel.hub);
    const hub = { x: local.x + origin, z: local.z };
    const gap = columns.gap[frame] as number;
    const station = gap > 0 ? hub.x : (columns.station[frame] as number);
    const x = view.left + station * scale;
    const load = columns.load[frame] as number;
    if (gap > 0) {
      const ground = view.top - heightAt(run.profile, station) * scale;
      const far = gap * run.gaps.factor >= 0.5 * 10 ** -run.gaps.decimals;
      const words = far ? `off ${withUnit(gap, run.gaps)}` : 'off';
      return { words, off: true, x, tip: ground, tail: ground };
    }
    const steps = wheel.radius * scale > 20 ? 48 : 24;
    const low = hub.z + underside(tyreOutline(run.profile, hub, wheel.radius, steps), station - hub.x);
    const tip = view.top - low * scale;
    return {
      words: withUnit(load, run.force),
      off: false,
      x,
      tip,
      tail: tip + Math.max(0, load) * run.arrowScale * scale,
    };
  });
}

/** Boxes round the arrows. */
function shaftsOf(readings: readonly Reading[]): Rect[] {
  return readings
    .filter((r) => !r.off)
    .map((r) => ({ x: r.x - 3, y: r.tip, width: 6, height: Math.max(0, r.tail - r.tip) }));
}

/** Where the numbers go: right or left of the arrow's tail, below it, or further down. */
function placeReadings(
  readings: readonly Reading[],
  taken: readonly Rect[],
  view: View,
  before: readonly number[],
): Placed[] {
  const foot = view.size.height - ROOM.foot - PIECES_ROW;
  const wishes = readings.map(({ words, off, x, tip, tail }): Wish => {
    const width = words.length * GLYPH.width + GLYPH.air;
    const height = GLYPH.height + 2;
    const at = Math.max(tip + 11, Math.min(tail - height + 2, foot - height));
    const beside = [
      { x: x + 7, y: at },
      { x: x - 7 - width, y: at },
    ];
    const under = [0, 1, 2, 3].map((row) => ({
      x: x - width / 2,
      y: (off ? tip + 10 : tail + 4) + row * (height + 1),
    }));
    return { width, height, places: off ? under : [...beside, ...under] };
  });
  const frame = {
    x: 0,
    y: ROOM.top,
    width: view.size.width,
    height: view.size.height - ROOM.top - ROOM.foot,
  };
  return placeLabels(wishes, taken, frame, before);
}
