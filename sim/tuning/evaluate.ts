import type { Recording } from '../../shared/recording.ts';
import { alongStations } from '../chance/bands.ts';
import { MonteCarlo } from '../chance/monte-carlo.ts';
import type { Ground } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import { runOf } from '../ledger/run.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Course, courseOf } from '../scenario/course.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Inner } from '../searching/method.ts';
import { percentileOutcome } from '../searching/percentile.ts';
import type { Setting } from '../studies/knob.ts';
import { Study, type Vehicle } from '../studies/study.ts';
import type { BoundStudy, StudyGround } from './bound.ts';
import { type Design, turned } from './dial.ts';
import { shortageOf } from './from-stock.ts';
import { type Reading, readingOf } from './goal.ts';
import { judged } from './judge.ts';
import { told } from './rank.ts';
import { failedOutcome, type GroundOutcome, type Outcome } from './sample.ts';
import { uncertainOf } from './sure.ts';

/** How a vehicle is driven: the engine hands it in, for this room does not know it. */
export type Driver = (mechanism: Mechanism, ground: Ground, course: Course) => Recording;

/** What is asked of one design: how it is tried. */
export interface Trial {
  readonly by: 'crawl' | 'drive';
  /** Figures of one vehicle that was drawn by chance, over those of the design. */
  readonly draw?: readonly Setting[];
  /** Whether the wheel loads along the first ground are wanted. */
  readonly rows?: boolean;
  /** The design is judged by several drawn vehicles instead of the one that is drawn on paper. */
  readonly inner?: Inner;
}

/** Even stations at which wheel loads are kept for bands. */
const bandStations = 120;

/** Significant digits of these loads: a journal holds many. */
const bandDigits = 5;

/**
 * Tries designs of one study. Grounds are laid once and the scenario is never read again; a design is the scenario with
 * figures put in place, compiled, checked for its meaning and crossed. Every outcome follows from the design alone, not
 * from those tried before. Nothing is thrown for a design: one that fails says why.
 */
export class Tryout {
  readonly #study: BoundStudy;
  readonly #drive: Driver;
  readonly #crossings: readonly { readonly ground: StudyGround; readonly study: Study }[];

