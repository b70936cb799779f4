import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { layGround, loadScenario } from '../../../sim/index.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { chainKinds, freshRow, layChain, outlined, readRow } from '../../../src/groundwork/chain.ts';
import {
  fits,
  guessOf,
  layProfile,
  pieceFrom,
  readProfile,
  sizeInWords,
  toleranceFor,
} from '../../../src/groundwork/profile.ts';
import { layStroke, simplifiedStroke, steepWords, strokeOf } from '../../../src/groundwork/stroke.ts';
import { smallTruck } from '../small-truck.ts';

function laid(document: Json) {
  const scenario = loadScenario(document);
  if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems));
  return layGround(scenario.value);
}

const auto = { separator: 'auto', decimal: 'auto' } as const;

/** A hand's line over a bump, from `from` to `to` m, with a tremble of `tremble` m. */
const hand = (from: number, to: number, tremble = 0): Vec2[] =>
  Array.from({ length: 201 }, (_, i) => ({
    x: from + ((to - from) * i) / 200,
    z: 0.03 * Math.sin((Math.PI * i) / 200) ** 2 + tremble * ((i % 2) - 0.5),
  }));

describe('A line drawn by hand', () => {
  test('becomes a piece of few points that stays within the tolerance', () => {
    const { line, words } = strokeOf(hand(2, 3, 0.0005), 0.05);
    expect(words).toEqual([]);
    const few = simplifiedStroke(line, 0.002);
    expect(few.length).toBeLessThan(20);
    expect(few.length).toBeGreaterThan(4);
    expect(simplifiedStroke(line, 0.0002).length).toBeGreaterThan(few.length);
  });

  test('from right to left is turned round, with a word', () => {
    const { line, words } = strokeOf(hand(3, 2), 0.05);
    expect(line[0]?.x).toBe(2);
    expect(line.at(-1)?.x).toBe(3);
    expect(words.join()).toContain('turned round');
  });

  test('that goes back in places leads forward all the same, with a word that says how far', () => {
    const back = [...hand(2, 2.5), ...hand(2.5, 2.3).slice(1), ...hand(2.3, 3).slice(1)];
    const { line, words } = strokeOf(back, 0.05);
    for (let i = 1; i < line.length; i++)
      expect((line[i] as Vec2).x).toBeGreaterThanOrEqual((line[i - 1] as Vec2).x);
    expect(words[0]).toContain('went back by 200 mm');
  });

  test('that stands upright is told, and more so where it is higher than a wheel', () => {
    const wall = [
      { x: 0, z: 0 },
      { x: 0.3, z: 0 },
      { x: 0.3, z: 0.08 },
      { x: 0.6, z: 0.08 },
    ];
    expect(steepWords(wall, 0.05)).toEqual([
      "It stands upright at station 300 mm of the piece. The face is 80 mm high, more than a wheel's radius of 50 mm.",
    ]);
    expect(steepWords(wall, 0.1)).toEqual(['It stands upright at station 300 mm of the piece.']);
    expect(steepWords(hand(0, 1), 0.05)).toEqual([]);
  });

  test('goes to the end, behind a piece or in place of one, as one edit', () => {
    const document = smallTruck();
    const kinds = (after: Json) => (valueAt(after, ['ground']) as { kind: string }[]).map(({ kind }) => kind);
    const line = hand(0, 1);
    const end = layStroke(document, line, 0.001, { kind: 'end' });
    expect(kinds(end.document)).toEqual(['flat', 'step', 'table']);
    const behind = layStroke(document, line, 0.001, { kind: 'behind', piece: ['ground', 0] });
    expect(kinds(behind.document)).toEqual(['flat', 'table', 'step']);
    expect(behind.select).toEqual(['ground', 1]);
    const instead = layStroke(document, line, 0.001, { kind: 'instead', piece: ['ground', 1] });
    expect(kinds(instead.document)).toEqual(['flat', 'table']);
    const none = layStroke(
      document,
      [
        { x: 1, z: 0 },
        { x: 1, z: 1 },
      ],
      0.001,
      { kind: 'end' },
    );
    expect(none.document).toBe(document);
    expect(none.remarks[0]?.message).toContain('leads forward');
  });
});

