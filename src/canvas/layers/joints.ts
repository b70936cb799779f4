import { Container, Graphics } from 'pixi.js';
import { type Pose, place, type Vec2 } from '../../../shared/geometry/vec.ts';
import { column, hasChannel } from '../../../shared/recording.ts';
import { carryingJoints, memberLines } from '../../../sim/joints/line.ts';
import type { Joint } from '../../../sim/mechanism/mechanism.ts';
import { withUnit } from '../../charts/figures.ts';
import { ROOM } from '../camera.ts';
import { placeLabels, type Rect, type Wish } from '../geometry/labels.ts';
import { along, arrowTo, type Path, type Spot, strain } from '../geometry/shapes.ts';
import type { SceneRun } from '../run.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';
import { Texts } from './texts.ts';

/** Forces below this share of a mean standing load are left out: they would be dots. */
const LEAST = 0.02;

/** How far the tip of an arrow stays off its pin, px: room for the pin and for a handle's ring. */
const OFF = 9;

/** Size of the words, px: mono face at 11 px. */
const GLYPH = { width: 6.65, height: 14, air: 4 } as const;

/** A pin or guide with its columns. */
interface Pin {
  readonly joint: Joint;
  readonly x: Float64Array;
  readonly z: Float64Array;
}

/** A line that is pulled or pushed along itself: a rod between its ends, a member in its longest piece. */
interface Strained {
  readonly ends: readonly [
    { readonly body: number; readonly at: Vec2 },
    { readonly body: number; readonly at: Vec2 },
  ];
  readonly force: Float64Array;
}

interface Parts {
  readonly run: SceneRun;
  readonly pins: readonly Pin[];
  readonly strained: readonly Strained[];
  readonly least: number;
}

/** Looks up the columns of all joint forces of a run; nothing when it was recorded without them. */
function partsOf(run: SceneRun): Parts {
  const { mechanism, recording } = run.solved;
  const least = LEAST * run.meanLoad;
  if (!hasChannel(recording, 'pinX')) return { run, pins: [], strained: [], least };
  const rods = mechanism.rods.map(
    (rod, i): Strained => ({
      ends: [rod.a, rod.b],
      force: column(recording, 'rodTension', i),
    }),
  );
  const members = memberLines(mechanism).map(({ body, points }, i): Strained => {
    const [a, b] = longestPiece(points);
    return {
      ends: [
        { body, at: a },
        { body, at: b },
      ],
      force: column(recording, 'axial', i),
    };
  });
  const pins = carryingJoints(mechanism).map(({ joint }, i): Pin => {
    return { joint, x: column(recording, 'pinX', i), z: column(recording, 'pinZ', i) };
  });
  return { run, pins, strained: [...rods, ...members], least };
}

/** The longest straight piece of a line. */
function longestPiece(points: readonly Vec2[]): readonly [Vec2, Vec2] {
  let best: readonly [Vec2, Vec2] = [points[0] as Vec2, points[1] as Vec2];
  let most = -1;
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i] as Vec2, points[i + 1] as Vec2];
    const length = Math.hypot(b.x - a.x, b.z - a.z);
    if (length > most) [best, most] = [[a, b], length];
  }
  return best;
}

/** Shapes and words of one moment, px. */
interface Drawn {
  readonly shafts: Path[];
  readonly heads: Path[];
  readonly says: { readonly words: string; readonly wish: Wish }[];
  readonly taken: Rect[];
}

/**
 * Forces inside the linkage: on what hangs on each pin or guide an arrow in newtons with its tip at the pin, in the scale
 * of the wheels' arrows; on rods and members two heads that part where they are pulled and meet where they are pushed.
 */
export class JointsLayer implements Layer {
  readonly container = new Container();
  readonly #plates = new Graphics();
  readonly #arrows = new Graphics();
  readonly #words: Texts;
  #parts: Parts | undefined;
  #places: number[] = [];

