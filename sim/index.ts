import type { Checked } from '../shared/problem.ts';
import type { Recording, Standing } from '../shared/recording.ts';
import type { Report } from '../shared/report.ts';
import { type Progress, record } from './dynamics/drive.ts';
import { evenSlope } from './ground/even.ts';
import type { Ground, GroundSource } from './ground/ground.ts';
import { layGround as lay } from './ground/lay.ts';
import { compile } from './mechanism/compile.ts';
import type { Mechanism } from './mechanism/mechanism.ts';
import { appraise as appraiseRun, standReport as reportStand } from './report/appraise.ts';
import { type Course, courseOf } from './scenario/course.ts';
import { readScenario } from './scenario/read.ts';
import type { Scenario } from './scenario/schema.ts';
import { crawlOver } from './statics/crawl.ts';
import { standingRemarks } from './statics/remarks.ts';
import { type Stand, standAt, standWords } from './statics/stand.ts';

export { alongStations, type Band } from './chance/bands.ts';
export { drawsPerRow, type Indices, indexDraws, indicesOf } from './chance/indices.ts';
export type { Probability } from './chance/interval.ts';
export { type Draw, type DrawOutcome, drawAll, MonteCarlo, type Sureness } from './chance/monte-carlo.ts';
export type { Percentiles } from './chance/percentile.ts';
export { commonSpread, type Spread, spreadsOf, type Uncertain, uncertainOf } from './chance/spreads.ts';
export { chainOf } from './driveline/chain.ts';
export { driveLayouts, startingFigures } from './driveline/layouts.ts';
export { type Performance, performanceOf } from './driveline/performance.ts';
export { type Alternative, alternativesOf } from './ledger/alternatives.ts';
export { crossRegardless, type LedgerCrossing } from './ledger/crossing.ts';
export { type MassCurve, massCurve } from './ledger/curve.ts';
export { ledgerOf } from './ledger/ledger.ts';
export { type GreatestMass, greatestMass } from './ledger/mass.ts';
export { percentileOutcome } from './searching/percentile.ts';
export { shortages, stockKnob } from './stock/knob.ts';
export { freeFigures, nearestInStock } from './stock/nearest.ts';
export { readStock } from './stock/read.ts';
export { readStockTable } from './stock/table.ts';
export { energyWords, type StoredEnergy, storedEnergies } from './strength/energy.ts';
export { strengthLines } from './strength/lines.ts';
export { materialSources } from './strength/sources.ts';
export { chooseMeasure } from './studies/choice.ts';
export { Field, type MapAsk, type MapPoint, mapOver, type Tile } from './studies/map.ts';
export { type Influences, influencesOf } from './studies/matters.ts';
export { pivotsOf } from './studies/pivots.ts';
export { type Plane, pivotPlane, planesOf } from './studies/planes.ts';
export { type Answer, Study } from './studies/study.ts';
export type {
  Checked,
  Ground,
  GroundSource,
  Mechanism,
  Progress,
  Recording,
  Report,
  Scenario,
  Stand,
  Standing,
};
export { compile, record };

/** No files beside the document. */
const noFiles: GroundSource = { file: () => undefined };

/**
 * Reads a scenario from JSON text (or from a parsed value) and checks everything that can be checked without running
 * it. All problems come at once, each with its path and a hint; warnings come with the value.
 * `source` hands over files that the document names (CSV grounds).
 */
export function loadScenario(document: unknown, source: GroundSource = noFiles): Checked<Scenario> {
  return readScenario(document, source);
}

/**
 * Lays the ground of a scenario.
 * @throws Error naming the problems, if the scenario was not read through `loadScenario`.
 */
export function layGround(scenario: Scenario, source: GroundSource = noFiles): Ground {
  const laid = lay(scenario.ground, source);
  if (!laid.ok)
    throw new Error(
      `the ground cannot be laid: ${laid.problems.map((p) => `${p.path} ${p.message}`).join('; ')}`,
    );
  return laid.value;
}

