import { ownFigures } from '../../shared/units.ts';
import type { Playhead } from '../playhead.ts';
import type { Look, Solved } from '../solved.ts';
import type { Viewport } from '../viewport.ts';
import {
  fitDrawing,
  fitGround,
  followTo,
  keepInSight,
  panBy,
  type Reach,
  type Size,
  type View,
  viewOf,
  zoomBy,
} from './camera.ts';
import { meanHeight } from './geometry/profile.ts';
import { type Inks, inksOf } from './inks.ts';
import type { PivotMap } from './pivotMap.ts';
import { listen } from './pointer.ts';
import { boxIn, frameWithin, posesIn, type SceneRun, sceneRunOf } from './run.ts';
import type { ForcesShown } from './scene.ts';
import { coalesce } from './schedule.ts';
import type { Sight } from './sight.ts';
import { openStage, type Stage } from './stage.ts';

/** What the picture shows, as the app hands it over. */
export interface Shown {
  readonly solved: Solved | null;
  readonly before: Solved | null;
  readonly theme: Look['theme'];
  readonly showing?: Look['showing'];
  readonly follow: boolean;
  readonly map: PivotMap | null;
  readonly forces: ForcesShown;
  /** At first the vehicle is shown as large as it fits, not the whole ground; later changes move nothing. */
  readonly closeUp: boolean;
}

/** The picture at work: takes what to show, draws when playhead or viewport move, until it is closed. */
export interface Live {
  take(shown: Shown): void;
  close(): void;
}

/** What the picture follows, and whom it tells what is to be seen. */
export interface LiveParts {
  readonly playhead: Playhead;
  readonly viewport: Viewport;
  readonly sight?: Sight | undefined;
}

export interface LiveWishes {
  /** The user has moved the picture by hand. */
  moved(): void;
  failed(message: string): void;
}

/** Zoom limits: at least a twentieth of the vehicle, at most ten times the ground. */
const CLOSEST = 0.05;
const FARTHEST = 10;

/** Height of the highest point of the ground over its lowest, m. */
function riseOf({ profile }: SceneRun): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < profile.count; i++) {
    least = Math.min(least, profile.z[i] as number);
    most = Math.max(most, profile.z[i] as number);
  }
  return profile.count > 0 ? most - least : 0;
}

/** Two runs over the same ground by the same vehicle: the second must not move the picture. */
function samePlace(a: Solved | null, b: Solved): boolean {
  return (
    a !== null &&
    a.report.vehicle === b.report.vehicle &&
    a.ground.from === b.ground.from &&
    a.ground.to === b.ground.to
  );
}

class LivePicture implements Live {
  readonly #host: HTMLElement;
  readonly #playhead: Playhead;
  readonly #viewport: Viewport;
  readonly #wishes: LiveWishes;
  readonly #sight: Sight | undefined;
  readonly #drawing = coalesce(() => this.#draw());
  readonly #stops: (() => void)[] = [];
  #stage: Stage | undefined;
  #shown: Shown | undefined;
  #run: SceneRun | null = null;
  #before: SceneRun | null = null;
  #inks: Inks | undefined;
  #size: Size;
  #lift = 0;
  #fitted: Solved | null = null;
  #closed = false;

