import { describe, expect, it } from 'vitest';
import type { Checked } from '../../../shared/problem.ts';
import { Desk, type Drawn } from '../../../src/runs/desk.ts';
import type { Progress } from '../../../src/workers/protocol.ts';
import type { Outcome } from '../../../src/workers/solver.ts';

/** What a run gives back, as far as the desk looks at it: it hands recording and report on unread. */
function solvedAs(name: string): Outcome {
  return { kind: 'solved', ticket: 1, took: 5, recording: { name }, report: { name } } as unknown as Outcome;
}

interface Job {
  readonly document: unknown;
  readonly tell: (progress: Progress) => void;
  readonly end: (outcome: Outcome) => void;
}

/** A desk whose worker and clock are moved by hand. */
function byHand(prepare?: (document: unknown) => Checked<Drawn> | undefined) {
  const jobs: Job[] = [];
  const waits: { ms: number; then: () => void }[] = [];
  const good: Checked<Drawn> = { ok: true, value: {} as Drawn, problems: [] };
  const desk = new Desk({
    prepare: prepare ?? (() => good),
    read: () => Promise.resolve(),
    solver: {
      solve: (document, tell) => new Promise((end) => jobs.push({ document, tell, end })),
      cancel: () => {
        jobs.at(-1)?.end({ kind: 'cancelled' });
      },
    },
    later: (ms, then) => {
      const wait = { ms, then };
      waits.push(wait);
      return () => waits.splice(waits.indexOf(wait), 1);
    },
  });
  const finish = async (outcome: Outcome) => {
    jobs.at(-1)?.end(outcome);
    await Promise.resolve();
    await Promise.resolve();
  };
  const pass = () => {
    for (const { then } of waits.splice(0)) then();
  };
  return { desk, jobs, waits, finish, pass };
}

const nameOf = (run: { recording: unknown } | undefined) =>
  (run?.recording as { name: string } | undefined)?.name;

describe('the desk', () => {
  it('drives an opened document at once and shows its run', async () => {
    const { desk, jobs, finish } = byHand();
    desk.open('one');
    expect(jobs.map(({ document }) => document)).toEqual(['one']);
    expect(desk.state().phase.kind).toBe('running');
    await finish(solvedAs('first'));
    expect(nameOf(desk.state().solved)).toBe('first');
    expect(desk.state()).toMatchObject({ phase: { kind: 'idle' }, stale: false, before: undefined });
  });

  it('waits with a change until no other one follows, then holds its run against the one before', async () => {
    const { desk, jobs, waits, finish, pass } = byHand();
    desk.open('one');
    await finish(solvedAs('first'));
    desk.revise('two');
    desk.revise('three');
    expect(waits).toHaveLength(1);
    expect(desk.state()).toMatchObject({ phase: { kind: 'waiting' }, stale: true });
    pass();
    expect(jobs.map(({ document }) => document)).toEqual(['one', 'three']);
    await finish(solvedAs('second'));
    expect([nameOf(desk.state().before), nameOf(desk.state().solved)]).toEqual(['first', 'second']);
  });

  it('calls a run off when a change comes in, and never shows what it would have given', async () => {
    const { desk, jobs, finish, pass } = byHand();
    desk.open('one');
    const [first] = jobs;
    desk.revise('two');
    first?.end(solvedAs('too late'));
    pass();
    await finish(solvedAs('second'));
    expect(nameOf(desk.state().solved)).toBe('second');
    expect(desk.state().before).toBeUndefined();
  });

  it('keeps a run to compare with until it is let go', async () => {
    const { desk, finish, pass } = byHand();
    const drive = async (document: string) => {
      desk.revise(document);
      pass();
      await finish(solvedAs(document));
    };
    desk.open('one');
    await finish(solvedAs('one'));
    desk.keep();
    await drive('two');
    await drive('three');
    expect(nameOf(desk.state().before)).toBe('one');
    desk.clear();
    expect(desk.state().before).toBeUndefined();
    await drive('four');
    expect(nameOf(desk.state().before)).toBe('three');
  });

  it('leaves the run on show alone when a change is no good, and says what is wrong', async () => {
    const problems = [{ path: 'vehicle', message: 'is wrong', severity: 'error' }] as const;
    const { desk, jobs, finish } = byHand((document) =>
      document === 'bad' ? { ok: false, problems } : { ok: true, value: {} as Drawn, problems: [] },
    );
    desk.open('one');
    await finish(solvedAs('first'));
    desk.revise('bad');
    expect(desk.state()).toMatchObject({ problems, stale: true, phase: { kind: 'idle' } });
    expect(nameOf(desk.state().solved)).toBe('first');
    expect(jobs).toHaveLength(1);
    desk.revise('one');
    expect(desk.state().problems).toEqual([]);
  });

  it('shows progress, can be cancelled, and drives again when asked', async () => {
    const { desk, jobs, finish } = byHand();
    desk.open('one');
    jobs[0]?.tell({ time: 1, station: 0.5, share: 0.25 });
    expect(desk.state().phase).toMatchObject({ kind: 'running', progress: { share: 0.25 } });
    desk.cancel();
    await finish({ kind: 'cancelled' });
    expect(desk.state().phase.kind).toBe('cancelled');
    desk.again();
    await finish(solvedAs('again'));
    expect(nameOf(desk.state().solved)).toBe('again');
  });

  it('says what the engine failed of', async () => {
    const { desk, finish } = byHand();
    desk.open('one');
    await finish({ kind: 'failed', ticket: 1, message: 'out of memory' });
    expect(desk.state().phase).toEqual({ kind: 'failed', message: 'out of memory' });
  });

  it('forgets earlier runs when another document is opened', async () => {
    const { desk, finish } = byHand();
    desk.open('one');
    await finish(solvedAs('first'));
    desk.keep();
    desk.open('another');
    expect(desk.state()).toMatchObject({ solved: undefined, before: undefined, pinned: false });
    await finish(solvedAs('second'));
    expect(desk.state().before).toBeUndefined();
  });

  it('shows the first run by what the worker tells, and puts its own reading in its place once it can read', async () => {
    let reading: Checked<Drawn> | undefined;
    const { desk, finish } = byHand(() => reading);
    desk.open('one');
    expect(desk.state().phase.kind).toBe('running');
    const told = { vehicle: 'told', mechanism: { elements: [] }, problems: [{ path: 'a' }] };
    await finish({ ...solvedAs('first'), told } as unknown as Outcome);
    expect(desk.state().drawn?.vehicle).toBe('told');
    expect(desk.state().problems).toEqual([{ path: 'a' }]);
    expect(nameOf(desk.state().solved)).toBe('first');
    desk.reread();
    expect(desk.state().drawn?.vehicle).toBe('told');
    const own = { vehicle: 'read', mechanism: { size: 1 }, ground: {} } as unknown as Drawn;
    reading = { ok: true, value: own, problems: [] };
    desk.reread();
    expect(desk.state().drawn).toBe(own);
    expect(desk.state().solved?.mechanism).toBe(own.mechanism);
    expect(nameOf(desk.state().solved)).toBe('first');
  });

  it('waits with anything but the first document until it can read', async () => {
    let reading: Checked<Drawn> | undefined;
    const { desk, jobs, pass } = byHand(() => reading);
    desk.open('one');
    reading = { ok: true, value: {} as Drawn, problems: [] };
    const before = jobs.length;
    const unread = reading;
    reading = undefined;
    desk.revise('two');
    expect(jobs.length).toBe(before);
    reading = unread;
    await Promise.resolve();
    await Promise.resolve();
    pass();
    expect(jobs.at(-1)?.document).toBe('two');
  });
});
