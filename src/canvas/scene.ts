import { Container } from 'pixi.js';
import { place } from '../../shared/geometry/vec.ts';
import type { View } from './camera.ts';
import type { Rect } from './geometry/labels.ts';
import type { Inks } from './inks.ts';
import { BeforeLayer, BodyworkLayer } from './layers/bodies.ts';
import { ForcesLayer } from './layers/forces.ts';
import { GhostLayer } from './layers/ghost.ts';
import { GroundLayer } from './layers/ground.ts';
import { JointsLayer } from './layers/joints.ts';
import type { Layer, Moment, Setting } from './layers/layer.ts';
import { LinkageLayer, pinsOf } from './layers/linkage.ts';
import { MapFieldLayer, MapWordsLayer } from './layers/map.ts';
import { MarksLayer } from './layers/marks.ts';
import { PiecesLayer } from './layers/pieces.ts';
import { RulerLayer } from './layers/ruler.ts';
import { WheelsLayer } from './layers/wheels.ts';
import { type MapChart, mapChart } from './map/chart.ts';
import type { PivotMap } from './pivotMap.ts';
import { frameWithin, posesIn, type SceneRun } from './run.ts';

/** Which forces the picture shows: those of the ground on the wheels, or those in pins, rods and members as well. */
export type ForcesShown = 'wheels' | 'joints';

/** What is shown on demand. */
export interface Extras {
  readonly forces: ForcesShown;
  readonly map: PivotMap | null;
}

/**
 * The picture: layers from the earth up. `show` draws a frame of a run; what does not change with the frame is drawn
 * again only when run, theme or scale are other ones.
 */
export class Scene {
  readonly root = new Container();
  /** What is drawn in the world: counted from the picture's corner. */
  readonly #world: readonly Layer[];
  /** What is drawn with the vehicle: counted from its station. */
  readonly #vehicle = new Container();
  readonly #carried: readonly Layer[];
  readonly #over: readonly Layer[];
  #setting: Setting | undefined;
  #charted:
    | { readonly map: PivotMap | null; readonly inks: Inks; readonly chart: MapChart | null }
    | undefined;

  /** @param resolution pixels per CSS pixel, for texts */
  constructor(resolution: number) {
    this.#world = [new GroundLayer(), new MarksLayer(resolution)];
    this.#carried = [
      new BeforeLayer(),
      new BodyworkLayer(),
      new GhostLayer(),
      new WheelsLayer(),
      new MapFieldLayer(),
      new LinkageLayer(),
    ];
    this.#over = [
      new PiecesLayer(resolution),
      new ForcesLayer(resolution),
      new JointsLayer(resolution),
      new MapWordsLayer(resolution),
      new RulerLayer(resolution),
    ];
    this.root.addChild(
      ...this.#world.map((l) => l.container),
      this.#vehicle,
      ...this.#over.map((l) => l.container),
    );
    this.#vehicle.addChild(...this.#carried.map((l) => l.container));
  }

  /** Draws a frame. Without any frame the picture keeps what it had. */
  show(run: SceneRun, before: SceneRun | null, inks: Inks, view: View, frame: number, extras: Extras): void {
    const within = frameWithin(run, frame);
    if (within < 0) return;
    const setting = this.#settingFor(run, before, inks, view.scale);
    const origin = run.poses[0]?.x[within] ?? 0;
    const moment: Moment = {
      frame: within,
      view,
      origin,
      poses: posesIn(run, within, origin),
      joints: extras.forces === 'joints',
      chart: this.#chartOf(extras.map, inks),
      taken: [],
    };
    if (moment.joints || moment.chart !== null) moment.taken.push(...pinBoxes(run, moment, view));
    this.#vehicle.position.set(view.left + origin * view.scale, view.top);
    for (const layer of [...this.#world, ...this.#carried, ...this.#over]) layer.show(setting, moment);
  }

  #chartOf(map: PivotMap | null, inks: Inks): MapChart | null {
    if (this.#charted?.map !== map || this.#charted.inks !== inks)
      this.#charted = { map, inks, chart: map === null ? null : (mapChart(map, inks.palette) ?? null) };
    return this.#charted.chart;
  }

  #settingFor(run: SceneRun, before: SceneRun | null, inks: Inks, scale: number): Setting {
    const was = this.#setting;
    if (was?.run === run && was.before === before && was.inks === inks && sameScale(was.scale, scale))
      return was;
    const setting = { run, before, inks, scale };
    this.#setting = setting;
    for (const layer of [...this.#world, ...this.#carried, ...this.#over]) layer.build(setting);
    return setting;
  }

  destroy(): void {
    this.root.destroy({ children: true });
  }
}

/** Half the side of the room that a pin, with a handle on it, wants for itself, px. */
const PIN_ROOM = 8;

/** Boxes round all pins, which labels leave free. */
function pinBoxes(run: SceneRun, { poses, origin }: Moment, { left, top, scale }: View): Rect[] {
  return pinsOf(run.solved.mechanism).flatMap(({ body, at }) => {
    const pose = poses[body];
    if (pose === undefined) return [];
    const p = place(pose, at);
    const [x, y] = [left + (p.x + origin) * scale, top - p.z * scale];
    return [{ x: x - PIN_ROOM, y: y - PIN_ROOM, width: 2 * PIN_ROOM, height: 2 * PIN_ROOM }];
  });
}

/** Scales that differ by rounding only, as those of a window that is moved along. */
function sameScale(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * a;
}
