import type { Step } from './try-all.ts';

/** Says how far a study is and how long it still takes, by what it took so far. */
export class Pace {
  readonly #now: () => number;
  #what = '';
  #since = 0;
  #computed = 0;

  /** @param now clock, ms */
  constructor(now: () => number) {
    this.#now = now;
  }

  /** One line: 'trying designs  312 of 2000, 2 min left'. Designs from a journal take no time and tell nothing of it. */
  line({ what, done, all, now }: Step): string {
    if (what !== this.#what) [this.#what, this.#since, this.#computed] = [what, this.#now(), 0];
    if (now) this.#computed += 1;
    const spent = this.#now() - this.#since;
    const left = this.#computed < 3 ? undefined : ((all - done) * spent) / this.#computed;
    return `${what}  ${done} of ${all}${left === undefined || left < 1000 ? '' : `, ${timeWords(left)} left`}`;
  }
}

/** '40 s', '3 min', '2 h 10 min'. */
function timeWords(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  if (seconds < 90) return `${seconds} s`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 90 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
