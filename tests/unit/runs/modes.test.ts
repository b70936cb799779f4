import { describe, expect, it } from 'vitest';
import { Desk, type DoneRun, type Drawn } from '../../../src/runs/desk.ts';
import type { Mode } from '../../../src/runs/mode.ts';
import type { Outcome } from '../../../src/workers/solver.ts';

interface Job {
  readonly document: unknown;
  readonly mode: Mode;
  readonly end: (outcome: Outcome) => void;
}

const solvedAs = (name: string): Outcome =>
  ({ kind: 'solved', ticket: 1, took: 5, recording: { name }, report: { name } }) as unknown as Outcome;

/** A desk whose workers and clock are moved by hand. */
function byHand(mode: Mode = 'crawl') {
  const jobs: Job[] = [];
  const waits: { ms: number; then: () => void }[] = [];
  const called: Mode[] = [];
  const desk = new Desk(
    {
      prepare: () => ({ ok: true, value: {} as Drawn, problems: [] }),
      read: () => Promise.resolve(),
      solver: {
        solve: (document, _tell, asked) => new Promise((end) => jobs.push({ document, mode: asked, end })),
        cancel: (asked) => called.push(asked),
      },
      later: (ms, then) => {
        const wait = { ms, then };
        waits.push(wait);
        return () => waits.splice(waits.indexOf(wait) >>> 0, 1);
      },
    },
    mode,
  );
  const finish = async (index: number, outcome: Outcome) => {
    jobs[index]?.end(outcome);
    await Promise.resolve();
    await Promise.resolve();
  };
  const pass = () => {
    for (const { then } of waits.splice(0)) then();
  };
  return { desk, jobs, called, finish, pass };
}

const nameOf = (run: { recording: unknown } | undefined) =>
  (run?.recording as { name: string } | undefined)?.name;

describe('a desk that crawls', () => {
  it('solves every change at once, without waiting for the next one', () => {
    const { desk, jobs } = byHand();
    desk.open('one');
    desk.revise('two');
    expect(jobs.map(({ document, mode }) => `${mode} ${document}`)).toEqual(['crawl one', 'crawl two']);
  });

  it('shows answers as they come while figures keep moving, each newer than the last, until it is up to date', async () => {
    const { desk, finish } = byHand();
    desk.open('one');
    desk.revise('two');
    desk.revise('three');
    await finish(1, solvedAs('second'));
    expect(nameOf(desk.state().solved)).toBe('second');
    expect(desk.state().stale).toBe(true);
    await finish(0, solvedAs('first'));
    expect(nameOf(desk.state().solved)).toBe('second');
    await finish(2, solvedAs('third'));
    expect(nameOf(desk.state().solved)).toBe('third');
    expect(desk.state()).toMatchObject({ stale: false, phase: { kind: 'idle' } });
  });

  it('holds runs against the last one that rested, not against the last step of a drag', async () => {
    const { desk, finish, pass } = byHand();
    desk.open('one');
    await finish(0, solvedAs('first'));
    pass();
    for (const n of [1, 2, 3]) {
      desk.revise(`step ${n}`);
      await finish(n, solvedAs(`step ${n}`));
    }
    expect([nameOf(desk.state().before), nameOf(desk.state().solved)]).toEqual(['first', 'step 3']);
  });

  it('never shows an answer about a document that is no longer open', async () => {
    const { desk, finish } = byHand();
    desk.open('one');
    desk.open('other');
    await finish(0, solvedAs('first'));
    expect(desk.state().solved).toBeUndefined();
  });

  it('shows what is tried beside the run before it, and puts that back', async () => {
    const { desk, finish, pass } = byHand();
    desk.open('one');
    await finish(0, solvedAs('first'));
    pass();
    const { solved, before } = desk.state();
    desk.attempt({ recording: { name: 'tried' } } as unknown as DoneRun);
    expect([nameOf(desk.state().before), nameOf(desk.state().solved)]).toEqual(['first', 'tried']);
    // A hand that rests in the middle of a drag changes nothing of that.
    pass();
    desk.attempt({ recording: { name: 'tried on' } } as unknown as DoneRun);
    expect([nameOf(desk.state().before), nameOf(desk.state().solved)]).toEqual(['first', 'tried on']);
    desk.restore(solved as DoneRun, before);
    expect(desk.state().solved).toBe(solved);
    expect(desk.state().before).toBe(before);
  });
});

describe('another way to look', () => {
  it('solves the document in that way; the way back is there at once', async () => {
    const { desk, jobs, called, finish } = byHand('drive');
    desk.open('one');
    await finish(0, solvedAs('driven'));
    desk.look('crawl');
    expect(desk.state().solved).toBeUndefined();
    expect(called).toContain('drive');
    await finish(1, solvedAs('crossed'));
    expect(nameOf(desk.state().solved)).toBe('crossed');
    expect(desk.state().before).toBeUndefined();
    desk.look('drive');
    expect(nameOf(desk.state().solved)).toBe('driven');
    expect(desk.state()).toMatchObject({ mode: 'drive', stale: false });
    expect(jobs).toHaveLength(2);
  });

  it('solves again what was changed meanwhile, and shows the old answer as old until then', async () => {
    const { desk, jobs, finish } = byHand('drive');
    desk.open('one');
    await finish(0, solvedAs('driven'));
    desk.look('crawl');
    desk.revise('two');
    desk.look('drive');
    expect(jobs.at(-1)).toMatchObject({ document: 'two', mode: 'drive' });
    expect(nameOf(desk.state().solved)).toBe('driven');
    expect(desk.state().stale).toBe(true);
  });

  it('drops an answer of the way that was left', async () => {
    const { desk, finish } = byHand('crawl');
    desk.open('one');
    desk.look('stand');
    await finish(0, solvedAs('crossed'));
    expect(desk.state().solved).toBeUndefined();
  });
});
