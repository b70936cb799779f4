import { type Command, InvalidArgumentError } from 'commander';
import { pathText } from '../../../shared/path.ts';
import type { Problem } from '../../../shared/problem.ts';
import { chooseMeasure, compile, type Influences, influencesOf, type Scenario, Study } from '../../index.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { exits } from '../exit.ts';
import { influencesCsv } from '../files/studies-csv.ts';
import type { Loaded } from '../input/load.ts';
import { unreadableReport } from '../report-json.ts';
import { type Outcome, scenarioVerb } from '../scenario-verb.ts';
import type { MattersReport } from '../study-report.ts';
import { mattersText } from '../text/studies.ts';

/** `axlewright matters`: how much a measure of a crossing changes with every figure of the vehicle. */
export const matters = scenarioVerb<MattersFlags>({
  name: 'matters',
  mode: 'matters',
  summary: 'list what matters most: how much each figure of the vehicle changes a measure of the crossing',
  examples: [
    ['axlewright matters corrie-6x6', 'to its least wheel load'],
    ['axlewright matters my-truck.json --measure leastClearance --top 10', 'to the belly clearance'],
  ],
  options: (command: Command) =>
    command
      .option(
        '--measure <name>',
        "measure, such as wheelLeastLoad[rear] or criteria[0]; 'leastLoadShare' when left out",
      )
      .option('--top <number>', 'rows of the table', topOf)
      .option('--crossings', 'by differences between whole crossings in any case'),
  work(loaded, warnings, terminal, flags) {
    const { scenario } = loaded;
    const chosen = flags.measure === undefined ? undefined : chooseMeasure(flags.measure, scenario);
    if (chosen?.ok === false) return refused(chosen.problems);
    const { measure, remark } = measureFor(loaded, flags.measure);
    const progress = (share: number) =>
      terminal.progress(`trying every figure  ${Math.floor(100 * share)} %`);
    const found = influencesOf({
      ...loaded,
      progress,
      ...(measure === undefined ? {} : { measure }),
      ...(flags.crossings === undefined ? {} : { by: 'crossings' as const }),
    });
    const report = reportOf(scenario, found, [...warnings, ...remark]);
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: mattersText(report, flags.top ?? 20, terminal.style, terminal.width),
      quiet: '',
      found: remark,
      files: [{ name: 'matters.csv', text: influencesCsv(report.influences) }],
    };
  },
});

/** The options that only this verb has. */
interface MattersFlags {
  readonly measure?: string;
  readonly top?: number;
  readonly crossings?: true;
}

function topOf(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1)
    throw new InvalidArgumentError('Wanted: a whole number from 1.');
  return number;
}

/** What comes of a measure, pivot or bar that does not exist. */
export function refused(problems: readonly Problem[], mode: 'matters' | 'map' = 'matters'): Outcome {
  const report = unreadableReport(mode, problems);
  return { exit: exits.unusable, report, text: '', quiet: '', found: problems, files: [] };
}

/** Where a wheel is off the ground, its least load is 0 whatever is changed a little: then its time off is looked at. */
function measureFor(
  loaded: Loaded,
  asked: string | undefined,
): { readonly measure: string | undefined; readonly remark: readonly Problem[] } {
  if (asked !== undefined || new Study(loaded).at().value !== 0) return { measure: asked, remark: [] };
  const message = 'a wheel leaves the ground, so that its least load is 0 whatever is changed a little';
  const hint = 'what matters to the longest time off the ground is shown instead';
  return { measure: 'longestOff', remark: [{ path: '', message, hint, severity: 'warning' }] };
}

/** How far the work is, and the object that is printed. It passes when the vehicle gets across. */
function reportOf(scenario: Scenario, found: Influences, problems: readonly Problem[]): MattersReport {
  const { choice, title, unit, today, worst, by, why, list, idle, untried } = found;
  return {
    mode: 'matters',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(compile(scenario)),
    measure: { name: choice.text, title, unit, better: choice.better },
    today,
    worst: worst ?? null,
    by,
    why: why ?? null,
    influences: list.map(({ knob, per, step, change }) => ({
      name: knob.name,
      paths: knob.moves.map(({ path }) => pathText(path)),
      now: knob.now,
      unit: knob.unit,
      per,
      step,
      change,
    })),
    idle,
    untried,
    problems,
    pass: today.value !== null,
  };
}