  constructor(resolution: number) {
    this.#words = new Texts({ size: 11, face: 'mono', weight: '500', color: 0 }, resolution);
    this.container.addChild(this.#arrows, this.#plates, this.#words.container);
  }

  build({ inks }: Setting): void {
    this.#words.wear({ size: 11, face: 'mono', weight: '500', color: inks.of.ink });
    this.#places = [];
  }

  show({ run, inks, scale }: Setting, moment: Moment): void {
    this.container.visible = moment.joints;
    if (!moment.joints) return;
    if (this.#parts?.run !== run) this.#parts = partsOf(run);
    const drawn = drawnOf(this.#parts, moment, scale);
    const g = this.#arrows.clear();
    if (drawn.shafts.length > 0) {
      strokeOn(g, drawn.shafts, 4.5, inks.of.paper);
      for (const head of drawn.heads) g.poly([...head], true);
      g.stroke({ width: 2.5, color: inks.of.paper, join: 'round' });
      strokeOn(g, drawn.shafts, 1.75, inks.of.ink);
    }
    for (const head of drawn.heads) g.poly([...head], true);
    if (drawn.heads.length > 0) g.fill(inks.of.ink);
    this.#write(drawn, moment, inks.of.paper);
  }

  #write({ says, taken }: Drawn, moment: Moment, paper: number): void {
    const { width, height } = moment.view.size;
    const frame = { x: 0, y: ROOM.top, width, height: height - ROOM.top - ROOM.foot };
    const full = [...moment.taken, ...taken];
    const placed = placeLabels(
      says.map((s) => s.wish),
      full,
      frame,
      this.#places,
    );
    this.#places = placed.map((p) => p.place);
    this.#plates.clear();
    this.#words.begin();
    placed.forEach(({ place: where, rect }, i) => {
      if (where < 0) return;
      moment.taken.push(rect);
      this.#plates.roundRect(rect.x, rect.y, rect.width, rect.height, 3);
      const [x, y] = [rect.x + rect.width / 2, rect.y + rect.height / 2];
      this.#words.put(says[i]?.words ?? '', x, y, 0.5, 0.5);
    });
    if (placed.some((p) => p.place >= 0)) this.#plates.fill({ color: paper, alpha: 0.86 });
    this.#words.end();
  }
}

/** Places for words round a spot: beyond it seen from `ux, uy` (unit vector), then to its sides. */
function wishRound(words: string, at: Spot, ux: number, uy: number): Wish {
  const width = words.length * GLYPH.width + GLYPH.air;
  const { height } = GLYPH;
  const corner = (x: number, y: number) => ({ x: x - width / 2, y: y - height / 2 });
  const [w, h] = [width / 2 + 6, height / 2 + 4];
  return {
    width,
    height,
    places: [
      corner(at.x + ux * w, at.y + uy * h),
      corner(at.x + w, at.y),
      corner(at.x - w, at.y),
      corner(at.x, at.y - h - 2),
      corner(at.x, at.y + h + 2),
      corner(at.x + w, at.y - h - 6),
      corner(at.x - w, at.y - h - 6),
    ],
  };
}

function drawnOf(parts: Parts, moment: Moment, scale: number): Drawn {
  const drawn: Drawn = { shafts: [], heads: [], says: [], taken: [] };
  const { view, origin, poses, frame } = moment;
  const spot = (body: number, at: Vec2): Spot => {
    const w = place(poses[body] as Pose, at);
    return { x: view.left + (w.x + origin) * scale, y: view.top - w.z * scale };
  };
  for (const { joint, x, z } of parts.pins) {
    const body = joint.kind === 'slide' ? joint.child : joint.parent;
    addPin(drawn, parts, spot(body, joint.anchor), x[frame] as number, z[frame] as number, scale);
  }
  for (const { ends, force } of parts.strained) {
    const [a, b] = [spot(ends[0].body, ends[0].at), spot(ends[1].body, ends[1].at)];
    addStrained(drawn, parts, a, b, force[frame] as number);
  }
  return drawn;
}

/** Adds the arrow of a force (N, world axes) on what hangs on a pin, and its figure at the arrow's tail. */
function addPin(drawn: Drawn, { run, least }: Parts, pin: Spot, fx: number, fz: number, scale: number): void {
  const size = Math.hypot(fx, fz);
  if (!(size >= least)) return;
  const px = run.arrowScale * scale;
  const tip = { x: pin.x - (OFF * fx) / size, y: pin.y + (OFF * fz) / size };
  const from = { x: tip.x - fx * px, y: tip.y + fz * px };
  const { shaft, head } = arrowTo(from, tip);
  drawn.shafts.push(shaft);
  drawn.heads.push(head);
  drawn.taken.push(...boxesAlong(from, tip));
  const words = withUnit(size, run.force);
  drawn.says.push({ words, wish: wishRound(words, from, -fx / size, fz / size) });
}

/** Adds the sign of the force along a rod or member, and its figure with the word for it. */
function addStrained(drawn: Drawn, { run, least }: Parts, a: Spot, b: Spot, force: number): void {
  if (!(Math.abs(force) >= least)) return;
  const { ux, uy } = along(a, b);
  // A third of the way: the middle of many members is where a pin lies.
  const at = { x: a.x + (b.x - a.x) * 0.38, y: a.y + (b.y - a.y) * 0.38 };
  drawn.heads.push(...strain(at, ux, uy, force > 0));
  drawn.taken.push({ x: at.x - 9, y: at.y - 6, width: 18, height: 12 });
  const words = `${force > 0 ? 'pull' : 'push'} ${withUnit(Math.abs(force), run.force)}`;
  const up = ux > 0 ? { x: uy, y: -ux } : { x: -uy, y: ux };
  drawn.says.push({ words, wish: wishRound(words, at, up.x, up.y * 1.6) });
}

/** Small boxes along an arrow, so that labels may come close to slanting ones. */
function boxesAlong(from: Spot, tip: Spot): Rect[] {
  const { length } = along(from, tip);
  const count = Math.max(1, Math.ceil(length / 10));
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / count;
    return {
      x: from.x + (tip.x - from.x) * t - 4,
      y: from.y + (tip.y - from.y) * t - 4,
      width: 8,
      height: 8,
    };
  });
}
