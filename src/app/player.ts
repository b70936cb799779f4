import type { Playhead } from '../playhead.ts';

/** Where the player gets its ticks from; tests hand in their own. */
export interface Ticks {
  request(then: (now: number) => void): number;
  cancel(id: number): void;
}

/** The reel that is played: number of frames and frames per second of model time. */
export interface Reel {
  readonly frames: number;
  readonly rate: number;
  /** Time of each frame, s, where they are not evenly spaced: played so that time passes evenly. */
  readonly times?: Float64Array | undefined;
}

/** The last frame that has come by a time, s. */
function frameBy(times: Float64Array, time: number): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((times[middle] as number) <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Moves the playhead with the clock on the wall, while playing. */
export class Player {
  readonly #playhead: Playhead;
  readonly #ticks: Ticks;
  readonly #watchers = new Set<() => void>();
  #reel: Reel = { frames: 0, rate: 240 };
  #speed = 1;
  #tick: number | undefined;
  /** The frame with its fraction, so that slow playing does not stand still. */
  #at = 0;
  #last: number | undefined;
  /** Model time of a reel with uneven frames, s. */
  #clock = 0;

  constructor(playhead: Playhead, ticks: Ticks) {
    this.#playhead = playhead;
    this.#ticks = ticks;
    playhead.watch((frame) => {
      if (Math.round(this.#at) !== frame) this.#put(frame);
    });
  }

  readonly playing = (): boolean => this.#tick !== undefined;

  /** Calls `tell` when playing begins or ends; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Last frame of the reel. */
  get last(): number {
    return Math.max(0, this.#reel.frames - 1);
  }

  /** Puts in another reel. The playhead stays at its share of the way when `keep` is set, else goes to the start. */
  load(reel: Reel, frame: number): void {
    this.#reel = reel;
    this.seek(frame);
  }

  /** Model seconds per second on the wall. */
  set speed(speed: number) {
    this.#speed = speed;
  }

  play(): void {
    if (this.playing() || this.last === 0) return;
    if (this.#playhead.frame >= this.last) this.seek(0);
    this.#last = undefined;
    this.#tick = this.#ticks.request(this.#advance);
    this.#tell();
  }

  pause(): void {
    if (this.#tick === undefined) return;
    this.#ticks.cancel(this.#tick);
    this.#tick = undefined;
    this.#tell();
  }

  toggle(): void {
    if (this.playing()) this.pause();
    else this.play();
  }

  /** Shows a frame of the reel; beyond its ends the first or the last one. */
  seek(frame: number): void {
    this.#put(Math.min(Math.max(0, frame), this.last));
    this.#playhead.show(this.#at);
  }

  #put(frame: number): void {
    this.#at = frame;
    this.#clock = this.#reel.times?.[Math.round(frame)] ?? 0;
  }

  /** Goes on by a stretch of model time, s. */
  #pass(time: number): void {
    const { times, rate } = this.#reel;
    if (times === undefined) {
      this.seek(this.#at + time * rate);
      return;
    }
    this.#clock += time;
    this.#at = frameBy(times, this.#clock);
    this.#playhead.show(this.#at);
  }

  /** Moves by frames and stays there. */
  step(frames: number): void {
    this.pause();
    this.seek(this.#playhead.frame + frames);
  }

  readonly #advance = (now: number): void => {
    // A tab that was hidden gets one late tick: it goes on from where it was instead of leaping.
    const passed = this.#last === undefined ? 0 : Math.min((now - this.#last) / 1000, 0.25);
    this.#last = now;
    this.#pass(passed * this.#speed);
    if (this.#at >= this.last) {
      this.#tick = undefined;
      this.#tell();
    } else {
      this.#tick = this.#ticks.request(this.#advance);
    }
  };

  #tell(): void {
    for (const tell of this.#watchers) tell();
  }
}
