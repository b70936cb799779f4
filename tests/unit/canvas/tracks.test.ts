import { describe, expect, it } from 'vitest';
import { column, columnHeads, type Recording, type RunEvent } from '../../../shared/recording.ts';
import { lengthShown } from '../../../src/charts/figures.ts';
import { stripsOf } from '../../../src/charts/strip.ts';
import { framesIn, tableOf } from '../../../src/charts/table.ts';
import { frameAt, timeSpan, tracksOf } from '../../../src/charts/tracks.ts';
import { bandsInWords, extremes } from '../../../src/charts/words.ts';

/** Nothing of anything. */
const none = { bodies: [], wheels: [], members: [], elements: [], joints: [], rods: [], beams: [] };

/** An invented run: two wheels 0.4 m apart roll from 1 m to 3 m in `frames` frames at 100 a second. */
function invented(frames = 201, events: RunEvent[] = []): Recording {
  const names = { ...none, bodies: ['chassis'], wheels: ['rear', 'front'] };
  const columns = columnHeads(names);
  const recording: Recording = {
    ...names,
    mode: 'drive',
    frames,
    rate: 100,
    substep: 0.001,
    substepSays: 'invented',
    block: new Float64Array(frames * columns.length),
    columns,
    standing: {
      poses: [],
      loads: [10, 20],
      travels: [0, 0],
      station: 1,
      pitch: 0,
      motions: [],
      stored: 0,
      residual: 0,
    },
    events,
    end: { kind: 'arrived', time: 2, station: 3 },
  };
  for (let i = 0; i < frames; i++) {
    const station = 1 + (2 * i) / Math.max(1, frames - 1);
    column(recording, 'time')[i] = i / 100;
    column(recording, 'station')[i] = station;
    column(recording, 'wheelStation', 0)[i] = station - 0.4;
    column(recording, 'wheelStation', 1)[i] = station;
    column(recording, 'load', 0)[i] = 10;
    column(recording, 'load', 1)[i] = i === 50 ? 2 : 20;
  }
  return recording;
}

const lift = (time: number, at: number): RunEvent => ({
  kind: 'lift-off',
  time,
  station: at + 0.4,
  wheel: 'rear',
  wheelStation: at,
});
const down = (time: number, at: number): RunEvent => ({
  kind: 'touch-down',
  time,
  station: at + 0.4,
  wheel: 'rear',
  wheelStation: at,
  duration: 0.1,
  height: 0.003,
});

describe('tracks of a run', () => {
  it('list the wheels from the front, whatever their order in the recording', () => {
    expect(tracksOf(invented(), [2, 1]).wheels.map((w) => w.name)).toEqual(['front', 'rear']);
  });

  it('pair each lift-off with its touch-down, for the right wheel', () => {
    const tracks = tracksOf(invented(201, [lift(0.5, 1.1), down(0.6, 1.2)]), [2, 1]);
    expect(tracks.wheels[0]?.lifts).toEqual([]);
    expect(tracks.wheels[1]?.lifts).toEqual([
      { time: { from: 0.5, to: 0.6 }, station: { from: 1.1, to: 1.2 }, height: 0.003 },
    ]);
  });

  it('let a wheel that never comes down hang to the end, and one that hung from the start begin before its touch-down', () => {
    const [, hanging] = tracksOf(invented(201, [lift(1.5, 2.1)]), [2, 1]).wheels;
    expect(hanging?.lifts[0]?.time).toEqual({ from: 1.5, to: 2 });
    expect(hanging?.lifts[0]?.station.to).toBeCloseTo(2.6, 9);
    const [, hung] = tracksOf(invented(201, [down(0.3, 0.9)]), [2, 1]).wheels;
    expect(hung?.lifts[0]?.time.from).toBeCloseTo(0.2, 9);
  });
});

describe('the frame at a station', () => {
  it('is the one in which it is first reached', () => {
    expect(frameAt(Float64Array.from([0, 1, 2, 1, 2, 3]), 2)).toBe(2);
    expect(frameAt(Float64Array.from([0, 1, 2, 1, 2, 3]), 1.4)).toBe(1);
  });

  it('is the nearest one where it is never reached, and none without frames', () => {
    expect(frameAt(Float64Array.from([0, 1, 2]), 9)).toBe(2);
    expect(frameAt(Float64Array.from([3, 2.5, 4]), -9)).toBe(1);
    expect(frameAt(new Float64Array(), 1)).toBe(-1);
  });
});

