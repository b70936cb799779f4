import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../../sim/scenario/read.ts';
import type { Scenario } from '../../../sim/scenario/schema.ts';
import type { BoundStudy } from '../../../sim/tuning/bind.ts';
import { todayIn } from '../../../sim/tuning/dial.ts';
import type { Entry } from '../../../sim/tuning/journal.ts';
import type { Outcome } from '../../../sim/tuning/sample.ts';
import type { Json } from '../../../src/documents/json.ts';
import { axesOf, type Brush, brushed, within } from '../../../src/studying/brush.ts';
import { noFindings, type Step, tryAll } from '../../../src/studying/course.ts';
import { KeptJournal } from '../../../src/studying/diary.ts';
import {
  freshStudy,
  type StudyDraft,
  spaced,
  spacingOf,
  withFigure,
  withKnob,
} from '../../../src/studying/draft.ts';
import { labelled, spreadOver } from '../../../src/studying/plane.ts';
import { boundTo, sizeOf } from '../../../src/studying/session.ts';
import { documentWith } from '../../../src/studying/taking.ts';
import type { TrialNews, TrialOrder, Work } from '../../../src/workers/trial-protocol.ts';
import { Stopped, Trials, type TrialWorker } from '../../../src/workers/trials.ts';

const raw = JSON.parse(readFileSync('scenarios/corrie-6x6.json', 'utf8')) as Json;

function scenario(): Scenario {
  const read = readScenario(raw, { file: () => undefined });
  if (!read.ok) throw new Error('the flagship cannot be read');
  return read.value;
}

const pivot = (axis: 'x' | 'z') => `middle-arm and rear-arm: pivot ${axis}`;
const size = 0.05;

/** A study of the bogie's pivot, with so many values each way. */
function drafted(columns: number, rows: number): StudyDraft {
  const begun = freshStudy('a truck', 'corrie-6x6.json', 'leastLoadShare');
  const both = withKnob(withKnob(begun, scenario(), pivot('x'), size), scenario(), pivot('z'), size);
  const [x, z] = both.vary;
  return {
    ...both,
    vary: [
      { ...x, steps: columns },
      { ...z, steps: rows },
    ],
    run: { confirm: 0 },
  };
}

function bound(columns = 4, rows = 3): BoundStudy {
  const read = boundTo(drafted(columns, rows), scenario());
  if (!read.ok) throw new Error(read.problems.map(({ path, message }) => `${path} ${message}`).join('; '));
  return read.value;
}

/** An outcome that says which design it is of. */
const outcomeOf = ({ design }: Work): Outcome => ({
  goals: [design === null ? 0 : design.reduce((sum, entry, i) => sum + entry * 10 ** i, 0)],
  short: [],
  violation: 0,
  holds: true,
});

describe('a study that is written in the window', () => {
  it('is one that its own reader takes, with ranges in units about what the numbers are today', () => {
    const study = bound();
    expect(study.dials.map(({ name }) => name)).toEqual([pivot('x'), pivot('z')]);
    for (const { now, values } of study.dials) {
      const ends = values.kind === 'list' ? (values.values as readonly number[]) : [];
      expect(ends[0]).toBeLessThan(now as number);
      expect(ends.at(-1)).toBeGreaterThan(now as number);
    }
    expect(sizeOf(study)).toBe(12);
  });

  it('takes a number once, and none that the vehicle does not have', () => {
    const study = drafted(4, 3);
    expect(withKnob(study, scenario(), pivot('x'), size)).toBe(study);
    expect(withKnob(study, scenario(), 'middle-arm: wings', size)).toBe(study);
  });

  it('takes a figure by its place in the document, once, under the name of its entry', () => {
    const middle = scenario().vehicle.members.findIndex(({ name }) => name === 'middle-arm');
    const place = ['vehicle', 'members', middle, 'pivot', 'x'] as const;
    const begun = freshStudy('a truck', 'corrie-6x6.json', 'leastLoadShare');
    const study = withFigure(begun, scenario(), place, size);
    expect(study.vary.map(({ of }) => of)).toEqual([`vehicle.members[${middle}].pivot.x`]);
    expect(withFigure(study, scenario(), place, size)).toBe(study);
    const read = boundTo(study, scenario());
    expect(read.ok && read.value.dials.map(({ name }) => name)).toEqual(['middle-arm: pivot x']);
  });

  it('has one way to space a number at a time', () => {
    const number = { knob: 'a', from: '0 mm', to: '10 mm', steps: 5 };
    const onGrid = spaced(number, 'pitch', '2 mm');
    expect(onGrid).toEqual({ knob: 'a', from: '0 mm', to: '10 mm', pitch: '2 mm' });
    expect(spacingOf(onGrid)).toBe('pitch');
    expect(spacingOf(spaced(onGrid, 'any', '2 mm'))).toBe('any');
  });

  it('tells a range that is upside down at its place', () => {
    const study = drafted(4, 3);
    const [first] = study.vary;
    const turned = { ...study, vary: [{ ...first, from: '10 mm', to: '-10 mm' }] };
    const read = boundTo(turned, scenario());
    expect(read.ok).toBe(false);
    expect(read.problems.map(({ path }) => path)).toEqual(['vary[0]']);
  });
});

