import { CanvasSource, Container, Graphics, Sprite, Texture } from 'pixi.js';
import { place, type Vec2 } from '../../../shared/geometry/vec.ts';
import { figure, type Shown, withUnit } from '../../charts/figures.ts';
import { ROOM } from '../camera.ts';
import { placeLabels, type Wish } from '../geometry/labels.ts';
import type { MapChart } from '../map/chart.ts';
import { pixelsOf } from '../map/pixels.ts';
import type { PivotMap } from '../pivotMap.ts';
import { placeBodies } from './bodies.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';
import { Texts } from './texts.ts';

/** Widths of the lines, px. */
const LINE = { contour: 0.85, frame: 1, region: 2, casing: 4.5, best: 1.75 } as const;

/** Fields smaller than this have no words on them and thinner outlines, px: they would cover it. */
const ROOMY = 130;

function pathIn(scale: number): (line: readonly number[]) => number[] {
  return (line) => line.map((v, i) => (i % 2 === 0 ? v * scale : -v * scale));
}

/** The field of a pivot map on the vehicle: bands of colour, lines between them, outline of where all criteria hold. */
export class MapFieldLayer implements Layer {
  readonly container = new Container();
  readonly #field = new Sprite();
  readonly #lines = new Graphics();
  #drawn: { readonly chart: MapChart; readonly scale: number } | undefined;
  #painted: MapChart | undefined;

  constructor() {
    this.container.addChild(this.#field, this.#lines);
  }

  build(): void {
    this.#drawn = undefined;
  }

  show(setting: Setting, { chart, poses }: Moment): void {
    this.container.visible = chart !== null;
    if (chart === null) return;
    if (this.#painted !== chart) this.#paint(setting, chart);
    if (this.#drawn?.chart !== chart || this.#drawn.scale !== setting.scale) this.#draw(setting, chart);
    const pose = poses[chart.map.body];
    if (pose !== undefined) placeBodies([this.container], [pose], setting.scale);
  }

  #paint({ inks }: Setting, chart: MapChart): void {
    this.#painted = chart;
    const { width, height, data } = pixelsOf(chart, inks.palette);
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    canvas.getContext('2d')?.putImageData(new ImageData(data, width, height), 0, 0);
    const old = this.#field.texture;
    this.#field.texture = new Texture({ source: new CanvasSource({ resource: canvas }) });
    if (old !== Texture.EMPTY) old.destroy(true);
  }

  #draw({ inks, scale }: Setting, chart: MapChart): void {
    this.#drawn = { chart, scale };
    const { from, to, contours, region, map } = chart;
    this.#field.position.set(from.x * scale, -to.z * scale);
    this.#field.width = (to.x - from.x) * scale;
    this.#field.height = (to.z - from.z) * scale;
    const path = pathIn(scale);
    const g = this.#lines.clear();
    const lines = contours.flatMap((contour) => contour.lines.map(path));
    if (lines.length > 0) strokeOn(g, lines, LINE.contour, inks.of.ink, 0.55);
    const corners = [from.x, from.z, to.x, from.z, to.x, to.z, from.x, to.z, from.x, from.z];
    strokeOn(g, [path(corners)], LINE.frame, inks.of.soft);
    const outline = region.map(path);
    if (outline.length > 0) {
      const thin = Math.min(to.x - from.x, to.z - from.z) * scale < ROOMY ? 0.7 : 1;
      strokeOn(g, outline, LINE.casing * thin, inks.of.paper);
      strokeOn(g, outline, LINE.region * thin, inks.of.accent);
    }
    if (map.best === undefined) return;
    const { x, z } = map.best.at;
    const cross = [-1, 1].map((s) => [x * scale - 5, -z * scale - 5 * s, x * scale + 5, -z * scale + 5 * s]);
    strokeOn(g, cross, LINE.casing, inks.of.paper);
    strokeOn(g, cross, LINE.best, inks.of.ink);
  }
}

/** Look of the words on a map, px: 11 px sans, whose figures and capitals are wider than its letters. */
const WORDS = { size: 11, glyph: 5.2, wide: 6.6, height: 15, air: 8 } as const;

/** What is to be written, where best first, and whether it speaks of where a pivot may lie. */
interface Saying {
  readonly words: string;
  readonly wish: Wish;
  readonly strong: boolean;
}

/** Words on a pivot map: its title, figures on its lines, the region's name, the best value. Always upright. */
export class MapWordsLayer implements Layer {
  readonly container = new Container();
  readonly #plates = new Graphics();
  readonly #figures: Texts;
  readonly #names: Texts;
  #places: number[] = [];

