/* Seen red: a row dealt to two parts; the last column left out; equal points not told apart. */
import { describe, expect, it } from 'vitest';
import { latticeOf, newColumns, reached, rowsOf } from '../../../sim/studies/lattice.ts';
import { Field, type MapAsk, type MapPoint, mapOver, valueAt } from '../../../sim/studies/map.ts';
import { pivotNamed } from '../../../sim/studies/pivots.ts';
import { pivotPlane } from '../../../sim/studies/planes.ts';
import { shipped } from './shipped.ts';

describe('the nodes of a map', () => {
  it.each([
    [60, 40],
    [24, 16],
    [9, 2],
    [2, 2],
    [33, 100],
  ])('of %i by %i belong to one level each, whoever works on them', (columns, rows) => {
    const lattice = latticeOf(columns, rows);
    for (const of of [1, 2, 3]) {
      const seen = new Set<number>();
      for (let part = 0; part < of; part++)
        for (const { level, row } of rowsOf(lattice, { part, of }))
          for (const column of newColumns(lattice, level, row)) {
            expect(seen.has(row * columns + column)).toBe(false);
            seen.add(row * columns + column);
          }
      expect(seen.size).toBe(columns * rows);
    }
  });

  it('begin with a few that reach from corner to corner', () => {
    const lattice = latticeOf(60, 40);
    expect(lattice.strides).toEqual([16, 8, 4, 2, 1]);
    expect(reached(60, 16)).toEqual([0, 16, 32, 48, 59]);
    const first = [...rowsOf(lattice, { part: 0, of: 1 })].filter(({ level }) => level === 0);
    expect(first.map(({ row }) => row)).toEqual([0, 16, 32, 39]);
  });

  it.each([
    [1, 5],
    [5, 1],
    [2.5, 5],
    [5, 1e6],
  ])('are refused as %d by %d', (columns, rows) => {
    expect(() => latticeOf(columns, rows)).toThrow(RangeError);
  });
});

/** A point of an invented field. */
const point = (column: number, row: number, more: Partial<MapPoint>): MapPoint => ({
  column,
  row,
  x: column,
  z: row,
  value: 0,
  holds: false,
  fails: [],
  off: 0,
  ...more,
});

const sides = (columns: number, rows: number): Pick<MapAsk, 'x' | 'z'> => {
  const knob = { name: 'k', dimension: 'length', unit: 'm', now: 0, moves: [] } as const;
  const side = (steps: number) => ({ knob, from: 0, to: steps - 1, steps });
  return { x: side(columns), z: side(rows) };
};

describe('a field that comes in', () => {
  const ask = sides(17, 9);
  const lattice = latticeOf(17, 9);

  it('is nothing before its first level, and straight lines between its points after it', () => {
    const field = new Field(ask);
    expect(field.level).toBe(-1);
    expect([...field.filled()].every(Number.isNaN)).toBe(true);
    for (const { level, row } of rowsOf(lattice, { part: 0, of: 1 })) {
      if (level > 0) break;
      const points = newColumns(lattice, level, row).map((column) =>
        point(column, row, { value: 3 * column - 2 * row }),
      );
      field.add({ level, row, points });
    }
    expect(field.level).toBe(0);
    const filled = field.filled();
    filled.forEach((value, i) => {
      expect(value).toBeCloseTo(3 * (i % 17) - 2 * Math.floor(i / 17), 12);
    });
  });

  it('takes the nearest point where one of four has no value', () => {
    const field = new Field(sides(9, 9));
    const first = latticeOf(9, 9);
    for (const { level, row } of rowsOf(first, { part: 0, of: 1 })) {
      if (level > 0) break;
      const points = newColumns(first, level, row).map((column) =>
        point(column, row, { value: column === 0 && row === 0 ? null : 5 }),
      );
      field.add({ level, row, points });
    }
    expect(field.strides).toEqual([4, 2, 1]);
    const filled = field.filled();
    expect(filled[0]).toBeNaN();
    expect(filled[9 + 1]).toBeNaN();
    expect(filled[3 * 9 + 3]).toBe(5);
    expect(filled[3]).toBe(5);
  });

  it('is best where criteria hold, then by value, then by the time off the ground, then near today', () => {
    const bestOf = (points: readonly MapPoint[], better: 'more' | 'less' = 'more') => {
      const field = new Field(sides(5, 5));
      field.add({ level: 0, row: 0, points });
      return field.best(better)?.column;
    };
    const a = (column: number, more: Partial<MapPoint>) => point(column, 0, more);
    expect(bestOf([a(0, { value: 0.5 }), a(1, { value: 0.2, holds: true })])).toBe(1);
    expect(bestOf([a(0, { value: 0.5 }), a(1, { value: 0.2 })])).toBe(0);
    expect(bestOf([a(0, { value: 0.5 }), a(1, { value: 0.2 })], 'less')).toBe(1);
    expect(bestOf([a(0, { off: 0.3 }), a(1, { off: 0.1 }), a(4, { off: 0.2 })])).toBe(1);
    expect(bestOf([a(0, {}), a(3, {}), a(4, {})])).toBe(3);
    expect(bestOf([a(0, { value: null }), a(1, { value: -1 })])).toBe(1);
    expect(bestOf([a(0, { value: null })])).toBeUndefined();
  });
});

describe('a map of the pivot of a bogie', () => {
  const scenario = shipped('scree-6');
  const pivot = pivotNamed(scenario, 'bogie');
  if (pivot === undefined) throw new Error('no pivot');
  const plane = pivotPlane(scenario, pivot);
  const ask: MapAsk = {
    scenario,
    stations: 20,
    x: { ...plane.x, from: -0.3, to: -0.2, steps: 5 },
    z: { ...plane.z, steps: 3 },
  };
  const whole = new Field(ask);
  for (const tile of mapOver(ask)) whole.add(tile);

  it('has the same numbers in parts as in one', () => {
    const parts = new Field(ask);
    for (const part of [2, 0, 1]) for (const tile of mapOver(ask, { part, of: 3 })) parts.add(tile);
    expect(parts.points).toEqual(whole.points);
    expect(parts.points.length).toBe(15);
  });

  it('says of a place outside the beam why there is no answer, and answers elsewhere', () => {
    // the wheels of the beam are at −165 and −285 mm
    for (const p of whole.points) {
      if (p.x < -0.285) {
        expect(p.value).toBeNull();
        expect(p.why).toMatch(/outside/);
        expect(p.holds).toBe(false);
      } else expect(p.value).toEqual(expect.any(Number));
    }
    expect(whole.point(0, 1)?.x).toBe(-0.3);
    expect(valueAt(ask.x, 4)).toBeCloseTo(-0.2, 12);
  });
});