describe('A chain of obstacles', () => {
  const document = smallTruck();
  const kinds = chainKinds(document);

  test('can be made of every kind that has figures, with sizes that suit the vehicle', () => {
    expect(kinds.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['step', 'ramp', 'trench', 'v-ditch', 'logs', 'bumps', 'washboard', 'rough']),
    );
    expect(kinds.map(({ kind }) => kind)).not.toContain('csv');
    expect(kinds.map(({ kind }) => kind)).not.toContain('table');
    const step = kinds.find(({ kind }) => kind === 'step');
    expect(step?.sizes.map(({ key }) => key)).toEqual(['height', 'length']);
  });

  test('keeps sizes and gaps as they are typed, in order', () => {
    const rows = [
      { ...freshRow(1), typed: { height: '1/2 in', length: '300 mm' }, gap: '25 cm' },
      { ...freshRow(2, 'ramp'), typed: { angle: '12 deg' }, gap: '0' },
      freshRow(3, 'v-ditch'),
    ].map((row) => readRow(row, kinds));
    expect(rows.flatMap(({ wrong }) => Object.keys(wrong))).toEqual([]);
    const { document: after, says } = layChain(document, rows, 'instead');
    const ground = valueAt(after, ['ground']) as { kind: string; [key: string]: Json }[];
    expect(says).toBe('chain obstacles');
    expect(ground.map(({ kind }) => kind)).toEqual(['flat', 'step', 'flat', 'ramp', 'v-ditch', 'flat']);
    const scenario = loadScenario(after);
    if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems));
    const [, step, gap, ramp] = scenario.value.ground as unknown as Record<string, number>[];
    expect(step?.height).toBeCloseTo(0.0127, 9);
    expect(step?.length).toBeCloseTo(0.3, 9);
    expect(gap?.length).toBeCloseTo(0.25, 9);
    expect(ramp?.angle).toBeCloseTo((12 * Math.PI) / 180, 9);
  });

  test('goes behind the ground that is there, if that is wanted', () => {
    const { document: after, select } = layChain(document, [readRow(freshRow(1), kinds)], 'behind');
    const ground = valueAt(after, ['ground']) as { kind: string }[];
    expect(ground.map(({ kind }) => kind)).toEqual(['flat', 'step', 'step', 'flat']);
    expect(select).toEqual(['ground', 2]);
    expect(loadScenario(after).ok).toBe(true);
  });

  test('says what is wrong with a size or a gap', () => {
    const { wrong } = readRow({ ...freshRow(1), typed: { height: '3 kg' }, gap: '-1 mm' }, kinds);
    expect(wrong.height).toMatch(/length|kg/);
    expect(wrong.gap).toContain('shorter than nothing');
  });
});

