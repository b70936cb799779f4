import type { Recording } from '../../shared/recording.ts';
import type { Ground } from '../ground/ground.ts';
import { runOf } from '../ledger/run.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Course, courseOf } from '../scenario/course.ts';
import type { Scenario } from '../scenario/schema.ts';
import { Study, type Vehicle } from '../studies/study.ts';
import type { BoundStudy, StudyGround } from './bind.ts';
import { type Design, turned } from './dial.ts';
import { type Reading, readingOf } from './goal.ts';
import { judged } from './judge.ts';
import { failedOutcome, type GroundOutcome, type Outcome } from './sample.ts';

/** How a vehicle is driven: the engine hands it in, for this room does not know it. */
export type Driver = (mechanism: Mechanism, ground: Ground, course: Course) => Recording;

/** What is asked of one design: how it is tried. */
export interface Trial {
  readonly by: 'crawl' | 'drive';
}

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
    const { goals, scenario } = this.#study;
    const count = { goals: goals.length, short: scenario.criteria.length + 1 };
    const found: GroundOutcome[] = [];
    for (const { ground, study } of this.#crossings) {
      try {
        const vehicle = this.#vehicle(study, ground.scenario, design);
        if (!vehicle.ok) return failedOutcome(vehicle.why, count);
        found.push(this.#crossed(study, vehicle, trial));
      } catch (error) {
        return failedOutcome(
          `the computation gave up: ${error instanceof Error ? error.message : String(error)}`,
          count,
        );
      }
    }
    return this.#together(found);
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

  #vehicle(study: Study, scenario: Scenario, design: Design | null): Vehicle {
    if (design === null) return study.vehicle();
    const { base, settings } = turned(scenario, this.#study.dials, design);
    return study.vehicle(settings, base);
  }

  #crossed(study: Study, vehicle: Extract<Vehicle, { ok: true }>, { by }: Trial): GroundOutcome {
    const { scenario, mechanism, ground } = vehicle;
    const course = courseOf(scenario, ground);
    const recording = by === 'drive' ? this.#drive(mechanism, ground, course) : study.cross(vehicle);
    return judged(scenario, mechanism, recording, this.#study.goals, course);
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
