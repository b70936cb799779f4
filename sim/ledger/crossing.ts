import type { Recording } from '../../shared/recording.ts';
import type { Ledger } from '../../shared/report.ts';
import type { Ground } from '../ground/ground.ts';
import { compile } from '../mechanism/compile.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { courseOf } from '../scenario/course.ts';
import type { Scenario } from '../scenario/schema.ts';
import { crawlOver } from '../statics/crawl.ts';
import { ledgerOf } from './ledger.ts';
import { type DriveSeries, driveSeries } from './parts.ts';
import { keptOffStops } from './stops-kept.ts';

/** A crossing in balance with all that could end it. */
export interface LedgerCrossing {
  readonly mechanism: Mechanism;
  readonly recording: Recording;
  readonly ledger: Ledger;
  /** What the parts of the drive line carry, frame by frame; undefined without one. */
  readonly series: DriveSeries | undefined;
}

/** Stations of a crossing, before those added near contact changes and limits. */
export const usualStations = 400;

/**
 * Crosses the ground of a scenario in balance, on beyond the limits of grip and torque, so that every use over the whole
 * crossing is known; it ends early only where the balance itself ends.
 */
export function crossRegardless(
  scenario: Scenario,
  ground: Ground,
  stations = usualStations,
  mechanism = compile(scenario),
): LedgerCrossing {
  const { start, until } = courseOf(scenario, ground);
  const recording = crawlOver(mechanism, ground, { start, until, stations, regardless: true });
  const series = recording.frames === 0 ? undefined : driveSeries({ mechanism, recording });
  const noStops = keptOffStops(scenario.criteria, mechanism.members);
  return { mechanism, recording, series, ledger: ledgerOf(mechanism, recording, { noStops, series }) };
}
