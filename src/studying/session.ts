import type { Path } from '../../shared/path.ts';
import type { Checked, Problem } from '../../shared/problem.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { begin, checkSearch } from '../../sim/searching/search.ts';
import { type BoundStudy, bindStudy } from '../../sim/tuning/bind.ts';
import { spaceOf, todayIn } from '../../sim/tuning/dial.ts';
import { changesBetween, type Entry, type Head, headOf } from '../../sim/tuning/journal.ts';
import { readStudy } from '../../sim/tuning/read.ts';
import type { Sample } from '../../sim/tuning/sample.ts';
import type { Desk, DoneRun } from '../runs/desk.ts';
import { commit, type DocumentStore } from '../store/document.ts';
import type { LiveSolver } from '../workers/live.ts';
import type { About } from '../workers/trial-protocol.ts';
import { program, Stopped, type Trials } from '../workers/trials.ts';
import { type Findings, noFindings, type Step, tryAll } from './course.ts';
import { type Diary, KeptJournal, type KeptPhase } from './diary.ts';
import { type StudyDraft, withFigure } from './draft.ts';
import { documentWith } from './taking.ts';

/** What the study of the open document is doing. */
export type TuningPhase =
  | { readonly kind: 'written' }
  | {
      readonly kind: 'running' | 'paused';
      readonly step: Step | undefined;
      readonly left: number | undefined;
    }
  | { readonly kind: 'done' }
  /** It was not begun: what it was computed of has changed. */
  | { readonly kind: 'changed'; readonly changes: readonly string[] }
  | { readonly kind: 'failed'; readonly message: string };

/** A design that is on show instead of today's. */
export interface Shown {
  readonly sample: Sample;
  /** On its way; on show; or why it cannot be shown. */
  readonly state: 'asked' | 'shown' | { readonly why: string };
}

export interface TuningState {
  /** The study as it is written; undefined until what was kept has been looked up. */
  readonly study: StudyDraft | undefined;
  readonly phase: TuningPhase;
  /** What came out so far, and how often that has grown: it is the same object while it grows. */
  readonly findings: Findings | undefined;
  readonly grown: number;
  readonly about: About | undefined;
  readonly picked: Shown | undefined;
  /** Why nothing is kept in this browser. */
  readonly trouble: string | undefined;
  /** Figures of the document that are to vary, chosen where they stand; taken up when the study is looked at. */
  readonly wanted: readonly Path[];
}

/** What a session works with; tests hand in their own. */
export interface TuningTools {
  readonly documents: DocumentStore;
  readonly desk: Pick<Desk, 'state' | 'attempt' | 'restore' | 'watch'>;
  readonly live: Pick<LiveSolver, 'solve'>;
  readonly diary: () => Promise<Diary>;
  trials(study: BoundStudy): Trials;
  /** Puts a run of a design together: the vehicle that it has. */
  runOf(document: unknown, came: Pick<DoneRun, 'recording' | 'report' | 'took'>): DoneRun | undefined;
  /** ms. */
  now(): number;
  later(ms: number, then: () => void): () => void;
}

/** Shortest time between two pictures of what grows, and between two writes of a study that is being written, ms. */
const [pictureEvery, writeAfter] = [200, 400] as const;

const nothing: TuningState = {
  study: undefined,
  phase: { kind: 'written' },
  findings: undefined,
  grown: 0,
  about: undefined,
  picked: undefined,
  trouble: undefined,
  wanted: [],
};

/** Reads a draft and puts it together with its scenario: all that is wrong with it at once. */
export function boundTo(study: StudyDraft, scenario: Scenario): Checked<BoundStudy> {
  const read = readStudy(study);
  if (!read.ok) return read;
  const source = { file: () => undefined };
  return bindStudy(read.value, { scenario, source, own: source, other: () => undefined });
}

/** Number of designs that a study tries: exact for a plan, at most so many for a search; undefined when it cannot begin. */
export function sizeOf({ dials, document }: BoundStudy): number | undefined {
  const space = spaceOf(dials);
  if (checkSearch(space, document.method).some(({ severity }) => severity === 'error')) return undefined;
  return begin(space, document.method, document.seed, { today: todayIn(dials) }).size;
}

/** The study of the open document: written, run, looked at and taken; kept in the browser's database with its journal. */
export class Tuning {
  readonly #tools: TuningTools;
  readonly #watchers = new Set<() => void>();
  #state: TuningState = nothing;
  #key: string | undefined;
  #opening = -1;
  #head: Head | undefined;
  #trials: Trials | undefined;
  #forgetPicture: (() => void) | undefined;
  #forgetWrite: (() => void) | undefined;
  #began = 0;
  /** Today's run while a design is on show in its place. */
  #today: { readonly run: DoneRun; readonly before: DoneRun | undefined; readonly raw: unknown } | undefined;
  #asked = 0;

