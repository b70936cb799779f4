import { describe, expect, it } from 'vitest';
import { HeadStart } from '../../../src/runs/headstart.ts';
import type { Progress } from '../../../src/workers/protocol.ts';
import type { Outcome } from '../../../src/workers/solver.ts';

const progress: Progress = { time: 1, station: 1, share: 0.5 };
const done: Outcome = { kind: 'refused', ticket: 1, problems: [] };

function withSolver() {
  const driven: unknown[] = [];
  let cancels = 0;
  const tells: ((progress: Progress) => void)[] = [];
  const head = new HeadStart({
    solve: (document, tell) => {
      driven.push(document);
      tells.push(tell);
      return Promise.resolve(done);
    },
    cancel: () => {
      cancels += 1;
    },
  });
  return { head, driven, tells, cancels: () => cancels };
}

describe('a head start', () => {
  it('hands out the run that was begun early, with its progress, and drives it only once', async () => {
    const { head, driven, tells } = withSolver();
    const document = {};
    head.begin(document);
    tells[0]?.(progress);
    const seen: Progress[] = [];
    expect(await head.solve(document, (now) => seen.push(now))).toBe(done);
    tells[0]?.(progress);
    expect([driven, seen]).toEqual([[document], [progress]]);
    await head.solve(document, () => undefined);
    expect(driven).toHaveLength(2);
  });

  it('drives another document as any solver would', async () => {
    const { head, driven } = withSolver();
    head.begin('one');
    await head.solve('two', () => undefined);
    expect(driven).toEqual(['one', 'two']);
  });

  it('is not called off before it was asked for', async () => {
    const { head, cancels } = withSolver();
    head.begin('one');
    head.cancel();
    expect(cancels()).toBe(0);
    await head.solve('one', () => undefined);
    head.cancel();
    expect(cancels()).toBe(1);
  });
});
