import { type Command, InvalidArgumentError } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { parseQuantity } from '../../../shared/units.ts';
import { compile, type Scenario } from '../../index.ts';
import type { Halt } from '../../limits/cross.ts';
import { type FoundLimit, type Limits, limitsOf } from '../../limits/limits.ts';
import type { ObstacleKind } from '../../limits/obstacle.ts';
import { obstacleKinds } from '../../limits/registry.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { exits } from '../exit.ts';
import { curvesCsv } from '../files/curves-csv.ts';
import type { HaltReport, LimitReport, LimitsReport } from '../report-json.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import type { Terminal } from '../terminal.ts';
import { limitsText, quietLimits } from '../text/limits.ts';

const kindNames = obstacleKinds.map(({ kind }): string => kind);

/** `axlewright limits`: the largest obstacle of each kind that the vehicle crosses in a crawl, and what stops it there. */
export const limits = scenarioVerb<LimitFlags>({
  name: 'limits',
  mode: 'limits',
  summary: 'find the largest step, trench, grade and log that it crosses, and what stops it there',
  examples: [
    ['axlewright limits my-truck.json --grip 0.6', 'on ground with a grip of 0.6'],
    ['axlewright limits my-truck.json --curves --out results', 'over grip and mass too, as CSV'],
  ],
  options: (command: Command) =>
    command
      .option('--grip <ratio>', "grip of every tyre, instead of each one's own", gripOf)
      .option('--only <kinds>', `some of ${kindNames.join(', ')}, with commas between`, kindsOf)
      .option('--curves', 'each limit over grip and over mass, too'),
  work({ scenario }, warnings, terminal, { grip, only, curves }) {
    const mechanism = compile(scenario);
    const found = limitsOf(scenario, mechanism, {
      ...(grip === undefined ? {} : { grip }),
      ...(only === undefined ? {} : { obstacles: only }),
      curves: curves === true,
      progress: showProgress(terminal),
    });
    const report = reportOf(scenario, mechanism, found, warnings);
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: limitsText(report, terminal.style, terminal.width),
      quiet: quietLimits(report),
      found: [],
      files: curves === true ? [{ name: 'curves.csv', text: curvesCsv(report.limits) }] : [],
    };
  },
});

/** The options that only this verb has. */
interface LimitFlags {
  readonly grip?: number;
  readonly only?: readonly ObstacleKind[];
  readonly curves?: true;
}

/** The kinds named in a list with commas. */
function kindsOf(text: string): ObstacleKind[] {
  const names = text.split(',').map((name) => name.trim());
  const unknown = names.find((name) => !kindNames.includes(name));
  if (unknown !== undefined)
    throw new InvalidArgumentError(`'${unknown}' is no obstacle. Wanted: ${kindNames.join(', ')}.`);
  return obstacleKinds.filter(({ kind }) => names.includes(kind));
}

/** Greatest coefficient of friction that is taken: that of a scenario's tyres. */
const mostGrip = 3;

function gripOf(text: string): number {
  const read = parseQuantity(text, 'ratio');
  if (!read.ok || read.value < 0 || read.value > mostGrip)
    throw new InvalidArgumentError(`Wanted: a number from 0 to ${mostGrip}, such as 0.6 or 60 %.`);
  return read.value;
}

/** `looking for limits  33 %  Trench`. */
function showProgress(terminal: Terminal) {
  return ({ share, next }: { readonly share: number; readonly next: string }): void =>
    terminal.progress(`looking for limits  ${Math.floor(100 * share)} %  ${next}`);
}

/** It passes when the vehicle can move on the level and every obstacle of today's ground lies within its limit. */
function reportOf(
  scenario: Scenario,
  mechanism: Mechanism,
  found: Limits,
  problems: readonly Problem[],
): LimitsReport {
  const entries = found.found.map(entryOf);
  return {
    mode: 'limits',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(mechanism),
    grip: found.grip ?? null,
    reverse: found.sense < 0,
    level: found.level ? haltOf(found.level) : null,
    limits: entries,
    problems,
    pass: !found.level && entries.every(({ margin }) => margin === null || margin >= 0),
  };
}

function entryOf({
  obstacle,
  today,
  size,
  halt,
  most,
  remarks,
  overGrip,
  overMass,
}: FoundLimit): LimitReport {
  const { kind, title, measures, unit } = obstacle;
  return {
    kind,
    title,
    measures,
    unit,
    limit: size,
    halt: halt ? haltOf(halt) : null,
    most,
    remarks,
    today: today ?? null,
    margin: today === undefined ? null : size / today - 1,
    ...(overGrip === undefined ? {} : { overGrip }),
    ...(overMass === undefined ? {} : { overMass }),
  };
}

const haltOf = ({ by, says, station }: Halt): HaltReport => ({ by, says, station });
