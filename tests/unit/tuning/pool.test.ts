/*
 * The pool of workers, with workers of the test's own: real threads that do as they are told.
 * Seen red: work of a dead worker not given to another; what was not begun counted as a death.
 */
import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import { Pool, Stopped, WorkerDied } from '../../../sim/cli/study/pool.ts';

/** Squares numbers; dies of −1 every time, of −2 the first time; never answers to −3. `told`: shared with all workers. */
const script = `
  const { parentPort, workerData } = require('node:worker_threads');
  const died = new Int32Array(workerData);
  parentPort.on('message', ({ id, work }) => {
    if (work === -1) process.exit(1);
    if (work === -2 && Atomics.add(died, 0, 1) === 0) throw new Error('out of breath');
    if (work === -3) return;
    parentPort.postMessage({ id, result: work * work });
  });
`;

let pool: Pool<number, number> | undefined;
let started = 0;
function poolOf(size: number, source = script): Pool<number, number> {
  const died = new SharedArrayBuffer(4);
  started = 0;
  pool = new Pool(size, () => {
    started += 1;
    return new Worker(source, { eval: true, workerData: died, stderr: true });
  });
  return pool;
}
afterEach(() => pool?.close());

describe('a pool', () => {
  it('does all work that it is given, by as many workers as it has', async () => {
    const squares = poolOf(3);
    const numbers = Array.from({ length: 50 }, (_, i) => i);
    expect(await Promise.all(numbers.map((n) => squares.run(n)))).toEqual(numbers.map((n) => n * n));
    expect(started).toBe(3);
  });

  it('gives the work of a worker that died to another, once', async () => {
    const squares = poolOf(1);
    const all = [2, -2, 3, 4].map((n) => squares.run(n));
    expect(await Promise.all(all)).toEqual([4, 4, 9, 16]);
    expect(started).toBe(2);
  });

  it('gives up work that ends its worker twice, and goes on with the rest', async () => {
    const squares = poolOf(2);
    const all = [1, -1, 2, 3].map((n) => squares.run(n));
    const settled = await Promise.allSettled(all);
    expect(settled.map((s) => (s.status === 'fulfilled' ? s.value : s.reason instanceof WorkerDied))).toEqual(
      [1, true, 4, 9],
    );
  });

  it('says why when no worker gives any result', async () => {
    const squares = poolOf(1, "throw new Error('no such file')");
    const settled = await Promise.allSettled([1, 2, 3, 4, 5, 6, 7, 8].map((n) => squares.run(n)));
    const reasons = settled.map((s) => (s.status === 'rejected' ? String(s.reason) : ''));
    expect(reasons.at(-1)).toMatch(/workers end before they give any result: no such file/);
  });

  it('gives back what is not begun when it is stopped, and lets the rest end', async () => {
    const squares = poolOf(1);
    const first = squares.run(5);
    const others = [6, 7].map((n) => squares.run(n));
    squares.drain();
    const settled = await Promise.allSettled(others);
    expect(settled.map((s) => s.status === 'rejected' && s.reason instanceof Stopped)).toEqual([true, true]);
    expect(await first).toBe(25);
    await expect(squares.run(1)).rejects.toBeInstanceOf(Stopped);
  });

  it('closes while work is under way', async () => {
    const squares = poolOf(1);
    const never = squares.run(-3);
    const settled = Promise.allSettled([never]);
    await squares.close();
    expect((await settled)[0]).toMatchObject({ status: 'rejected' });
  });
});
