import type { Problem } from '../../shared/problem.ts';
import type { Recording, Standing } from '../../shared/recording.ts';
import type { Report, Verdict, WheelReport } from '../../shared/report.ts';
import type { layGround } from '../ground/lay.ts';
import { jointReports } from '../joints/peaks.ts';
import { runOf } from '../ledger/run.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { criterionKinds } from './criteria/registry.ts';
import type { CriterionKind, Run } from './criterion.ts';
import { flights, shareOfTime } from './flights.ts';
import { measureKinds } from './measures/registry.ts';
import { standingMeasures } from './measures/standing.ts';
import { greatestLoad, leastLoad } from './wheel-load.ts';

/** What a report needs of a scenario: its words and what it asks. Any scenario that was read will do. */
export interface Asked {
  readonly title: string;
  readonly vehicle: { readonly name: string };
  /** Criteria in SI, as the schema reads them: `kind` beside the fields of that kind. */
  readonly criteria: readonly { readonly kind: string }[];
  /** Pieces of its ground, as the schema reads them; verdicts that need them say less without. */
  readonly ground?: Parameters<typeof layGround>[0];
}

/** Mass, kg; centre of gravity as drawn, m; pitch inertia about it, kg·m²: of the vehicle with its wheels. */
export type VehicleFigures = Pick<Report, 'mass' | 'cg' | 'pitchInertia'>;

/**
 * Mass figures of a whole vehicle in the drawn position. The inertias of all bodies are moved to the common centre
 * (parallel axes: I = Σ Iᵢ + mᵢ·dᵢ², elementary mechanics); wheels are in their bodies as point masses.
 */
export function vehicleFigures({ bodies, mass, cg }: Mechanism): VehicleFigures {
  const pitchInertia = bodies.reduce((sum, body) => {
    const squared = (body.centre.x - cg.x) ** 2 + (body.centre.z - cg.z) ** 2;
    return sum + body.inertia + body.mass * squared;
  }, 0);
  return { mass, cg: { x: cg.x, z: cg.z }, pitchInertia };
}

/**
 * The report of a run: all measures, and a verdict for each criterion.
 * @throws RangeError for a criterion of a kind that is not registered; reading the scenario refuses those before.
 */
export function appraise(
  scenario: Asked,
  mechanism: Mechanism,
  recording: Recording,
  problems: readonly Problem[] = [],
): Report {
  const run = runOf(scenario, mechanism, recording);
  const verdicts = scenario.criteria.map((criterion, index) => verdictOf(criterion, index, run));
  const finished = recording.end.kind === 'arrived' || recording.end.kind === 'time-up';
  return {
    mode: recording.mode,
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(mechanism),
    wheels: wheelsOfRun(run),
    measures: measureKinds.flatMap((kind) => kind.measure(run)),
    joints: jointReports(mechanism, recording),
    ...(asksForLedger(mechanism) && run.ledger ? { ledger: run.ledger() } : {}),
    events: recording.events,
    verdicts,
    problems,
    end: recording.end,
    ...(recording.mode === 'drive' ? { substep: recording.substep } : {}),
    pass: finished && verdicts.every((verdict) => verdict.pass) && noErrorIn(problems),
  };
}

/** The report of a vehicle that only stands: wheel loads and standing figures; criteria are about runs, so none. */
export function standReport(
  scenario: Asked,
  mechanism: Mechanism,
  standing: Standing,
  problems: readonly Problem[] = [],
): Report {
  return {
    mode: 'stand',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(mechanism),
    wheels: wheelsStanding(mechanism, standing),
    measures: standingMeasures(standing),
    events: [],
    verdicts: [],
    problems,
    pass: noErrorIn(problems),
  };
}

/** Whether there is more to its ledger than its wheels: a drive line, or strength figures. */
const asksForLedger = ({ driveline, strength }: Mechanism): boolean =>
  driveline !== undefined || strength !== undefined;

const noErrorIn = (problems: readonly Problem[]) => !problems.some((problem) => problem.severity === 'error');

/** What one criterion says of a run, with its place in the scenario. */
function verdictOf(criterion: { readonly kind: string }, index: number, run: Run): Verdict {
  const kinds = criterionKinds as readonly unknown[] as readonly CriterionKind[];
  const kind = kinds.find((each) => each.kind === criterion.kind);
  if (kind === undefined)
    throw new RangeError(`criteria[${index}]: there is no criterion of kind '${criterion.kind}'`);
  const params = criterion as never;
  const outcome = kind.judge(params, run);
  const value = outcome.value !== null && Number.isFinite(outcome.value) ? outcome.value : null;
  return { index, kind: kind.kind, asks: kind.asks(params), ...outcome, value };
}

const finiteOrZero = (value: number | undefined) =>
  value !== undefined && Number.isFinite(value) ? value : 0;

function wheelsStanding(mechanism: Mechanism, standing: Standing): readonly WheelReport[] {
  return mechanism.wheels.map(({ name, axle, count }, index) => {
    const load = finiteOrZero(standing.loads[index]);
    const travel = finiteOrZero(standing.travels[index]);
    return { id: name, axle, count, load, loadPerWheel: load / count, travel };
  });
}

function wheelsOfRun({ mechanism, recording }: Run): readonly WheelReport[] {
  const all = flights(recording);
  return wheelsStanding(mechanism, recording.standing).map((wheel, index) => {
    const least = leastLoad(recording, index, all)?.load;
    const greatest = greatestLoad(recording, index)?.load;
    return {
      ...wheel,
      ...(least === undefined ? {} : { leastLoad: least }),
      ...(greatest === undefined ? {} : { greatestLoad: greatest }),
      timeOff: shareOfTime(recording, index, all) ?? 0,
    };
  });
}
