import type { Command } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { column, type Recording } from '../../../shared/recording.ts';
import { compile, crawl, standOn } from '../../index.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { standWords } from '../../statics/stand.ts';
import { heaviestFrame } from '../../steering/ledger.ts';
import type { Steering } from '../../steering/steering.ts';
import { studySteering } from '../../steering/study.ts';
import { type Exit, exits } from '../exit.ts';
import { unreadableReport } from '../report-json.ts';
import type { SteerReport } from '../rig-report.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { quietSteer, steerText } from '../text/steer.ts';

/** `axlewright steer`: torque that turning the standing wheels takes, at the servo or motor. */
export const steer = scenarioVerb<{ readonly crawl?: true }>({
  name: 'steer',
  mode: 'steer',
  summary: 'turn the wheels at standstill: torque at servo or motor, scrub radius',
  examples: [
    ['axlewright steer my-truck.json', 'as it stands'],
    ['axlewright steer my-truck.json --crawl', 'where the steered wheels carry most'],
  ],
  options: (command: Command) =>
    command.option('--crawl', 'with the greatest load of the steered wheels on a crawl over its ground'),
  work({ scenario, source }, warnings, { style, width }, { crawl: crossing }) {
    const mechanism = compile(scenario);
    const all = mechanism.steering ?? [];
    if (all.length === 0)
      return unusable(warnings, 'vehicle.steering', 'is missing: the vehicle has no steering');
    const stood = standOn(scenario, { source });
    if (stood.kind !== 'stands') {
      const exit = stood.kind === 'none' ? exits.unusable : exits.failed;
      const message = `the vehicle does not stand where it starts: ${standWords(stood)}`;
      return unusable(warnings, 'vehicle', message, exit);
    }
    const recording = crossing === true ? crawl(scenario, { source }) : undefined;
    const steering = all.map((one) => {
      const worst = recording && worstOf(one, recording);
      const study = studySteering(mechanism, one, worst?.loads ?? stood.standing.loads);
      return worst === undefined ? study : { ...study, station: worst.station };
    });
    const report: SteerReport = {
      mode: 'steer',
      title: scenario.title,
      vehicle: scenario.vehicle.name,
      ...vehicleFigures(mechanism),
      loads: recording === undefined ? 'stand' : 'crawl',
      steering,
      problems: warnings,
      pass: steering.every(({ pass }) => pass),
    };
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: steerText(report, style, width),
      quiet: quietSteer(report),
      found: [],
      files: [],
    };
  },
});

/** Loads and the vehicle's station where the steered lines carry most. */
function worstOf(steering: Steering, recording: Recording) {
  const worst = heaviestFrame(steering, recording);
  return worst && { loads: worst.loads, station: column(recording, 'station')[worst.frame] ?? 0 };
}

function unusable(warnings: readonly Problem[], path: string, message: string, exit: Exit = exits.unusable) {
  const found: Problem[] = [{ path, message, severity: 'error' }];
  const report = unreadableReport('steer', [...warnings, ...found]);
  return { exit, report, text: '', quiet: '', found, files: [] };
}