describe('A profile from a file', () => {
  const rtk = 'dist [m];elevation [cm]\n0;12,5\n0,5;13\n1;11,25\n';

  test('tells its separator, decimal sign, columns and units by itself', () => {
    const { choice, columns, header, separator, decimal, told } = guessOf(rtk, auto);
    expect({ columns, header, separator, decimal }).toEqual({
      columns: ['dist [m]', 'elevation [cm]'],
      header: true,
      separator: ';',
      decimal: ',',
    });
    expect(choice).toMatchObject({ stationColumn: 1, heightColumn: 2, stationUnit: 'm', heightUnit: 'cm' });
    expect(told).toEqual({ station: true, height: true });
    const { points, failed } = readProfile(rtk, choice);
    expect(failed).toBe(false);
    expect(points[1]?.x).toBeCloseTo(0.5, 12);
    expect(points[1]?.z).toBeCloseTo(0.005, 12);
  });

  test('may have its columns the other way round, and others between', () => {
    const { choice, columns } = guessOf('height,quality,station\n1,a,0\n2,b,10\n', auto);
    expect(columns).toHaveLength(3);
    expect(choice).toMatchObject({ stationColumn: 3, heightColumn: 1, stationUnit: 'mm' });
    // Inches are 25.4 mm by the international agreement of 1959.
    const { points } = readProfile('height,quality,station\n1,a,0\n2,b,10\n', {
      ...choice,
      stationUnit: 'in',
      heightUnit: 'ft',
    });
    expect(points[1]).toEqual({ x: expect.closeTo(0.254, 12), z: expect.closeTo(0.3048, 12) });
  });

  test('names its problems by line', () => {
    const text = 'station,height\n0,0\n100,five\n50,3\n,4\n';
    const { choice } = guessOf(text, auto);
    const { problems, failed } = readProfile(text, choice);
    expect(failed).toBe(true);
    expect(problems.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['text, line 3', 'text, line 5']),
    );
    const back = readProfile('0,0\n100,1\n50,3\n', guessOf('0,0\n100,1\n50,3\n', auto).choice);
    expect(back.problems[0]?.path).toBe('text, line 3');
    expect(back.problems[0]?.message).toContain('goes back from 100 to 50');
  });

  test('of 2,000 points becomes points that can be moved; the document can be driven on', () => {
    const points = Array.from({ length: 2000 }, (_, i) => ({ x: i * 0.01, z: 0.01 * Math.sin(i / 20) }));
    expect(fits(points.length, 'points')).toBe(true);
    expect(fits(points.length + 1, 'points')).toBe(false);
    const { document, select } = layProfile(smallTruck(), pieceFrom(points, 'points', 'road'));
    expect(select).toEqual(['ground', 2]);
    const ground = laid(document);
    expect('count' in ground && ground.count).toBeGreaterThan(2000);
  });

  test('of 100,000 points is kept as text, and thinned out to within the tolerance that is stated', () => {
    const lines = Array.from(
      { length: 100_000 },
      (_, i) => `${i},${(8 * Math.sin(i / 400) + 0.01 * (i % 3)).toFixed(3)}`,
    );
    const text = lines.join('\n');
    const { choice } = guessOf(text, auto);
    const { points, failed } = readProfile(text, choice);
    expect(failed).toBe(false);
    expect(points).toHaveLength(100_000);
    expect(fits(points.length, 'text')).toBe(true);
    const tolerance = toleranceFor(points, 2000, 1e-5);
    const few = simplifiedStroke(points, tolerance);
    expect(few.length).toBeLessThanOrEqual(2000);
    expect(few.length).toBeGreaterThan(100);
    // 0.03 mm of noise lie within it, the waves of 8 mm do not.
    expect(tolerance).toBeLessThan(0.001);
    expect(loadScenario(layProfile(smallTruck(), pieceFrom(points, 'text', '')).document).ok).toBe(true);
  });

  test('that is longer than any ground may be is still checked line by line', () => {
    const lines = Array.from({ length: 200_002 }, (_, i) => `${i === 150_000 ? 3 : i},0`);
    const { problems } = readProfile(lines.join('\n'), guessOf('0,0\n1,0', auto).choice);
    expect(problems[0]?.path).toBe('text, line 150001');
  });

  test('is described by its size', () => {
    expect(
      sizeInWords([
        { x: 0, z: 0 },
        { x: 1.5, z: -0.02 },
        { x: 3, z: 0.04 },
      ]),
    ).toBe('3 points, 3 m long, 60 mm from lowest to highest');
  });
});

describe('A small picture of a long line', () => {
  test('keeps its ends, its highest and its lowest point', () => {
    const points = Array.from({ length: 50_000 }, (_, i) => ({
      x: i,
      z: i === 31_234 ? 9 : i === 7 ? -4 : 0,
    }));
    const line = outlined(points, 300);
    expect(line.length).toBeLessThan(700);
    expect(Math.max(...line.map(({ z }) => z))).toBe(9);
    expect(Math.min(...line.map(({ z }) => z))).toBe(-4);
    expect(line[0]).toEqual(points[0]);
    expect(line.at(-1)).toEqual(points.at(-1));
  });
});
