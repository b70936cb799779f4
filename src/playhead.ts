/**
 * The frame that is shown. It changes up to 60 times a second and is nobody's document, so it is not in a store.
 * Fractions are allowed while playing slowly; `frame` is always a whole frame.
 */
export class Playhead {
  #frame = 0;
  readonly #watchers = new Set<(frame: number) => void>();

  get frame(): number {
    return this.#frame;
  }

  show(frame: number): void {
    const whole = Math.max(0, Math.round(frame));
    if (whole === this.#frame) return;
    this.#frame = whole;
    for (const tell of this.#watchers) tell(whole);
  }

  /** Calls `tell` after every change; returns the way to stop. */
  watch(tell: (frame: number) => void): () => void {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  }
}