  constructor(host: HTMLElement, { playhead, viewport, sight }: LiveParts, wishes: LiveWishes) {
    this.#host = host;
    this.#sight = sight;
    this.#size = this.#measure();
    this.#playhead = playhead;
    this.#viewport = viewport;
    this.#wishes = wishes;
    this.#stops.push(
      playhead.watch(() => this.#step()),
      viewport.watch(() => this.#drawing.ask()),
    );
    this.#stops.push(
      listen(host, { pan: (dx, dy) => this.#pan(dx, dy), zoom: (factor, x) => this.#zoom(factor, x) }),
    );
    const sizes = new ResizeObserver(() => this.#resize());
    sizes.observe(host);
    this.#stops.push(() => sizes.disconnect());
    void this.#open();
  }

  async #open(): Promise<void> {
    try {
      const stage = await openStage(this.#host, window.location.search, () => this.#drawing.ask());
      if (this.#closed) {
        stage.destroy();
        return;
      }
      this.#stage = stage;
      this.#host.dataset.renderer = stage.renderer;
      this.#resize();
    } catch (cause) {
      this.#wishes.failed(
        `The side view could not be started (${String(cause)}). The charts below still work.`,
      );
    }
  }

  take(shown: Shown): void {
    const was = this.#shown;
    this.#shown = shown;
    if (was?.theme !== shown.theme) this.#inks = inksOf(shown.theme);
    const showing = shown.showing ?? ownFigures;
    if (this.#run?.solved !== shown.solved || this.#run?.showing !== showing)
      this.#run = shown.solved === null ? null : sceneRunOf(shown.solved, this.#run, showing);
    if (this.#before?.solved !== shown.before)
      this.#before = shown.before === null ? null : sceneRunOf(shown.before);
    this.#fitOnce();
    if (shown.follow) this.#step();
    this.#drawing.ask();
  }

  close(): void {
    this.#closed = true;
    this.#drawing.stop();
    for (const stop of this.#stops) stop();
    this.#sight?.show(undefined);
    this.#stage?.destroy();
  }

  /** Asks the page for the size; only when it has changed, as asking makes the page lay itself out. */
  #measure(): Size {
    return { width: this.#host.clientWidth, height: this.#host.clientHeight };
  }

  /** Shows the whole ground the first time that a vehicle or a ground is seen. */
  #fitOnce(): void {
    const run = this.#run;
    const size = this.#size;
    if (run === null || size.width === 0 || samePlace(this.#fitted, run.solved)) return;
    const first = this.#fitted === null;
    this.#fitted = run.solved;
    if (this.#shown?.closeUp === true) {
      if (first) this.#viewport.show(fitDrawing(boxIn(run, 0), run.stature, size));
      return;
    }
    this.#lift = 0;
    const { from, to } = run.solved.ground;
    this.#viewport.show(fitGround({ from, to, rise: riseOf(run) }, run.stature, size));
  }

  #resize(): void {
    this.#size = this.#measure();
    const { width, height } = this.#size;
    this.#stage?.resize(width, height);
    this.#fitOnce();
    this.#drawing.ask();
  }

  /** The frame has changed: goes along with the vehicle if that is wanted. */
  #step(): void {
    const run = this.#run;
    if (run !== null && this.#shown?.follow === true) {
      const box = boxIn(run, Math.max(0, frameWithin(run, this.#playhead.frame)));
      this.#viewport.show(followTo(this.#viewport.window, (box.xMin + box.xMax) / 2));
    }
    this.#drawing.ask();
  }

  #pan(dx: number, dy: number): void {
    const view = this.#view();
    if (view === undefined || this.#run === null) return;
    this.#wishes.moved();
    if (this.#lift === 0) this.#lift = this.#liftIn(view);
    this.#lift -= dy / view.scale;
    this.#viewport.show(panBy(this.#viewport.window, -dx / view.scale, this.#run.solved.ground));
    this.#drawing.ask();
  }

  /** The vertical move that a view has over the plain one, m: a drag goes on from what is in sight. */
  #liftIn(view: View): number {
    const plain = this.#run === null ? view : this.#plainView(this.#run, 0);
    return (plain.top - view.top) / view.scale;
  }

  #plainView(run: SceneRun, lift: number): View {
    const { from, to } = this.#viewport.window;
    return viewOf({ from, to }, this.#size, run.stature, meanHeight(run.profile, from, to), lift);
  }

  #zoom(factor: number, x: number): void {
    const view = this.#view();
    if (view === undefined || this.#run === null) return;
    const at = this.#shown?.follow === true ? this.#viewport.window : undefined;
    const station = at === undefined ? (x - view.left) / view.scale : (at.from + at.to) / 2;
    this.#viewport.show(zoomBy(this.#viewport.window, factor, station, this.#reach(this.#run)));
  }

  #reach({ box, solved }: SceneRun): Reach {
    const length = box.xMax - box.xMin;
    return {
      least: CLOSEST * length,
      most: FARTHEST * Math.max(length, solved.ground.to - solved.ground.from),
    };
  }

  #view(): View | undefined {
    const run = this.#run;
    const size = this.#size;
    if (run === null || size.width === 0) return undefined;
    const { from, to } = this.#viewport.window;
    const view = this.#plainView(run, this.#lift);
    const frame = frameWithin(run, this.#playhead.frame);
    if (this.#lift !== 0 || frame < 0) return view;
    const box = boxIn(run, frame);
    if (box.xMax < from || box.xMin > to) return view;
    return keepInSight(view, { ...box, zMin: box.zMin - run.stature.below });
  }

  /** Tells what lies over the picture where everything is in it. */
  #tell(view: View | undefined): void {
    const frame = this.#run === null ? -1 : frameWithin(this.#run, this.#playhead.frame);
    const seen =
      this.#run !== null && view !== undefined && frame >= 0
        ? { view, frame, poses: posesIn(this.#run, frame, 0) }
        : undefined;
    this.#sight?.show(seen);
  }

  #draw(): void {
    const view = this.#view();
    const shown = this.#shown;
    if (this.#stage === undefined || this.#inks === undefined || shown === undefined) return;
    this.#stage.background(this.#inks.of.paper);
    const start = performance.now();
    this.#tell(view);
    if (this.#run !== null && view !== undefined)
      this.#stage.scene.show(this.#run, this.#before, this.#inks, view, this.#playhead.frame, shown);
    this.#stage.scene.root.visible = this.#run !== null && this.#run.solved.recording.frames > 0;
    this.#stage.render();
    this.#host.dataset.frame = String(this.#playhead.frame);
    this.#host.dataset.scriptTime = (performance.now() - start).toFixed(2);
  }
}

/** Opens the picture in an element. */
export function openLive(host: HTMLElement, parts: LiveParts, wishes: LiveWishes): Live {
  return new LivePicture(host, parts, wishes);
}
