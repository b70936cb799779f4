import { describe, expect, it } from 'vitest';
import { type LiveOutcome, LiveSolver, type LiveWorkerLike } from '../../../src/workers/live.ts';
import type { LiveAnswer, LiveOrder } from '../../../src/workers/live-protocol.ts';

/** A worker that answers when the test says so. */
function byHand() {
  const orders: LiveOrder[] = [];
  let started = 0;
  let ended = 0;
  let worker: LiveWorkerLike | undefined;
  const start = (): LiveWorkerLike => {
    started += 1;
    worker = {
      postMessage: (order) => orders.push(order),
      terminate: () => {
        ended += 1;
      },
      onmessage: null,
      onerror: null,
    };
    return worker;
  };
  const answer = (took = 5) => {
    const ticket = orders.at(-1)?.ticket ?? 0;
    const data = { kind: 'solved', ticket, took, recording: { name: `run ${ticket}` }, report: {} };
    worker?.onmessage?.({ data: data as unknown as LiveAnswer } as MessageEvent<LiveAnswer>);
  };
  const fail = (message: string) => worker?.onerror?.({ message } as ErrorEvent);
  return { solver: new LiveSolver(start), orders, answer, fail, count: () => ({ started, ended }) };
}

const put = (solver: LiveSolver, document: unknown, value: number, heard: LiveOutcome[]) =>
  solver.put(document, 'crawl', [{ path: ['a'], value }], (outcome) => heard.push(outcome));

describe('the live solver', () => {
  it('starts its worker with the first order and hands the document over once', () => {
    const { solver, orders, answer, count } = byHand();
    const heard: LiveOutcome[] = [];
    const document = { a: 1 };
    expect(count().started).toBe(0);
    put(solver, document, 1, heard);
    answer();
    put(solver, document, 2, heard);
    answer();
    expect(orders.map((order) => 'document' in order)).toEqual([true, false]);
    expect(heard.map(({ kind }) => kind)).toEqual(['solved', 'solved']);
    expect(count().started).toBe(1);
  });

  it('answers the newest of a burst, and tells those that were left out', () => {
    const { solver, orders, answer } = byHand();
    const heard: LiveOutcome[] = [];
    for (let i = 0; i < 5; i += 1) put(solver, 'doc', i, heard);
    expect(orders).toHaveLength(1);
    expect(heard.map(({ kind }) => kind)).toEqual(['cancelled', 'cancelled', 'cancelled']);
    answer();
    answer();
    expect(orders.map(({ settings }) => settings[0]?.value)).toEqual([0, 4]);
    expect(heard.slice(3).map(({ kind }) => kind)).toEqual(['solved', 'solved']);
  });

  it('takes fewer stations while dragging when an answer takes longer than a frame or two', () => {
    const { solver, orders, answer } = byHand();
    put(solver, 'doc', 1, []);
    answer(80);
    put(solver, 'doc', 2, []);
    answer();
    void solver.solve('doc', 'crawl');
    const [first, second, whole] = orders.map(({ stations }) => stations);
    expect(second).toBeLessThan(first ?? 0);
    expect(whole).toBe(first);
  });

  it('ends its worker when it is called off at work, and starts another one for the next order', () => {
    const { solver, orders, answer, count } = byHand();
    const heard: LiveOutcome[] = [];
    put(solver, 'doc', 1, heard);
    solver.cancel();
    expect(heard.map(({ kind }) => kind)).toEqual(['cancelled']);
    put(solver, 'doc', 2, heard);
    answer();
    expect(count()).toEqual({ started: 2, ended: 1 });
    expect('document' in (orders.at(-1) ?? {})).toBe(true);
    expect(heard.at(-1)?.kind).toBe('solved');
  });

  it('says so when its script breaks down, and goes on with what waited', () => {
    const { solver, answer, fail, orders } = byHand();
    const heard: LiveOutcome[] = [];
    put(solver, 'doc', 1, heard);
    put(solver, 'doc', 2, heard);
    fail('no network');
    expect(heard[0]).toMatchObject({ kind: 'failed', message: 'no network' });
    answer();
    expect(orders).toHaveLength(2);
    expect(heard[1]?.kind).toBe('solved');
  });
});
