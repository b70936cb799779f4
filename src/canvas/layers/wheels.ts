import { Container, Graphics } from 'pixi.js';
import { place } from '../../../shared/geometry/vec.ts';
import type { Wheel } from '../../../sim/mechanism/mechanism.ts';
import { oklab, rampAt } from '../../charts/colour.ts';
import { discHatch } from '../geometry/hatch.ts';
import { tyreOutline } from '../geometry/tyre.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';

/** Radii of rim and hub as shares of the wheel's. */
const RIM = 0.6;
const HUB = 0.17;

const WHITE = 0xffffff;

/** Tyre deflection below which the circle is as good, px. */
const FLAT_FROM = 0.08;

interface Disc {
  readonly wheel: Wheel;
  readonly place: Container;
  readonly tyre: Graphics;
  readonly turning: Graphics;
  readonly hub: Graphics;
  /** What the tyre was last drawn from. */
  drawn: string;
}

/** Wheels: tyre outline flattened to its true deflection, filled by load share, hatched while off the ground, roll mark. */
export class WheelsLayer implements Layer {
  readonly container = new Container();
  #discs: Disc[] = [];

  build({ run, inks, scale }: Setting): void {
    for (const old of this.container.removeChildren()) old.destroy({ children: true });
    this.#discs = run.solved.mechanism.wheels.map((wheel): Disc => {
      const disc = {
        wheel,
        place: new Container(),
        tyre: new Graphics(),
        turning: new Graphics(),
        hub: new Graphics(),
        drawn: '',
      };
      const r = wheel.radius * scale;
      // White, so that a tint gives them the ink that shows best on the tyre's colour.
      disc.turning.circle(0, 0, r * RIM).stroke({ width: r > 14 ? 1.25 : 0.85, color: WHITE });
      strokeOn(disc.turning, [[r * (RIM + 0.09), 0, r * 0.86, 0]], Math.max(1.25, r * 0.05), WHITE);
      if (r > 14) strokeOn(disc.turning, bolts(r * (RIM - 0.17)), 1, WHITE);
      disc.hub
        .circle(0, 0, Math.max(1.5, r * HUB))
        .fill(inks.of.cover)
        .stroke({ width: r > 14 ? 1.5 : 1, color: inks.of.ink });
      disc.place.addChild(disc.tyre, disc.turning, disc.hub);
      this.container.addChild(disc.place);
      return disc;
    });
  }

  show(setting: Setting, moment: Moment): void {
    this.#discs.forEach((disc, i) => {
      this.#showDisc(setting, moment, disc, i);
    });
  }

  #showDisc({ run, inks, scale }: Setting, { frame, poses, origin }: Moment, disc: Disc, i: number): void {
    const columns = run.wheels[i];
    const pose = poses[disc.wheel.body];
    if (columns === undefined || pose === undefined) return;
    const hub = place(pose, disc.wheel.hub);
    disc.place.position.set(hub.x * scale, -hub.z * scale);
    disc.turning.rotation = columns.roll[frame] as number;
    const off = (columns.gap[frame] as number) > 0;
    const share = columns.standing > 0 ? (columns.load[frame] as number) / columns.standing : Number.NaN;
    const color = rampAt(inks.ramp, off ? 0 : share);
    disc.turning.tint = farther(color, inks.of.ink, inks.of.paper);
    const flat = (columns.depth[frame] as number) * scale > FLAT_FROM;
    const key = flat ? '' : `${color} ${off}`;
    if (key !== '' && key === disc.drawn) return;
    disc.drawn = key;
    const r = disc.wheel.radius * scale;
    const g = disc.tyre.clear();
    if (flat) {
      const steps = Math.min(160, Math.max(40, Math.round(r * 1.5)));
      const outline = tyreOutline(run.profile, { x: hub.x + origin, z: hub.z }, disc.wheel.radius, steps);
      const path = outline.map((v, k) => (k % 2 === 0 ? v * scale : -v * scale));
      g.poly(path, true)
        .fill(color)
        .stroke({ width: tread(r), color: inks.of.ink, join: 'round' });
    } else
      g.circle(0, 0, r)
        .fill(color)
        .stroke({ width: tread(r), color: inks.of.ink });
    if (off) strokeOn(g, discHatch(r - tread(r) / 2, Math.max(5, r * 0.2)), 1.5, inks.of.paper);
  }
}

/** Width of the tyre's line, px: the wheel is what the picture is about, so it is stronger than any other outline. */
function tread(r: number): number {
  return Math.min(3.5, Math.max(1.5, r * 0.085));
}

/** Short strokes on the rim: they show that it turns, also when the mark is hidden. */
function bolts(r: number): number[][] {
  return [0, 1, 2, 3, 4].map((k) => {
    const angle = (2 * Math.PI * k) / 5;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    return [r * c, r * s, r * 0.8 * c, r * 0.8 * s];
  });
}

/** Of two inks the one whose lightness differs more from a ground's; the first one wins unless the ground is close to it. */
function farther(ground: number, ink: number, other: number): number {
  const light = oklab(ground)[0];
  const from = (c: number) => Math.abs(oklab(c)[0] - light);
  return from(ink) < 0.35 && from(other) > from(ink) ? other : ink;
}
