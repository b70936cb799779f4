import type { Choice } from '../../sim/studies/choice.ts';
import type { Field, MapPoint, Tile } from '../../sim/studies/map.ts';
import type { Plane } from '../../sim/studies/planes.ts';
import type { MapTile } from '../canvas/pivotMap.ts';
import type { StudyWorkers } from '../workers/study.ts';
import type { StudyNews } from '../workers/study-protocol.ts';

/** Size of a map, and stations of each of its crossings. */
export const MAP_SIZE = { columns: 60, rows: 40, stations: 200 } as const;

/** A map as far as it is. */
export interface Mapped {
  readonly plane: Plane;
  /** What the pin is fixed to. */
  readonly on: string;
  readonly measure: string;
  readonly document: unknown;
  /** The whole map on its finest grid, filled in between what is known; undefined before its first whole level. */
  readonly tile: MapTile | undefined;
  readonly best: MapPoint | undefined;
  /** Share of its points that are known. */
  readonly done: number;
  readonly failed: string | undefined;
  /** Since it was asked for, ms: to its first picture, and to its end. */
  readonly took: { readonly first: number | undefined; readonly all: number | undefined };
}

/** What a map is asked of. */
export interface MapWish {
  readonly document: unknown;
  readonly plane: Plane;
  readonly on: string;
  readonly measure: string;
  readonly better: Choice['better'];
  /** Where its points are collected; new, and of MAP_SIZE. */
  readonly field: Field;
}

/** What a map works with; tests hand in their own. */
export interface Tools {
  readonly pool: Pick<StudyWorkers, 'begin' | 'warm'>;
  /** Workers at once. */
  readonly workers: number;
  /** ms. */
  now(): number;
  later(ms: number, then: () => void): () => void;
}

/** Shortest time between two pictures of a growing map, ms. */
const PICTURE_EVERY = 150;

/** What a map works with in a browser: a worker on every core but one, which is left to the window. */
export const mapTools = (pool: StudyWorkers): Tools => ({
  pool,
  workers: Math.max(1, (navigator.hardwareConcurrency || 2) - 1),
  now: () => performance.now(),
  later: (ms, then) => {
    const id = setTimeout(then, ms);
    return () => clearTimeout(id);
  },
});

/** The one map that is being looked at: worked out coarse first by several workers, called off by the next wish. */
export class Mapping {
  readonly #tools: Tools;
  readonly #watchers = new Set<() => void>();
  #state: Mapped | undefined;
  #wish: MapWish | undefined;
  #field: Field | undefined;
  #ends: (() => void)[] = [];
  #began = 0;
  #pause: (() => void) | undefined;
  #left = 0;

  constructor(tools: Tools) {
    this.#tools = tools;
  }

  readonly state = (): Mapped | undefined => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Has the workers ready for a map that may be asked for. */
  warm(): void {
    if (this.#state === undefined) this.#tools.pool.warm(this.#tools.workers);
  }

  /** Begins a map; the one before is called off. */
  ask(wish: MapWish): void {
    this.#stop();
    const { document, plane, on, measure } = wish;
    this.#wish = wish;
    this.#field = wish.field;
    this.#began = this.#tools.now();
    const took = { first: undefined, all: undefined };
    this.#change({
      plane,
      on,
      measure,
      document,
      tile: undefined,
      best: undefined,
      done: 0,
      failed: undefined,
      took,
    });
    const of = this.#tools.workers;
    this.#left = of;
    const name = { name: plane.name, kind: plane.kind };
    for (let part = 0; part < of; part += 1)
      this.#ends.push(
        this.#tools.pool.begin(
          { kind: 'map', document, measure, plane: name, ...MAP_SIZE, part: { part, of } },
          (news) => this.#hear(news),
        ),
      );
  }

  /** Takes the map away. */
  clear(): void {
    this.#stop();
    this.#change(undefined);
  }

  #stop(): void {
    for (const end of this.#ends) end();
    this.#ends = [];
    this.#pause?.();
    this.#pause = undefined;
    this.#wish = undefined;
    this.#field = undefined;
  }

  #hear(news: StudyNews): void {
    if (this.#state === undefined || this.#field === undefined) return;
    if (news.kind === 'tile') this.#take(this.#field, news.tile);
    if (news.kind === 'failed') {
      this.#change({ ...this.#state, failed: news.message });
      this.#stop();
    }
    if (news.kind === 'mapped') {
      this.#left -= 1;
      if (this.#left === 0) this.#picture();
    }
  }

  /** The first whole picture is shown at once, later ones now and then. */
  #take(field: Field, tile: Tile): void {
    field.add(tile);
    const first = this.#state?.tile === undefined;
    if (first && field.level >= 0) this.#picture();
    else if (!first && this.#pause === undefined)
      this.#pause = this.#tools.later(PICTURE_EVERY, () => this.#picture());
  }

  #picture(): void {
    const [state, field, wish] = [this.#state, this.#field, this.#wish];
    this.#pause?.();
    this.#pause = undefined;
    if (state === undefined || field === undefined || wish === undefined) return;
    const { columns, rows } = MAP_SIZE;
    const { x, z } = wish.plane;
    const now = this.#tools.now() - this.#began;
    const done = field.points.length / (columns * rows);
    const best = field.best(wish.better);
    this.#change({
      ...state,
      tile: {
        from: { x: x.from, z: z.from },
        to: { x: x.to, z: z.to },
        columns,
        rows,
        values: field.filled(),
        holds: field.filled((p) => (p.holds ? 1 : 0)),
      },
      best,
      done,
      took: { first: state.took.first ?? now, all: done >= 1 ? (state.took.all ?? now) : undefined },
    });
  }

  #change(state: Mapped | undefined): void {
    this.#state = state;
    for (const tell of this.#watchers) tell();
  }
}
