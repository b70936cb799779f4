import type { Command } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { crossingFigures } from '../../driveline/crossing.ts';
import { performanceOf } from '../../driveline/performance.ts';
import { compile, crawl } from '../../index.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { exits } from '../exit.ts';
import { pullCsv } from '../files/pull-csv.ts';
import type { PerformanceReport } from '../performance-report.ts';
import { unreadableReport } from '../report-json.ts';
import { type Outcome, scenarioVerb } from '../scenario-verb.ts';
import { performanceText } from '../text/performance.ts';

/** `axlewright performance`: pull over speed, top speed, grades, running time, motors at standstill, joints. */
export const performance = scenarioVerb<{ readonly crossing?: true }>({
  name: 'performance',
  mode: 'performance',
  summary: 'tell what the drive line makes of the vehicle: pull over speed, top speed, grades, running time',
  examples: [
    ['axlewright performance my-truck.json', 'on the level and on grades'],
    ['axlewright performance my-truck.json --crossing', 'over its ground too: mean power, wind-up'],
  ],
  options: (command: Command) =>
    command.option('--crossing', "a crawl over the scenario's ground too: mean power, joints, wind-up"),
  work({ scenario, source }, warnings, terminal, { crossing }) {
    const mechanism = compile(scenario);
    const found = performanceOf(mechanism);
    if (found === undefined) return withoutDriveline(warnings);
    const over = crossing === true ? crossingFigures(mechanism, crawl(scenario, { source })) : undefined;
    const report: PerformanceReport = {
      mode: 'performance',
      title: scenario.title,
      vehicle: scenario.vehicle.name,
      ...vehicleFigures(mechanism),
      ...found,
      ...(over === undefined ? {} : { crossing: over }),
      problems: warnings,
      pass: found.topSpeed !== null,
    };
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: performanceText(report, terminal.style, terminal.width),
      quiet: report.pass ? '' : 'It does not move on the level.\n',
      found: [],
      files: [{ name: 'pull.csv', text: pullCsv(report.line) }],
    };
  },
});

/** What comes of a scenario without a drive line. */
function withoutDriveline(warnings: readonly Problem[]): Outcome {
  const problem: Problem = {
    path: 'vehicle.driveline',
    message: 'is missing, so there is nothing to tell',
    hint: 'give the vehicle a drive line: battery and parts',
    severity: 'error',
  };
  const report = unreadableReport('performance', [...warnings, problem]);
  return { exit: exits.unusable, report, text: '', quiet: '', found: [problem], files: [] };
}