/** Where and how a vehicle is to stand; as its run begins when left out. */
export interface StandOptions {
  readonly source?: GroundSource;
  /** Station of the reference point, m. */
  readonly station?: number;
  /** An even slope instead of the scenario's ground, rad, nose-up positive. */
  readonly slope?: number;
  /** Names of mass items that are taken off. */
  readonly without?: readonly string[];
  /** Holding torques instead of locked wheels, N·m per axle line by name, forward positive; others roll freely. */
  readonly torques?: Readonly<Record<string, number>>;
}

/** Finds how the vehicle stands: loads (N, per axle line), travels (m), poses; or why it cannot stand there. */
export function standOn(scenario: Scenario, options: StandOptions = {}): Stand {
  const { source, station, slope, without = [], torques } = options;
  const ground = slope === undefined ? layGround(scenario, source) : evenSlope(slope);
  const mechanism = compile(takeOff(scenario, without));
  const at = station ?? (slope === undefined ? courseOf(scenario, ground).start : 0);
  return standAt(mechanism, ground, at, torques && mechanism.wheels.map((w) => torques[w.name] ?? 0));
}

/** The scenario without these mass items (by name). */
export function takeOff(scenario: Scenario, names: readonly string[]): Scenario {
  const masses = scenario.vehicle.masses.filter((item) => !names.includes(item.name));
  return { ...scenario, vehicle: { ...scenario.vehicle, masses } };
}

/**
 * As `standOn`, for a vehicle that does stand at its start.
 * @throws Error saying why, when it does not.
 */
export function stand(scenario: Scenario, source: GroundSource = noFiles): Standing {
  const found = standOn(scenario, { source });
  if (found.kind !== 'stands') throw new Error(standWords(found));
  return found.standing;
}

/** What a crawl may be told besides its scenario. */
export interface CrawlOptions {
  readonly source?: GroundSource;
  /** Stations from start to end before those added near contact changes; 400 when left out. */
  readonly stations?: number;
  /** Go on where grip or torque would not do. */
  readonly regardless?: boolean;
}

/**
 * Crosses the scenario's ground in balance, station by station: no inertia. The recording's frames are stations; its time
 * is what the way takes at the target speed.
 */
export function crawl(scenario: Scenario, options: CrawlOptions = {}): Recording {
  const ground = layGround(scenario, options.source);
  const { start, until } = courseOf(scenario, ground);
  const { regardless, stations = 400 } = options;
  return crawlOver(compile(scenario), ground, {
    start,
    until,
    stations,
    ...(regardless === undefined ? {} : { regardless }),
  });
}

/** What a drive may be told besides its scenario. */
export interface DriveOptions {
  readonly source?: GroundSource;
  /** Called every tenth of a second of model time or so. */
  readonly progress?: (progress: Progress) => void;
  /** Forces the substep, s, over the scenario's own. */
  readonly substep?: number;
}

/**
 * Runs the scenario: sets the vehicle down, drives it over its ground, records frames and events. Always returns a
 * recording; `end` says how the run ended.
 * @throws RangeError when a forced substep is too long for the stiffest part.
 */
export function drive(scenario: Scenario, options: DriveOptions = {}): Recording {
  const ground = layGround(scenario, options.source);
  const course: Course = {
    ...courseOf(scenario, ground),
    ...(options.substep === undefined ? {} : { substep: options.substep }),
  };
  return record(compile(scenario), ground, course, options.progress);
}

/** Measures and verdicts of a run of this scenario. */
export function appraise(scenario: Scenario, recording: Recording): Report {
  return appraiseRun(scenario, compile(scenario), recording);
}

/** Masses and standing loads as a report, with remarks on members at their stops and wheels without load as warnings. */
export function standReport(scenario: Scenario, standing: Standing): Report {
  const mechanism = compile(scenario);
  return reportStand(scenario, mechanism, standing, standingRemarks(mechanism, standing));
}
