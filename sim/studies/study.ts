import { type Problem, Problems, problemLine } from '../../shared/problem.ts';
import type { Recording } from '../../shared/recording.ts';
import type { Range } from '../../shared/schema/quantity.ts';
import type { Ground, GroundSource } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import { runOf } from '../ledger/run.ts';
import { growTree } from '../mechanism/build.ts';
import { compileChecked } from '../mechanism/compile.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { flights, longestOf } from '../report/flights.ts';
import { courseOf } from '../scenario/course.ts';
import { wholeDraft } from '../scenario/draft.ts';
import { entryChecks, wholeChecks } from '../scenario/meaning/registry.ts';
import type { Scenario } from '../scenario/schema.ts';
import { type Crossing, crawlOver } from '../statics/crawl.ts';
import { type Choice, chooseMeasure, judge, type Row, rowOf, usualChoice } from './choice.ts';
import { haltOf } from './halt.ts';
import { namedPath, outside, rangeAt, type Setting, withSettings } from './knob.ts';

/** What a study is made of. */
export interface StudyAsk {
  /** Read and sound. */
  readonly scenario: Scenario;
  readonly source?: GroundSource;
  /** Stations of a crossing before those added near contact changes; 200 when left out. */
  readonly stations?: number;
  /** What is looked at: see `chooseMeasure`; the least load share of all wheels when left out. */
  readonly measure?: string;
}

/** A vehicle ready to cross, or why it is none. */
export type Vehicle =
  | { readonly ok: true; readonly scenario: Scenario; readonly mechanism: Mechanism; readonly ground: Ground }
  | { readonly ok: false; readonly why: string };

/** What a crossing with changed figures came to. */
export interface Answer {
  /** The chosen measure, SI; null when there is nothing to measure, or no whole crossing to measure it on. */
  readonly value: number | null;
  /** Wheel or member that it belongs to, and the vehicle's station there, m. */
  readonly of?: string;
  readonly station?: number;
  /** Every criterion holds, and the vehicle gets across. */
  readonly holds: boolean;
  /** Criteria that fail, by their index in the scenario. */
  readonly fails: readonly number[];
  /** Longest time that any wheel is off the ground, s: tells crossings apart whose least load is 0. */
  readonly off: number;
  /** Why there is no value, or why the vehicle does not get across. */
  readonly why?: string;
}

const noFiles: GroundSource = { file: () => undefined };

/**
 * Crossings of one scenario with changed figures. The ground is laid once, the document never read again: a changed
 * scenario is the old one with figures put in place, compiled, checked for its meaning and crossed in balance, on beyond
 * the limits of grip and torque.
 * @throws RangeError for a measure that does not exist, Error for a ground that cannot be laid
 */
export class Study {
  readonly scenario: Scenario;
  readonly choice: Choice;
  readonly stations: number;
  readonly #ground: Ground;
  readonly #source: GroundSource;
  readonly #ranges = new Map<string, Range>();

  constructor({ scenario, source = noFiles, stations = 200, measure = usualChoice }: StudyAsk) {
    const choice = chooseMeasure(measure, scenario);
    if (!choice.ok) throw new RangeError(choice.problems.map(problemLine).join('; '));
    this.scenario = scenario;
    this.choice = choice.value;
    this.stations = stations;
    this.#source = source;
    this.#ground = laid(scenario, source);
  }

