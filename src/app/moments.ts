import type { Recording, RunEvent } from '../../shared/recording.ts';

/** An event with the frame that shows it. */
export interface EventFrame {
  readonly event: RunEvent;
  readonly frame: number;
}

type Reel = Pick<Recording, 'events' | 'rate' | 'frames'>;

/** The frame in which an event has just happened: the first one at or after its time, the last one at the end. */
export function frameOf({ rate, frames }: Omit<Reel, 'events'>, time: number): number {
  // An event on a frame belongs to it: times are sums of substeps, so they miss it by rounding.
  return Math.max(0, Math.min(frames - 1, Math.ceil(time * rate - 1e-6)));
}

/** The first event whose frame comes after this one. */
export function eventAfter(reel: Reel, frame: number): EventFrame | undefined {
  for (const event of reel.events) {
    const at = frameOf(reel, event.time);
    if (at > frame) return { event, frame: at };
  }
  return undefined;
}

/** The last event whose frame comes before this one. */
export function eventBefore(reel: Reel, frame: number): EventFrame | undefined {
  let found: EventFrame | undefined;
  for (const event of reel.events) {
    const at = frameOf(reel, event.time);
    if (at >= frame) break;
    found = { event, frame: at };
  }
  return found;
}
