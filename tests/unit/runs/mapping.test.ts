import { describe, expect, it } from 'vitest';
import { latticeOf, newColumns, rowsOf } from '../../../sim/studies/lattice.ts';
import { Mapping } from '../../../src/runs/mapping.ts';
import { mapWish } from '../../../src/runs/mapWish.ts';
import type { StudyNews, StudyOrder } from '../../../src/workers/study-protocol.ts';
import { smallTruck } from './truck.ts';

interface Work {
  readonly order: Extract<StudyOrder, { kind: 'map' }>;
  readonly tell: (news: StudyNews) => void;
  ended: boolean;
}

/** A map whose workers and clock are moved by hand. */
function byHand(workers = 2) {
  const works: Work[] = [];
  const waits: (() => void)[] = [];
  let now = 0;
  const begin = (order: StudyOrder, tell: (news: StudyNews) => void) => {
    const work: Work = { order: order as Work['order'], tell, ended: false };
    works.push(work);
    return () => {
      work.ended = true;
    };
  };
  const mapping = new Mapping({
    pool: { begin, warm: () => undefined },
    workers,
    now: () => now,
    later: (_, then) => {
      waits.push(then);
      return () => waits.splice(waits.indexOf(then) >>> 0, 1);
    },
  });
  const { scenario, pivot } = smallTruck();
  const ask = (measure = 'leastLoadShare') => {
    const wish = mapWish(scenario, { name: pivot, kind: 'pivot' }, measure);
    if (wish === undefined) throw new Error('the truck has no such pivot');
    mapping.ask({ document: scenario, ...wish });
  };
  /** Lets a worker tell all rows of its part on one level; values grow with column and row. */
  const tellLevel = (work: Work, level: number) => {
    const { columns, rows, part } = work.order;
    const lattice = latticeOf(columns, rows);
    for (const next of rowsOf(lattice, part)) {
      if (next.level !== level) continue;
      now += 1;
      const points = newColumns(lattice, level, next.row).map((column) => ({
        column,
        row: next.row,
        x: column,
        z: next.row,
        value: column + next.row,
        holds: true,
        fails: [],
        off: 0,
      }));
      work.tell({ kind: 'tile', tile: { level, row: next.row, points } });
    }
  };
  const levels = (work: Work) => latticeOf(work.order.columns, work.order.rows).strides.length;
  return { mapping, works, waits, ask, tellLevel, levels };
}

describe('a map', () => {
  it('is parted among all workers, and first seen when its coarsest level is whole', () => {
    const { mapping, works, ask, tellLevel } = byHand();
    ask();
    expect(works.map(({ order }) => order.part)).toEqual([
      { part: 0, of: 2 },
      { part: 1, of: 2 },
    ]);
    tellLevel(works[0] as Work, 0);
    expect(mapping.state()?.tile).toBeUndefined();
    tellLevel(works[1] as Work, 0);
    const { tile, done, best } = mapping.state() ?? {};
    expect(tile?.values).toHaveLength(60 * 40);
    expect(Array.from(tile?.values ?? []).every(Number.isFinite)).toBe(true);
    expect(done).toBeLessThan(0.1);
    expect(best?.value).toBe(59 + 39);
  });

  it('is whole when all workers are through, with the time that took', () => {
    const { mapping, works, ask, tellLevel, levels } = byHand();
    ask();
    for (const work of works) for (let level = 0; level < levels(work); level += 1) tellLevel(work, level);
    for (const { tell } of works) tell({ kind: 'mapped' });
    expect(mapping.state()?.done).toBe(1);
    expect(mapping.state()?.took.all).toBeGreaterThan(0);
  });

  it('is called off by the next one, whose news alone count', () => {
    const { mapping, works, ask, tellLevel } = byHand(1);
    ask();
    ask('greatestLoadShare');
    expect(works.map(({ ended }) => ended)).toEqual([true, false]);
    expect(mapping.state()?.measure).toBe('greatestLoadShare');
    tellLevel(works[1] as Work, 0);
    expect(mapping.state()?.tile).toBeDefined();
    mapping.clear();
    expect(works[1]?.ended).toBe(true);
    expect(mapping.state()).toBeUndefined();
  });

  it('says why it cannot be drawn', () => {
    const { mapping, works, ask } = byHand(1);
    ask();
    works[0]?.tell({ kind: 'failed', message: 'no network' });
    expect(mapping.state()?.failed).toBe('no network');
  });
});
