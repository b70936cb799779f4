import { describe, expect, it } from 'vitest';
import { flights, longestOf, shareOfTime } from '../../../sim/report/flights.ts';
import { hop, recordingOf, truck } from './fixture.ts';

describe('flights', () => {
  it('finds none in a run without lift-offs', () => {
    expect(flights(recordingOf(truck()))).toEqual([]);
  });

  it('takes lift-off and touch-down from the events, not from frames', () => {
    // 2 ms lie between two frames of 1/240 s: no frame sees them.
    const [flight] = flights(recordingOf(truck(), { events: hop('middle', 0.4251, 0.002, -0.065) }));
    expect(flight).toMatchObject({ wheel: 1, from: 0.4251, duration: 0.002, open: false });
    expect(flight?.wheelStation).toBeCloseTo(0.5 * 0.4251 - 0.065, 12);
  });

  it('counts a wheel that never comes down until the end of the run', () => {
    const recording = recordingOf(truck(), {
      events: hop('rear', 0.25, 9).slice(0, 1),
      end: { kind: 'stuck', time: 1, station: 0.5, cause: 'no grip' },
    });
    const [flight] = flights(recording);
    expect(flight).toMatchObject({ wheel: 2, to: 1, duration: 0.75, open: true });
    expect(shareOfTime(recording, 2, flights(recording))).toBe(0.75);
  });

  it('counts a wheel that comes down without having lifted off from the start of the run', () => {
    const events = hop('front', -0.1, 0.3).slice(1);
    expect(flights(recordingOf(truck(), { events }))[0]).toMatchObject({
      wheel: 0,
      from: 0,
      duration: expect.closeTo(0.2, 12),
    });
  });

  it('takes a wheel that hangs over the ground in the first frame and never touches as off for the whole run', () => {
    const recording = recordingOf(truck(), {
      frames: 241,
      fill: { gap: (_, wheel) => (wheel === 0 ? 0.01 : 0) },
    });
    expect(flights(recording)).toEqual([
      { wheel: 0, from: 0, to: 1, duration: 1, station: 0, wheelStation: 0.2, open: true },
    ]);
    expect(shareOfTime(recording, 0, flights(recording))).toBe(1);
  });

  it('keeps the flights of two wheels apart, and several of one', () => {
    const events = [...hop('front', 0.1, 0.05), ...hop('rear', 0.12, 0.02), ...hop('front', 0.5, 0.07)];
    const found = flights(recordingOf(truck(), { events }));
    expect(found.map((f) => [f.wheel, f.duration])).toEqual([
      [0, 0.05],
      [0, 0.07],
      [2, 0.02],
    ]);
    expect(longestOf(found)).toBe(found[1]);
  });

  it('counts from the first of two lift-offs without a touch-down between them', () => {
    const events = [...hop('front', 0.2, 0.1).slice(0, 1), ...hop('front', 0.3, 0.1)];
    expect(flights(recordingOf(truck(), { events }))).toMatchObject([
      { from: 0.2, duration: expect.closeTo(0.2, 12) },
    ]);
  });

  it('gives no share of time for a run that took none', () => {
    expect(shareOfTime(recordingOf(truck(), { frames: 1 }), 0, [])).toBeUndefined();
  });
});
