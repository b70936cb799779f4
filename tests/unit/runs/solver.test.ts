import { describe, expect, it } from 'vitest';
import type { Answer, Order } from '../../../src/workers/protocol.ts';
import { Solver, type WorkerLike } from '../../../src/workers/solver.ts';

class FakeWorker implements WorkerLike {
  readonly orders: Order[] = [];
  ended = false;
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  postMessage(order: Order): void {
    this.orders.push(order);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(answer: Answer): void {
    this.onmessage?.({ data: answer } as MessageEvent<Answer>);
  }
}

function withWorkers() {
  const workers: FakeWorker[] = [];
  const solver = new Solver(() => {
    const worker = new FakeWorker();
    workers.push(worker);
    return worker;
  });
  return { solver, workers };
}

const nothing = (): void => undefined;

describe('the solver', () => {
  it('starts its worker before there is anything to do, and keeps it from run to run', async () => {
    const { solver, workers } = withWorkers();
    expect(workers).toHaveLength(1);
    for (const ticket of [1, 2]) {
      const outcome = solver.solve('document', nothing);
      workers[0]?.answer({ kind: 'failed', ticket, message: 'x' });
      expect(await outcome).toMatchObject({ kind: 'failed', ticket });
    }
    expect(workers).toHaveLength(1);
  });

  it('hands progress on and ignores answers to an earlier order', async () => {
    const { solver, workers } = withWorkers();
    const shares: number[] = [];
    const outcome = solver.solve('document', ({ share }) => shares.push(share));
    workers[0]?.answer({ kind: 'progress', ticket: 1, progress: { time: 0, station: 0, share: 0.5 } });
    workers[0]?.answer({ kind: 'failed', ticket: 0, message: 'old' });
    workers[0]?.answer({ kind: 'refused', ticket: 1, problems: [] });
    expect(await outcome).toMatchObject({ kind: 'refused' });
    expect(shares).toEqual([0.5]);
  });

  it('ends the worker of a run that is called off and has a fresh one ready', async () => {
    const { solver, workers } = withWorkers();
    const outcome = solver.solve('long', nothing);
    solver.cancel();
    expect(await outcome).toEqual({ kind: 'cancelled' });
    expect(workers.map(({ ended }) => ended)).toEqual([true, false]);
    solver.cancel();
    expect(workers).toHaveLength(2);
  });

  it('calls a run off when the next one is ordered', async () => {
    const { solver, workers } = withWorkers();
    const first = solver.solve('one', nothing);
    const second = solver.solve('two', nothing);
    expect(await first).toEqual({ kind: 'cancelled' });
    workers[1]?.answer({ kind: 'failed', ticket: 2, message: 'x' });
    expect(await second).toMatchObject({ ticket: 2 });
  });

  it('reports a worker that breaks down, and has another one ready', async () => {
    const { solver, workers } = withWorkers();
    const outcome = solver.solve('document', nothing);
    workers[0]?.onerror?.({ message: 'no memory' } as ErrorEvent);
    expect(await outcome).toMatchObject({ kind: 'failed', message: 'no memory' });
    expect(workers).toHaveLength(2);
  });

  it('orders nothing from a worker that broke down before its first order', async () => {
    const { solver, workers } = withWorkers();
    workers[0]?.onerror?.({ message: 'not found' } as ErrorEvent);
    const outcome = solver.solve('document', nothing);
    expect(workers.map(({ orders }) => orders.length)).toEqual([0, 1]);
    workers[1]?.answer({ kind: 'refused', ticket: 1, problems: [] });
    expect((await outcome).kind).toBe('refused');
  });
});