describe('a study that runs', () => {
  it('computes nothing that its journal has, and finds the same', async () => {
    const study = bound();
    const written: Entry[] = [];
    const keep = async (entries: readonly Entry[]) => void written.push(...entries);
    const whole = noFindings(study);
    const fail = (error: unknown) => {
      throw error;
    };
    await tryAll(whole, {
      run: async (work) => outcomeOf(work),
      journal: new KeptJournal([], keep, fail),
      progress: () => undefined,
    });
    expect(written).toHaveLength(13);
    const computed: Work[] = [];
    let last: Step | undefined;
    const again = noFindings(study);
    await tryAll(again, {
      run: async (work) => {
        computed.push(work);
        return outcomeOf(work);
      },
      journal: new KeptJournal(written.slice(0, 9), async () => undefined, fail),
      progress: (step) => {
        last = step;
      },
    });
    expect(computed).toHaveLength(4);
    expect(last).toEqual({ what: 'trying', done: 13, all: 13, computed: 4 });
    expect(again.samples).toEqual(whole.samples);
  });

  it('learns in the order of the plan, whichever answer comes first', async () => {
    const study = bound();
    const findings = noFindings(study);
    let late = 20;
    await tryAll(findings, {
      run: (work) =>
        new Promise((resolve) => {
          late -= 1;
          setTimeout(() => resolve(outcomeOf(work)), late);
        }),
      journal: new KeptJournal(
        [],
        async () => undefined,
        () => undefined,
      ),
      progress: () => undefined,
    });
    expect(findings.samples.map(({ n }) => n)).toEqual(Array.from({ length: 12 }, (_, i) => i));
  });

  it('goes on in the window when the browser can keep nothing, and says so once', async () => {
    const study = bound();
    const findings = noFindings(study);
    const troubles: unknown[] = [];
    const write = () => Promise.reject(new Error('the disk is full'));
    await tryAll(findings, {
      run: async (work) => outcomeOf(work),
      journal: new KeptJournal([], write, (error) => troubles.push(error)),
      progress: () => undefined,
    });
    expect(findings.samples).toHaveLength(12);
    expect(troubles).toHaveLength(1);
  });
});

