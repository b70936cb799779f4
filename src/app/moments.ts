import { column, type Recording, type RunEvent } from '../../shared/recording.ts';

/** An event with the frame that shows it. */
export interface EventFrame {
  readonly event: RunEvent;
  readonly frame: number;
}

type Even = Pick<Recording, 'rate' | 'frames'>;
type Reel = (Even & Pick<Recording, 'events'> & { readonly mode?: 'drive' }) | Recording;

/** Times of the frames of a crawl, s: they are as far apart as its stations. Undefined where frames are even. */
export function timesOf(recording: Reel | Even): Float64Array | undefined {
  return 'mode' in recording && recording.mode === 'crawl' ? column(recording, 'time') : undefined;
}

/** Index of the first of ascending times at or after a time; their number when there is none. */
function firstFrom(times: Float64Array, time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] as number) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The frame in which an event has just happened: the first one at or after its time, the last one at the end. */
export function frameOf(reel: Reel | Even, time: number): number {
  const { rate, frames } = reel;
  const times = timesOf(reel);
  if (times !== undefined) return Math.max(0, Math.min(frames - 1, firstFrom(times, time - 1e-9)));
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
