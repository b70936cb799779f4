import type { Pose } from '../../shared/geometry/vec.ts';
import type { View } from './camera.ts';

/** What the picture shows at this moment: how the world lies on it, and where the vehicle's bodies are. */
export interface Seen {
  readonly view: View;
  readonly frame: number;
  /** World poses of all bodies of the run on show. */
  readonly poses: readonly Pose[];
}

/**
 * What is to be seen of the picture from outside, for what lies over it. It changes with every frame and is nobody's
 * document, so it is not in a store. Undefined until something has been drawn.
 */
export class Sight {
  #now: Seen | undefined;
  readonly #watchers = new Set<(seen: Seen | undefined) => void>();

  get now(): Seen | undefined {
    return this.#now;
  }

  show(seen: Seen | undefined): void {
    this.#now = seen;
    for (const tell of this.#watchers) tell(seen);
  }

  /** Calls `tell` with every drawn frame; returns the way to stop. */
  watch(tell: (seen: Seen | undefined) => void): () => void {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  }
}
