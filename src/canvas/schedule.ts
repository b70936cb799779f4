/**
 * Gathers any number of calls into one: `ask()` runs `draw` once, after the present task and within the same picture, so
 * that scene, bands and strips all show the same frame. `stop()` calls off what is still asked for.
 */
export function coalesce(draw: () => void): { ask(): void; stop(): void } {
  let asked = false;
  let stopped = false;
  return {
    ask() {
      if (asked || stopped) return;
      asked = true;
      queueMicrotask(() => {
        asked = false;
        if (!stopped) draw();
      });
    },
    stop() {
      stopped = true;
    },
  };
}
