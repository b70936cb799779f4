import { describe, expect, it } from 'vitest';
import type { Recording, RunEvent } from '../../../shared/recording.ts';
import { eventAfter, eventBefore, frameOf } from '../../../src/app/moments.ts';

const at = (time: number): RunEvent => ({ kind: 'body-touch', time, station: time });
const reel = { frames: 100, rate: 10, events: [at(0.1), at(0.25), at(0.25), at(3 * 0.1), at(99)] };

describe('the frame of an event', () => {
  it('is the first one at which it has happened', () => {
    expect(frameOf(reel, 0.25)).toBe(3);
    expect(frameOf(reel, 0.2)).toBe(2);
    // 3 · 0.1 is a hair above 0.3.
    expect(frameOf(reel, 3 * 0.1)).toBe(3);
    expect(frameOf(reel, 99)).toBe(99);
    expect(frameOf(reel, -1)).toBe(0);
  });

  it('leads from event to event, forth and back, without standing still at one', () => {
    expect(eventAfter(reel, 0)?.frame).toBe(1);
    expect(eventAfter(reel, 1)?.frame).toBe(3);
    expect(eventAfter(reel, 3)?.frame).toBe(99);
    expect(eventAfter(reel, 99)).toBeUndefined();
    expect(eventBefore(reel, 99)?.frame).toBe(3);
    expect(eventBefore(reel, 3)?.frame).toBe(1);
    expect(eventBefore(reel, 1)).toBeUndefined();
  });

  it('is looked up by its time where stations are unevenly spaced', () => {
    const columns = [{ channel: 'time', index: 0, of: 'run' }] as const;
    const block = Float64Array.of(0, 0.1, 0.15, 0.16, 2);
    const crawl = { mode: 'crawl', frames: 5, rate: 2, columns, block } as unknown as Recording;
    expect(frameOf(crawl, 0.15)).toBe(2);
    expect(frameOf(crawl, 0.155)).toBe(3);
    expect(frameOf(crawl, 0.5)).toBe(4);
    expect(frameOf(crawl, 9)).toBe(4);
    expect(frameOf(crawl, -1)).toBe(0);
  });
});