  /** @throws Error for a study that was not bound, or whose grounds cannot be laid */
  constructor(study: BoundStudy, drive: Driver) {
    this.#study = study;
    this.#drive = drive;
    this.#crossings = study.grounds.map((ground) => ({
      ground,
      study: new Study({
        scenario: ground.scenario,
        source: { file: (name) => ground.files[name] },
        stations: study.document.run.stations,
      }),
    }));
  }

  /** What a design comes to; today's where there is none. */
  at(design: Design | null, trial: Trial): Outcome {
    const short = design === null ? undefined : shortageOf(this.#study, design);
    if (short !== undefined) return failedOutcome(short, this.#count);
    return trial.inner === undefined ? this.#one(design, trial) : this.#robust(design, trial, trial.inner);
  }

  get #count(): { readonly goals: number; readonly short: number } {
    const { goals, scenario } = this.#study;
    return { goals: goals.length, short: scenario.criteria.length + 1 };
  }

  #one(design: Design | null, trial: Trial): Outcome {
    const found: GroundOutcome[] = [];
    let rows: Outcome['rows'];
    for (const [g, { ground, study }] of this.#crossings.entries()) {
      try {
        const vehicle = this.#vehicle(study, ground.scenario, design, trial.draw ?? []);
        if (!vehicle.ok) return failedOutcome(vehicle.why, this.#count);
        const course = courseOf(vehicle.scenario, vehicle.ground);
        const recording = this.#recorded(study, vehicle, trial, course);
        found.push(judged(vehicle.scenario, vehicle.mechanism, recording, this.#study.goals, course));
        if (g === 0 && trial.rows === true) rows = loadsAlong(recording, course);
      } catch (error) {
        const says = error instanceof Error ? error.message : String(error);
        return failedOutcome(`the computation gave up: ${says}`, this.#count);
      }
    }
    return { ...this.#together(found), ...(rows === undefined ? {} : { rows }) };
  }

  /** What the wanted share of drawn vehicles reaches or betters, goal by goal and criterion by criterion. */
  #robust(design: Design | null, { by }: Trial, { samples, percentile }: Inner): Outcome {
    const { goals, document } = this.#study;
    const uncertain = uncertainOf(this.#study, design);
    const draws = new MonteCarlo({ uncertain, seed: document.seed, criteria: 0, width: 1, most: samples });
    const outcomes = Array.from({ length: samples }, (_, k) =>
      this.#one(design, { by, draw: draws.draw(k).settings }),
    );
    const tells = outcomes.map((each) => told(goals, each));
    const whole = percentileOutcome(tells, percentile);
    const why = outcomes.find((each) => each.why !== undefined)?.why;
    if (whole.goals === null)
      return failedOutcome(why ?? 'too many of the drawn vehicles have nothing to measure', this.#count);
    const rank = Math.max(1, Math.ceil(percentile * samples - 1e-9)) - 1;
    const at = (values: number[]): number => values.sort((a, b) => a - b)[rank] as number;
    return {
      goals: whole.goals.map((value, g) => (goals[g]?.want === 'more' ? -value : value)),
      short: Array.from({ length: this.#count.short }, (_, c) =>
        at(outcomes.map(({ short }) => short[c] ?? 1)),
      ),
      violation: whole.violation,
      holds: whole.violation === 0,
      ...(whole.violation === 0 || why === undefined ? {} : { why }),
    };
  }

  /** What each goal is called and its SI unit, read on today's crossing. */
  about(): Pick<Reading, 'title' | 'unit'>[] {
    const [first] = this.#crossings;
    const vehicle = first?.study.vehicle();
    const recording = vehicle?.ok === true ? first?.study.cross(vehicle) : undefined;
    return this.#study.goals.map((goal) => {
      if (vehicle?.ok !== true || recording === undefined) return { title: goal.text, unit: '1' };
      const run = runOf(vehicle.scenario, vehicle.mechanism, recording);
      const { title, unit } = readingOf(goal, vehicle.scenario, run) ?? { title: goal.text, unit: '1' };
      return { title, unit };
    });
  }

  #vehicle(study: Study, scenario: Scenario, design: Design | null, draw: readonly Setting[]): Vehicle {
    if (design === null) return study.vehicle(draw);
    const { base, settings } = turned(scenario, this.#study.dials, design);
    return study.vehicle([...settings, ...draw], base);
  }

  #recorded(study: Study, vehicle: Extract<Vehicle, { ok: true }>, { by }: Trial, course: Course): Recording {
    return by === 'drive' ? this.#drive(vehicle.mechanism, vehicle.ground, course) : study.cross(vehicle);
  }

  /** One outcome of those on all grounds: what must hold must hold on each; a goal is the mean by weights, or the worst. */
  #together(found: readonly GroundOutcome[]): Outcome {
    const { goals, grounds } = this.#study;
    const whole = grounds.reduce((sum, { weight }) => sum + weight, 0);
    const values = goals.map(({ over, want }, g): number | null => {
      const each = found.map((outcome) => outcome.goals[g] ?? null);
      if (each.includes(null)) return null;
      const figures = each as number[];
      if (over === 'worst') return want === 'more' ? Math.min(...figures) : Math.max(...figures);
      return figures.reduce((sum, value, i) => sum + value * ((grounds[i]?.weight ?? 0) / whole), 0);
    });
    const short = (found[0]?.short ?? []).map((_, c) => Math.max(...found.map((o) => o.short[c] ?? 0)));
    const violation = short.reduce((sum, s) => sum + s, 0);
    const halted = found.findIndex(({ why }) => why !== undefined);
    const named = found.length > 1 && halted >= 0 ? `${grounds[halted]?.name}: ` : '';
    return {
      goals: values,
      short,
      violation,
      holds: violation === 0 && !values.includes(null),
      ...(halted < 0 ? {} : { why: `${named}${found[halted]?.why}` }),
      ...(found.length > 1 ? { grounds: found } : {}),
    };
  }
}

/** Stations of bands along a course, m. */
const stationsOf = ({ start, until }: Pick<Course, 'start' | 'until'>): number[] =>
  Array.from({ length: bandStations }, (_, i) => start + ((until - start) * i) / (bandStations - 1));

/** Stations of the bands of a study: on its first ground. */
export function bandStationsOf({ grounds }: BoundStudy): number[] {
  const [first] = grounds;
  if (first === undefined) return [];
  const laid = layGround(first.scenario.ground, { file: (name) => first.files[name] });
  return laid.ok ? stationsOf(courseOf(first.scenario, laid.value)) : [];
}

/** Loads of all axle lines at the stations of bands; null where the vehicle did not get. */
function loadsAlong(recording: Recording, course: Course): (number | null)[][] {
  const stations = stationsOf(course);
  const falls = course.until < course.start;
  const rising = falls ? stations.reverse() : stations;
  return recording.wheels.map((_, w) => {
    const row = Array.from(alongStations(recording, 'load', w, rising), (value) =>
      Number.isFinite(value) ? Number(value.toPrecision(bandDigits)) : null,
    );
    return falls ? row.reverse() : row;
  });
}
