import type { Problem } from '../../../shared/problem.ts';
import { type Stand, standOn, standReport } from '../../index.ts';
import { standWords } from '../../statics/stand.ts';
import { type Exit, exitOf, exits } from '../exit.ts';
import { unreadableReport } from '../report-json.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { quietText, reportText } from '../text/report.ts';

/** `axlewright stand`: finds how the vehicle stands on the ground where it starts, and says what each wheel carries. */
export const stand = scenarioVerb({
  name: 'stand',
  mode: 'stand',
  summary: 'let the vehicle stand where it starts: the load of each wheel',
  examples: [
    ["axlewright stand my-truck.json --set 'vehicle.wheels[rear].radius=60 mm'", 'what larger wheels carry'],
  ],
  work({ scenario, source }, warnings, { style, width }) {
    const stood = standOn(scenario, { source });
    if (stood.kind !== 'stands') return fallen(stood, warnings);
    const bare = standReport(scenario, stood.standing);
    const report = { ...bare, problems: [...warnings, ...bare.problems] };
    return {
      exit: exitOf(report),
      report,
      text: reportText(report, style, width),
      quiet: quietText(report),
      found: [],
      files: [],
    };
  },
});

/** Tipping over and sliding away are results, and fail; a balance that was not found is none. */
function fallen(stood: Exclude<Stand, { kind: 'stands' }>, warnings: readonly Problem[]) {
  const message = `the vehicle does not stand where it starts: ${standWords(stood)}`;
  const found: Problem[] = [{ path: 'vehicle', message, severity: 'error' }];
  const exit: Exit = stood.kind === 'none' ? exits.unusable : exits.failed;
  return {
    exit,
    report: unreadableReport('stand', [...warnings, ...found]),
    text: '',
    quiet: '',
    found,
    files: [],
  };
}