  constructor(resolution: number) {
    this.#figures = new Texts({ size: WORDS.size, face: 'sans', weight: '400', color: 0 }, resolution);
    this.#names = new Texts({ size: WORDS.size, face: 'sans', weight: '600', color: 0 }, resolution);
    this.container.addChild(this.#plates, this.#figures.container, this.#names.container);
  }

  build({ inks }: Setting): void {
    this.#figures.wear({ size: WORDS.size, face: 'sans', weight: '400', color: inks.of.ink });
    this.#names.wear({ size: WORDS.size, face: 'sans', weight: '600', color: inks.of.accent });
    this.#places = [];
  }

  show({ inks, scale }: Setting, { chart, view, poses, origin, taken }: Moment): void {
    this.#plates.clear();
    this.#figures.begin();
    this.#names.begin();
    const pose = chart === null ? undefined : poses[chart.map.body];
    if (chart !== null && pose !== undefined) {
      const spot = (p: Vec2) => {
        const w = place(pose, p);
        return { x: view.left + (w.x + origin) * scale, y: view.top - w.z * scale };
      };
      const sayings = sayingsOf(chart, spot);
      const frame = { x: 0, y: ROOM.top, width: view.size.width, height: view.size.height - ROOM.top };
      const wishes = sayings.map((s) => s.wish);
      const placed = placeLabels(wishes, taken, frame, this.#places);
      this.#places = placed.map((p) => p.place);
      placed.forEach(({ place: where, rect }, i) => {
        const { words, strong } = sayings[i] as Saying;
        if (where < 0) return;
        taken.push(rect);
        this.#plates.roundRect(rect.x, rect.y, rect.width, rect.height, 3);
        (strong ? this.#names : this.#figures).put(
          words,
          rect.x + rect.width / 2,
          rect.y + rect.height / 2,
          0.5,
          0.5,
        );
      });
      if (placed.some((p) => p.place >= 0)) this.#plates.fill({ color: inks.of.paper, alpha: 0.86 });
    }
    this.#figures.end();
    this.#names.end();
  }
}

type Spotter = (p: Vec2) => { readonly x: number; readonly y: number };

/** Width of words, px, near enough for a plate under them. */
function widthOf(words: string): number {
  const wide = words.replace(/[^A-Z0-9%·]/g, '').length;
  return wide * WORDS.wide + (words.length - wide) * WORDS.glyph;
}

/** A saying that wants to be centred at one of these spots, px. */
function saying(words: string, spots: readonly { x: number; y: number }[], strong = false): Saying {
  const width = widthOf(words) * (strong ? 1.05 : 1) + WORDS.air;
  const { height } = WORDS;
  const places = spots.map(({ x, y }) => ({ x: x - width / 2, y: y - height / 2 }));
  return { words, strong, wish: { width, height, places } };
}

/** The field's box on the picture, px. */
interface Field {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function fieldOf({ from, to }: MapChart, spot: Spotter): Field {
  const corners = [from, to, { x: from.x, z: to.z }, { x: to.x, z: from.z }].map(spot);
  const xs = corners.map((c) => c.x);
  const ys = corners.map((c) => c.y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** The title with the values it spans, over the field's upper edge or under its lower one. */
function titleOf({ map, region, range }: MapChart, field: Field): Saying {
  const { shown } = map;
  const span = range === undefined ? '' : ` ${figure(range[0], shown)} to ${withUnit(range[1], shown)}`;
  const progress = map.done < 1 ? ` · ${Math.floor(map.done * 100)} % done` : '';
  const nowhere = map.criteria && region.length === 0 && map.done >= 1;
  const words = `${map.title}${span}`.trim() + progress + (nowhere ? ' · nowhere do all criteria hold' : '');
  return saying(words, nearField(field));
}

/** Spots along a line, from its middle outwards. */
function along(line: readonly number[], spot: Spotter): { x: number; y: number }[] {
  const nodes = line.length / 2;
  return [0.5, 0.35, 0.65, 0.2, 0.8].map((t) => {
    const k = 2 * Math.min(nodes - 1, Math.floor(t * nodes));
    return spot({ x: line[k] as number, z: line[k + 1] as number });
  });
}

/** Fields from this size on have all their figures, px; smaller ones half of them. */
const WIDE = 260;

/** What a map says, the most important first. */
function sayingsOf(chart: MapChart, spot: Spotter): Saying[] {
  const { map, inside, contours } = chart;
  const field = fieldOf(chart, spot);
  const side = Math.min(field.right - field.left, field.bottom - field.top);
  const roomy = side >= ROOMY;
  const says = [titleOf(chart, field)];
  if (map.best !== undefined) says.push(bestOf(map.best, map.shown, field, roomy, spot));
  if (inside !== undefined) says.push(mayLie(field, roomy, spot(inside)));
  const every = side >= WIDE || contours.length <= 4 ? 1 : 2;
  for (const { words, lines } of roomy ? contours.filter((_, i) => i % every === 0) : []) {
    const longest = lines.reduce<readonly number[]>((a, b) => (b.length > a.length ? b : a), []);
    if (longest.length >= 8) says.push(saying(words, along(longest, spot)));
  }
  return says;
}

/** Says what the outline means: within it, or near a small field. */
function mayLie(field: Field, roomy: boolean, { x, y }: { x: number; y: number }): Saying {
  const inside = [0, 18, -18, 34, -34].map((dy) => ({ x, y: y + dy }));
  return roomy
    ? saying('pivot may lie here', [...inside, ...nearField(field)], true)
    : saying('pivot may lie within the outline', nearField(field), true);
}

/** Spots over a field and under it, px: lines of words that pile up on its title. */
function nearField({ left, right, top, bottom }: Field): { x: number; y: number }[] {
  const x = (left + right) / 2;
  return [top - 11, top - 28, top - 45, top - 62, bottom + 11, bottom + 28].map((y) => ({ x, y }));
}

/** The best value, beside its cross or near a small field. */
function bestOf(
  best: NonNullable<PivotMap['best']>,
  shown: Shown,
  field: Field,
  roomy: boolean,
  spot: Spotter,
): Saying {
  const { x, y } = spot(best.at);
  const words = `${roomy ? '' : '× '}best ${withUnit(best.value, shown)}`.trim();
  const half = widthOf(words) / 2 + 12;
  const close = [
    { x: x + half, y },
    { x: x - half, y },
    { x, y: y - 16 },
    { x, y: y + 16 },
  ];
  return saying(words, roomy ? close : nearField(field));
}