/** A worker that answers at once, or ends over designs that begin with an entry. */
class FakeWorker implements TrialWorker {
  onmessage: ((event: MessageEvent<TrialNews>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  readonly #deadly: number;

  constructor(deadly = Number.NaN) {
    this.#deadly = deadly;
  }

  postMessage(order: TrialOrder): void {
    if (order.kind !== 'work') return;
    queueMicrotask(() => {
      if (order.work.design?.[0] === this.#deadly) this.onerror?.({ message: 'out of memory' } as ErrorEvent);
      else
        this.onmessage?.({
          data: { kind: 'outcome', id: order.id, outcome: outcomeOf(order.work) },
        } as MessageEvent<TrialNews>);
    });
  }

  terminate(): void {
    this.onmessage = null;
    this.onerror = null;
  }
}

describe('the workers of a study', () => {
  it('record a design that ends its worker twice as failed, and try all others', async () => {
    const study = bound();
    const findings = noFindings(study);
    const trials = new Trials(study, 2, () => new FakeWorker(3));
    await tryAll(findings, {
      run: (work) => trials.run(work),
      journal: new KeptJournal(
        [],
        async () => undefined,
        () => undefined,
      ),
      progress: () => undefined,
    });
    const failed = findings.samples.filter((sample) => sample.failed === true);
    expect(failed.map(({ design }) => design[0])).toEqual([3, 3, 3]);
    expect(failed[0]?.why).toBe('its worker ended over it twice: out of memory');
    expect(findings.samples).toHaveLength(12);
  });

  it('begin nothing while they are paused, and give back what waits when they are closed', async () => {
    const trials = new Trials(bound(), 2, () => new FakeWorker());
    trials.pause();
    const waiting = trials.run({ design: [0, 0], by: 'crawl' });
    const first = await Promise.race([waiting, Promise.resolve('nothing yet')]);
    expect(first).toBe('nothing yet');
    trials.close();
    await expect(waiting).rejects.toBeInstanceOf(Stopped);
  });
});

describe('a design', () => {
  it('goes into the document with its figures in their units, and leaves all else alone', () => {
    const study = bound();
    const design = [0, 2];
    const document = documentWith(raw, study, design);
    const read = readScenario(document, { file: () => undefined });
    const back = read.ok ? boundTo(drafted(4, 3), read.value) : undefined;
    const now = back?.ok === true ? back.value.dials.map((dial) => dial.now) : [];
    const wanted = study.dials.map(({ values }, d) =>
      values.kind === 'list' ? values.values[design[d] as number] : 0,
    );
    for (const [d, value] of now.entries()) expect(value).toBeCloseTo(wanted[d] as number, 9);
    // What stood there as '-330 mm' still has its unit.
    expect(JSON.stringify(document).match(/ mm"/g)?.length).toBe(JSON.stringify(raw).match(/ mm"/g)?.length);
  });

  it('that is the one of today changes no figure', () => {
    const study = bound();
    const exact = {
      ...study,
      dials: study.dials.map((dial) => ({ ...dial, values: { kind: 'range', from: -1, to: 1 } as const })),
    };
    expect(documentWith(raw, exact, todayIn(exact.dials))).toEqual(raw);
  });
});

describe('a brush over numbers and goals', () => {
  it('keeps what lies between its ends, and nothing without a figure there', () => {
    const study = bound(4, 3);
    const of = (design: readonly number[], goal: number | null) =>
      ({ n: 0, design, goals: [goal], short: [], violation: 0, holds: true }) as const;
    const samples = [of([0, 0], 10), of([3, 1], 30), of([2, 2], null)];
    const axes = axesOf(study.dials, [{ title: 'goal' }], samples);
    const kept = (brush: Brush) => samples.map((sample) => within(brush, axes, sample));
    expect(kept({})).toEqual([true, true, true]);
    // Two of three steps up the first number, then the upper half of the goal.
    expect(kept(brushed({}, 0, 1, 2 / 3))).toEqual([false, true, true]);
    expect(kept(brushed({}, 2, 0.5, 1))).toEqual([false, true, false]);
    expect(brushed(brushed({}, 1, 0.2, 0.4), 1, 0, 1)).toEqual({});
  });
});

describe('a field over two of three numbers', () => {
  it('shows at each place the best of the third', () => {
    const study = bound(4, 3);
    const sample = (n: number, design: readonly number[], goal: number | null, holds = true) => ({
      n,
      design,
      goals: [goal],
      short: [],
      violation: holds ? 0 : 1,
      holds,
    });
    const field = spreadOver(
      [
        sample(0, [0, 0, 0], 0.2),
        sample(1, [0, 0, 1], 0.4),
        sample(2, [3, 2, 0], 0.9, false),
        sample(3, [3, 2, 1], 0.1),
      ],
      study.dials,
      [0, 1],
      study.goals,
    );
    expect(field?.cells).toHaveLength(12);
    expect(field?.cells[0]?.n).toBe(1);
    // One that holds comes before one that does not, whatever its goal.
    expect(field?.cells[11]?.n).toBe(3);
    expect(field?.cells[5]).toBeUndefined();
  });

  it('labels so many places of a side, evenly from the first on', () => {
    expect(labelled(4, 5)).toEqual([0, 1, 2, 3]);
    expect(labelled(31, 5)).toEqual([0, 8, 16, 24]);
    expect(labelled(31, 4)).toEqual([0, 10, 20, 30]);
  });
});