describe('the stretch of time of a window', () => {
  const tracks = tracksOf(invented(), [2, 1]);

  it('is that in which the vehicle is in the window', () => {
    const span = timeSpan(tracks, { from: 1.5, to: 2 });
    expect(span.from).toBeCloseTo(0.5, 9);
    expect(span.to).toBeCloseTo(1, 9);
  });

  it('is the whole run for the whole ground', () => {
    expect(timeSpan(tracks, { from: -1, to: 9 })).toEqual({ from: 0, to: 2 });
  });

  it('lies round the nearest moment when the vehicle is never there', () => {
    expect(timeSpan(tracks, { from: 7, to: 9 })).toEqual({ from: 1.5, to: 2.5 });
  });

  it('is never empty, also for one frame or none', () => {
    for (const frames of [0, 1]) {
      const span = timeSpan(tracksOf(invented(frames), [2, 1]), { from: 0, to: 9 });
      expect(span.to).toBeGreaterThan(span.from);
    }
  });
});

describe('the table of the strips', () => {
  const tracks = tracksOf(invented(1001), [2, 1]);
  const strips = stripsOf(tracks, null, 0.05);

  it('has at most 200 rows of the window, first and last among them', () => {
    const frames = framesIn(tracks, { from: 1.2, to: 2.8 });
    expect(frames).toHaveLength(200);
    expect(tracks.station[frames[0] as number]).toBeCloseTo(1.2, 2);
    expect(tracks.station[frames[199] as number]).toBeCloseTo(2.8, 2);
    expect(new Set(frames).size).toBe(200);
  });

  it('names each column with its unit and holds the figures of its frame', () => {
    const table = tableOf(tracks, strips, { from: 0, to: 1.001 }, lengthShown(0.05));
    expect(table.heads).toEqual([
      'time, s',
      'station, mm',
      'load front, N',
      'load rear, N',
      'travel front, mm',
      'travel rear, mm',
      'pitch chassis, °',
    ]);
    expect(table.rows[0]?.cells).toEqual(['0.000', '1000.0', '20.0', '10.0', '0.0', '0.0', '0.0']);
  });
});

describe('words for those who do not see the picture', () => {
  it('say how light and how heavy each wheel became and where it lifted', () => {
    const tracks = tracksOf(invented(201, [lift(0.5, 1.1), down(0.6, 1.2)]), [2, 1]);
    const words = bandsInWords(tracks, { unit: 'N', factor: 1, decimals: 1 }, lengthShown(0.05));
    expect(words).toContain('front: from 10 % to 100 % of its standing load, always on the ground.');
    expect(words).toContain(
      'rear: from 100 % to 100 % of its standing load, off the ground once, at station 1100 mm.',
    );
  });

  it('know the extremes of a column, and none of an empty one', () => {
    expect(extremes(Float64Array.from([3, -1, 2]))).toEqual({ least: -1, greatest: 3 });
    expect(extremes(new Float64Array()).least).toBeNaN();
  });
});

describe('strips', () => {
  it('hold every value of this run and the one before, and the zero line', () => {
    const strong = invented();
    column(strong, 'load', 1).fill(77);
    const strips = stripsOf(tracksOf(invented(), [2, 1]), tracksOf(strong, [2, 1]), 0.05);
    expect(strips[0]?.range.from).toBe(0);
    expect(strips[0]?.range.to).toBeGreaterThanOrEqual(77);
    expect(strips[0]?.references).toEqual([10, 20]);
  });

  it('have a range also where nothing moves', () => {
    const [, travel] = stripsOf(tracksOf(invented(), [2, 1]), null, 0.05);
    expect((travel?.range.to ?? 0) > (travel?.range.from ?? 0)).toBe(true);
  });

  it('tell the first eight wheels apart by their dashes', () => {
    const names = Array.from({ length: 8 }, (_, i) => `w${i}`);
    const base = invented(2);
    const wide = {
      ...base,
      wheels: names,
      columns: columnHeads({ ...none, bodies: ['chassis'], wheels: names }),
    };
    const block = new Float64Array(2 * wide.columns.length);
    const [loads] = stripsOf(
      tracksOf(
        { ...wide, block },
        names.map((_, i) => i + 1),
      ),
      null,
      0.05,
    );
    expect(new Set(loads?.curves.map((c) => c.dash.join())).size).toBe(8);
  });
});