  /**
   * The vehicle with these figures, compiled and checked, or why it is none. `base`: the study's scenario with other than
   * figures changed in it, where there is such a thing.
   */
  vehicle(settings: readonly Setting[] = [], base: Scenario = this.scenario): Vehicle {
    const misplaced = settings.flatMap((s) => this.#outside(s) ?? []);
    if (misplaced.length > 0) return { ok: false, why: misplaced.join('; ') };
    const scenario = withSettings(base, settings);
    const ground = scenario.ground === this.scenario.ground ? this.#ground : laid(scenario, this.#source);
    const compiled = compileChecked(scenario);
    const problems = compiled.ok ? problemsOf(scenario, compiled.value, ground) : compiled.problems;
    const wrong = problems.filter((p) => p.severity === 'error');
    if (!compiled.ok || wrong.length > 0) return { ok: false, why: wrong.map(problemLine).join('; ') };
    return { ok: true, scenario, mechanism: compiled.value, ground };
  }

  /**
   * The crossing of a vehicle. `seen` is told the unknowns of the balance at every station that it takes; `apart` is the
   * greatest distance between two of them, m, where the study's own number of stations would leave more.
   */
  cross(
    vehicle: Extract<Vehicle, { ok: true }>,
    { seen, apart = Number.POSITIVE_INFINITY }: Pick<Crossing, 'seen'> & { readonly apart?: number } = {},
  ): Recording {
    const { start, until } = courseOf(vehicle.scenario, vehicle.ground);
    return crawlOver(vehicle.mechanism, vehicle.ground, {
      start,
      until,
      stations: Math.max(this.stations, Math.ceil(Math.abs(until - start) / apart)),
      regardless: true,
      forces: asksForForces(vehicle.scenario),
      ...(seen === undefined ? {} : { seen, plain: true }),
    });
  }

  /** The chosen measure of a crossing, with what it is. */
  row(vehicle: Extract<Vehicle, { ok: true }>, recording: Recording): Row | undefined {
    return rowOf(this.choice, vehicle.scenario, { mechanism: vehicle.mechanism, recording });
  }

  /** What the crossing with these figures comes to. */
  at(settings: readonly Setting[] = []): Answer {
    const vehicle = this.vehicle(settings);
    if (!vehicle.ok) return nothing(vehicle.why);
    const recording = this.cross(vehicle);
    const { end } = recording;
    if (end.kind !== 'arrived') return nothing(end.kind === 'stuck' ? end.cause : 'it tips over');
    const { scenario, mechanism } = vehicle;
    const run = runOf(scenario, mechanism, recording);
    const row = this.row(vehicle, recording);
    const halt = haltOf(run);
    const fails = scenario.criteria.flatMap((criterion, i) =>
      judge(criterion, run)?.pass === false ||
      (halt && criterion.kind === 'reaches' && halt.before(criterion.station))
        ? [i]
        : [],
    );
    return {
      value: row?.value ?? null,
      ...(row?.of === undefined ? {} : { of: row.of }),
      ...(row?.moment === undefined ? {} : { station: row.moment.station }),
      holds: fails.length === 0 && halt === undefined,
      fails,
      off: longestOff(recording),
      ...(halt === undefined ? {} : { why: halt.says }),
    };
  }

  #outside({ path, value }: Setting): string | undefined {
    const key = path.join('/');
    const range = this.#ranges.get(key) ?? rangeAt(this.scenario, path);
    this.#ranges.set(key, range);
    const wrong = outside(value, range);
    return wrong === undefined ? undefined : `${namedPath(this.scenario, path)} ${wrong}`;
  }
}

/** Whether a criterion looks at the forces in pins, rods and arms. */
const asksForForces = ({ criteria }: Scenario): boolean =>
  criteria.some((criterion) => criterion.kind === 'part-use' && criterion.of !== 'drive-line');

/** Errors that only a look at the whole tells: loops that do not close, beams that fall over, a start inside a face. */
function problemsOf(scenario: Scenario, mechanism: Mechanism, ground: Ground): readonly Problem[] {
  const problems = new Problems();
  const draft = wholeDraft(scenario);
  const tree = growTree(scenario.vehicle.members);
  for (const check of entryChecks) check(draft, tree, problems);
  for (const check of wholeChecks) check({ scenario, mechanism, ground }, problems);
  return problems.list;
}

function laid(scenario: Scenario, source: GroundSource): Ground {
  const ground = layGround(scenario.ground, source);
  if (!ground.ok)
    throw new Error(`the ground cannot be laid: ${ground.problems.map(problemLine).join('; ')}`);
  return ground.value;
}

const nothing = (why: string): Answer => ({ value: null, holds: false, fails: [], off: 0, why });

/** Longest time between a lift-off and its touch-down, s. */
function longestOff(recording: Recording): number {
  return longestOf(flights(recording))?.duration ?? 0;
}
