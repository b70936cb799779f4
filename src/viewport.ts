/** What part of the ground is in sight: stations at the left and right edges of the plotting column, m. */
export interface StationWindow {
  readonly from: number;
  readonly to: number;
}

/**
 * The one ruler: canvas, bands, strips and cursor all take their station axis from here, so that they line up to the
 * pixel. Changes with every pan or zoom and is nobody's document, so it is not in a store.
 */
export class Viewport {
  #window: StationWindow = { from: 0, to: 1 };
  readonly #watchers = new Set<(window: StationWindow) => void>();

  get window(): StationWindow {
    return this.#window;
  }

  show(window: StationWindow): void {
    if (!(window.to > window.from)) return;
    if (window.from === this.#window.from && window.to === this.#window.to) return;
    this.#window = window;
    for (const tell of this.#watchers) tell(window);
  }

  /** Calls `tell` after every change; returns the way to stop. */
  watch(tell: (window: StationWindow) => void): () => void {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  }
}