  constructor(tools: TuningTools) {
    this.#tools = tools;
  }

  readonly state = (): TuningState => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /**
   * Looks at a document: finds the study that was kept beside it, or begins with `fresh`. A document that gets a name of
   * its own while it is open keeps its study; one that ran when the page was left goes on.
   */
  async look(key: string, opening: number, fresh: StudyDraft): Promise<void> {
    if (this.#key === key && this.#opening === opening) return;
    const same = this.#opening === opening && this.#state.study !== undefined;
    this.#key = key;
    this.#opening = opening;
    if (same) {
      this.#head = undefined;
      // Its first change gave it a name of its own: what was computed is of what it was before.
      await this.#keep('written');
      return;
    }
    this.#end();
    this.#change({ ...nothing, wanted: this.#state.wanted });
    const found = await this.#find(key);
    if (this.#key !== key) return;
    this.#head = found?.head;
    this.#change({ study: this.#state.study ?? found?.study ?? fresh });
    if (found?.phase === 'running' || found?.phase === 'done') await this.start();
    else if (found?.phase === 'paused')
      this.#change({ phase: { kind: 'paused', step: undefined, left: undefined } });
  }

  /** Takes another form of the study. What was computed of the one before stays in sight until it is run again. */
  write(study: StudyDraft): void {
    if (study === this.#state.study) return;
    this.#stop();
    this.#change({ study, phase: { kind: 'written' } });
    this.#forgetWrite?.();
    this.#forgetWrite = this.#tools.later(writeAfter, () => void this.#keep('written'));
  }

  /** Has a figure of the document vary as soon as the study is looked at. */
  want(path: Path): void {
    this.#change({ wanted: [...this.#state.wanted, path] });
  }

  /** Takes up the figures that were chosen where they stand. `size`: radius of the smallest wheel, m. */
  takeUp(scenario: Scenario, size: number): void {
    const { study, wanted } = this.#state;
    if (study === undefined || wanted.length === 0) return;
    this.#change({ wanted: [] });
    this.write(wanted.reduce((next, path) => withFigure(next, scenario, path, size), study));
  }

  /** Runs the study, from where its journal ends. `anew`: what the journal has is thrown away. */
  async start(anew = false): Promise<void> {
    const { study, phase } = this.#state;
    if (phase.kind === 'running') return;
    if (this.#trials !== undefined) {
      this.#goOn();
      return;
    }
    const scenario = this.#tools.desk.state().drawn?.scenario;
    const bound = study && scenario && boundTo(study, scenario);
    if (bound === undefined || !bound.ok) {
      this.#change({ phase: { kind: 'written' } });
      return;
    }
    // What waits to be kept as it is written is kept as it runs.
    this.#forgetWrite?.();
    const head = headOf(bound.value, program);
    const kept = this.#head;
    const changes = kept === undefined || anew ? [] : changesBetween(kept, head);
    if (kept !== undefined && changes.length > 0) {
      this.#change({ phase: { kind: 'changed', changes } });
      return;
    }
    const fresh = kept === undefined || anew;
    this.#head = head;
    await this.#keep('running', fresh);
    await this.#run(bound.value, fresh ? [] : await this.#entries());
  }

  pause(): void {
    const { phase } = this.#state;
    if (phase.kind !== 'running') return;
    this.#trials?.pause();
    this.#change({ phase: { ...phase, kind: 'paused' } });
    void this.#keep('paused');
  }

  /** Stops it for good; what was found stays in sight, and in the journal. */
  cancel(): void {
    this.#stop();
    this.#change({ phase: { kind: 'written' }, grown: this.#state.grown + 1 });
    void this.#keep('written');
  }

  /** Shows a design on the picture; the vehicle as it is stays behind it, as a ghost. */
  async show(sample: Sample): Promise<void> {
    const { documents, desk, live } = this.#tools;
    const { findings } = this.#state;
    const { mode, solved, before, stale } = desk.state();
    if (findings === undefined || mode === 'drive') return;
    const { raw } = documents.getState();
    if (this.#today?.raw !== raw && solved !== undefined && !stale)
      this.#today = { run: solved, before, raw };
    this.#asked += 1;
    const asked = this.#asked;
    this.#change({ picked: { sample, state: 'asked' } });
    const document = documentWith(raw, findings.study, sample.design);
    const came = await live.solve(document, mode);
    if (asked !== this.#asked || documents.getState().raw !== raw || desk.state().mode !== mode) return;
    const run = came.kind === 'solved' ? this.#tools.runOf(document, came) : undefined;
    if (run !== undefined) {
      desk.attempt(run);
      this.#change({ picked: { sample, state: 'shown' } });
      return;
    }
    const why =
      came.kind === 'impossible'
        ? came.why
        : came.kind === 'failed'
          ? came.message
          : 'there is no such vehicle';
    this.#change({ picked: { sample, state: { why } } });
  }

  /** Puts the vehicle as it is back on show. */
  back(): void {
    this.#asked += 1;
    const { documents, desk } = this.#tools;
    const today = this.#today;
    this.#today = undefined;
    const shown = this.#state.picked?.state === 'shown';
    if (shown && today !== undefined && documents.getState().raw === today.raw)
      desk.restore(today.run, today.before);
    this.#change({ picked: undefined });
  }

  /** Puts a design into the document, as one step. @returns false when the document is read only */
  take(sample: Sample): boolean {
    const { documents } = this.#tools;
    const { findings } = this.#state;
    if (findings === undefined) return false;
    const document = documentWith(documents.getState().raw, findings.study, sample.design);
    this.#asked += 1;
    this.#today = undefined;
    const done = commit(documents, { says: `take design ${sample.n + 1} of the study`, document });
    this.#change({ picked: undefined });
    return done;
  }

  async #run(study: BoundStudy, known: readonly Entry[]): Promise<void> {
    const key = this.#key ?? '';
    const journal = new KeptJournal(
      known,
      async (entries) => (await this.#tools.diary()).append(key, entries),
      (error) => this.#tellTrouble(error),
    );
    const trials = this.#tools.trials(study);
    this.#trials = trials;
    const findings = noFindings(study);
    this.#began = this.#tools.now();
    this.#change({
      findings,
      about: undefined,
      phase: { kind: 'running', step: undefined, left: undefined },
    });
    const mine = () => this.#trials === trials;
    trials.about().then(
      (about) => mine() && this.#change({ about }),
      () => undefined,
    );
    try {
      const progress = (step: Step) => mine() && this.#tell(step);
      await tryAll(findings, { run: (work) => trials.run(work), journal, progress });
      await journal.flush();
      if (!mine()) return;
      const about = this.#state.about ?? (await trials.about());
      this.#stop();
      this.#change({ about, phase: { kind: 'done' }, grown: this.#state.grown + 1 });
      await this.#keep('done');
    } catch (error) {
      trials.close();
      if (error instanceof Stopped || !mine()) return;
      this.#stop();
      this.#change({
        phase: { kind: 'failed', message: error instanceof Error ? error.message : String(error) },
      });
    }
  }

  #goOn(): void {
    const { phase } = this.#state;
    if (phase.kind !== 'paused') return;
    this.#trials?.goOn();
    this.#change({ phase: { ...phase, kind: 'running' } });
    void this.#keep('running');
  }

