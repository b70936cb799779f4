import { Container, Graphics } from 'pixi.js';
import { type Pose, place } from '../../../shared/geometry/vec.ts';
import type { BodyPoint, Mechanism } from '../../../sim/mechanism/mechanism.ts';
import type { Drawing } from '../elements/drawing.ts';
import { elementDrawings } from '../elements/registry.ts';
import type { Path } from '../geometry/shapes.ts';
import type { Inks } from '../inks.ts';
import { type Seat, seatsOf, siteAt } from '../sites.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { penOn, strokeOn } from './pen.ts';

/** Width of an arm and of a rod as shares of the smallest wheel's radius, px limits beside them. */
const ARM = { share: 0.19, least: 2.5, most: 11 } as const;
const ROD = { share: 0.09, least: 1.75, most: 5 } as const;

function widthOf(rule: typeof ARM | typeof ROD, radius: number): number {
  return Math.min(rule.most, Math.max(rule.least, rule.share * radius));
}

/** A bar with round ends: an edge, and the paper's light inside when it is wide enough. */
function bar(g: Graphics, paths: readonly Path[], width: number, inks: Inks): void {
  if (paths.length === 0) return;
  strokeOn(g, paths, width, inks.of.ink);
  if (width >= 4.5) strokeOn(g, paths, width - 2.5, inks.of.cover);
}

/** Members, rods, springs and pins. All of them change shape or reach over several bodies, so they are drawn anew per frame. */
export class LinkageLayer implements Layer {
  readonly container = new Container();
  readonly #drawing = new Graphics();
  #seats: readonly (readonly [Seat, Drawing])[] = [];
  #pins: readonly BodyPoint[] = [];

  constructor() {
    this.container.addChild(this.#drawing);
  }

  build({ run }: Setting): void {
    const { mechanism } = run.solved;
    this.#seats = seatsOf(mechanism).flatMap((seat) => {
      const drawing = elementDrawings.find((d) => d.kinds.includes(seat.element.kind));
      return drawing === undefined ? [] : [[seat, drawing] as const];
    });
    this.#pins = pinsOf(mechanism);
  }

  show({ run, inks, scale }: Setting, { poses }: Moment): void {
    const { mechanism } = run.solved;
    const g = this.#drawing.clear();
    const radius = mechanism.size * scale;
    const at = (p: BodyPoint): [number, number] => {
      const w = place(poses[p.body] as Pose, p.at);
      return [w.x * scale, -w.z * scale];
    };
    const lines = mechanism.members.flatMap((m) => m.lines);
    const cover = lines.filter((l) => l.weight === 'cover').map((l) => [...at(l.from), ...at(l.to)]);
    if (cover.length > 0) strokeOn(g, cover, 1.25, inks.of.ink);
    bar(
      g,
      mechanism.rods.map((r) => [...at(r.a), ...at(r.b)]),
      widthOf(ROD, radius),
      inks,
    );
    bar(
      g,
      lines.filter((l) => l.weight === 'load').map((l) => [...at(l.from), ...at(l.to)]),
      widthOf(ARM, radius),
      inks,
    );
    const pen = penOn(g, inks, Math.min(1.25, Math.max(0.8, radius / 40)));
    for (const [seat, drawing] of this.#seats) drawing.draw(siteAt(mechanism, seat, poses, scale), pen);
    this.#drawPins(g, inks, radius, at);
  }

  #drawPins(g: Graphics, inks: Inks, radius: number, at: (p: BodyPoint) => [number, number]): void {
    const r = Math.min(4.5, Math.max(1.5, radius * 0.075));
    for (const pin of this.#pins) g.circle(...at(pin), r);
    if (this.#pins.length > 0)
      g.fill(inks.of.cover).stroke({ width: Math.min(1.5, r * 0.5), color: inks.of.ink });
  }
}

/** Pins of members and ends of rods, each once. */
export function pinsOf(mechanism: Mechanism): readonly BodyPoint[] {
  const all = [...mechanism.members.flatMap((m) => m.pins), ...mechanism.rods.flatMap((r) => [r.a, r.b])];
  const seen = new Set<string>();
  return all.filter(({ body, at }) => {
    const key = `${body} ${at.x} ${at.z}`;
    const fresh = !seen.has(key);
    seen.add(key);
    return fresh;
  });
}
