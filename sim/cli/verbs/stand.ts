import type { Problem } from '../../../shared/problem.ts';
import type { Standing } from '../../../shared/recording.ts';
import { stand as setDown, standReport } from '../../index.ts';
import { exitOf, exits } from '../exit.ts';
import { unreadableReport } from '../report-json.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { problemText } from '../text/problems.ts';
import { quietText, reportText } from '../text/report.ts';

/** Unbalanced force over weight above which the loads are no standing loads: the accuracy promised for them. */
const RESTLESS = 0.001;

/** `axlewright stand`: lets the vehicle settle on the ground where it starts, and says what each wheel carries. */
export const stand = scenarioVerb({
  name: 'stand',
  mode: 'stand',
  summary: 'let the vehicle settle where it starts: the load of each wheel',
  examples: [
    ["axlewright stand my-truck.json --set 'vehicle.wheels[rear].radius=60 mm'", 'what larger wheels carry'],
  ],
  work({ scenario, source }, warnings, { style, width, remark }) {
    const standing = setDown(scenario, source);
    const restless = restlessness(standing);
    if (restless !== undefined) {
      remark(problemText(scenario.title, [restless]));
      return {
        exit: exits.unusable,
        report: unreadableReport('stand', [...warnings, restless]),
        text: '',
        quiet: '',
        files: [],
      };
    }
    const bare = standReport(scenario, standing);
    const report = { ...bare, problems: [...warnings, ...bare.problems] };
    return {
      exit: exitOf(report),
      report,
      text: reportText(report, style, width),
      quiet: quietText(report),
      files: [],
    };
  },
});

/** The problem of a vehicle that never came to rest, if it did not. */
function restlessness({ residual, loads }: Standing): Problem | undefined {
  if (residual <= RESTLESS && loads.every(Number.isFinite)) return undefined;
  return {
    path: 'vehicle',
    message: 'does not come to rest where it starts, so it has no standing loads',
    hint: 'is there a spring, bar or stop for every member, and does the ground hold the vehicle at run.start?',
    severity: 'error',
  };
}