  /** What is told a hundred times a second is shown a few times. */
  #tell(step: Step): void {
    if (this.#forgetPicture !== undefined) return;
    this.#forgetPicture = this.#tools.later(pictureEvery, () => {
      this.#forgetPicture = undefined;
    });
    const { phase, grown } = this.#state;
    if (phase.kind !== 'running' && phase.kind !== 'paused') return;
    const took = this.#tools.now() - this.#began;
    const left = step.computed < 3 ? undefined : ((step.all - step.done) * took) / step.computed / 1000;
    this.#change({ phase: { ...phase, step, left }, grown: grown + 1 });
  }

  #stop(): void {
    const trials = this.#trials;
    this.#trials = undefined;
    trials?.close();
    this.#forgetPicture?.();
    this.#forgetPicture = undefined;
  }

  #end(): void {
    this.#stop();
    this.#forgetWrite?.();
    this.#today = undefined;
    this.#asked += 1;
  }

  async #find(key: string) {
    try {
      return await (await this.#tools.diary()).find(key);
    } catch (error) {
      this.#tellTrouble(error);
      return undefined;
    }
  }

  async #entries(): Promise<readonly Entry[]> {
    try {
      return await (await this.#tools.diary()).entries(this.#key ?? '');
    } catch (error) {
      this.#tellTrouble(error);
      return [];
    }
  }

  async #keep(phase: KeptPhase, clear = false): Promise<void> {
    const { study } = this.#state;
    if (study === undefined || this.#key === undefined) return;
    try {
      await (await this.#tools.diary()).put({ key: this.#key, study, phase, head: this.#head }, clear);
    } catch (error) {
      this.#tellTrouble(error);
    }
  }

  #tellTrouble(error: unknown): void {
    this.#change({ trouble: error instanceof Error ? error.message : String(error) });
  }

  #change(change: Partial<TuningState>): void {
    this.#state = { ...this.#state, ...change };
    for (const tell of this.#watchers) tell();
  }
}

/** Problems of a study that keep it from being run. */
export const errorsOf = (checked: Checked<unknown>): readonly Problem[] =>
  checked.problems.filter(({ severity }) => severity === 'error');
