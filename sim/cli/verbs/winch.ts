import { type Command, InvalidArgumentError } from 'commander';
import { didYouMean } from '../../../shared/near.ts';
import { type Problem, Problems } from '../../../shared/problem.ts';
import { compile } from '../../index.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { tellTask } from '../../winch/checks.ts';
import { plainTask, type WinchTask } from '../../winch/fields.ts';
import { studyWinch } from '../../winch/study.ts';
import type { Winch } from '../../winch/winch.ts';
import { exits } from '../exit.ts';
import { inUnits } from '../in-units.ts';
import { unreadableReport } from '../report-json.ts';
import type { WinchReport } from '../rig-report.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { quietWinch, winchText } from '../text/winch.ts';

/** `axlewright winch`: what a winch has to pull, what gives way first, and what the wheels carry meanwhile. */
export const winch = scenarioVerb<WinchFlags>({
  name: 'winch',
  mode: 'winch',
  summary: 'pull the vehicle by its own winch: rope, anchor, motor, and what the wheels carry meanwhile',
  examples: [
    ["axlewright winch my-truck.json --slope '25 deg' --rolling 0.15 --lines 2", 'up a slope of soft ground'],
    ["axlewright winch my-truck.json --hole '30 mm' --anchor-distance '2 m'", 'out of a hole'],
  ],
  options: (command: Command) =>
    command
      .option('--winch <name>', 'this winch only')
      .option('--slope <angle>', 'on an even slope, nose-up positive', slopeOf)
      .option(
        '--hole <depth>',
        'one axle line stands in a hole this deep',
        inUnits('length', { least: 0 }, 'a depth of 0 or more'),
      )
      .option(
        '--rolling <ratio>',
        "rolling resistance instead of the tyres' own",
        inUnits('ratio', { least: 0, most: 1 }, 'a number from 0 to 1'),
      )
      .option('--lines <n>', 'lines of rope that pull; 2 with one snatch block', linesOf)
      .option(
        '--sheave <ratio>',
        'efficiency of a snatch block',
        inUnits('ratio', { above: 0, most: 1 }, 'a number above 0 and up to 1'),
      )
      .option(
        '--anchor-distance <length>',
        'distance of the anchor along the ground',
        inUnits('length', { above: 0 }, 'a length above 0'),
      )
      .option('--anchor-height <length>', 'height of the anchor over the ground', inUnits('length'))
      .option('--towards <end>', 'where the anchor is: front or rear', endOf),
  work({ scenario }, warnings, { style, width }, flags) {
    const mechanism = compile(scenario);
    const all = mechanism.winches ?? [];
    const problems = new Problems();
    const chosen = choose(all, flags.winch, problems);
    const tasks = chosen.map((one) => taskOf(one, flags));
    chosen.forEach((one, i) => {
      tellTask(tasks[i] as WinchTask, mechanism, `vehicle.winches[${one.index}].task`, problems);
    });
    if (problems.failed) return unusable([...warnings, ...problems.list], problems.list);
    const winches = chosen.map((one, i) => studyWinch(mechanism, one, tasks[i]));
    const report: WinchReport = {
      mode: 'winch',
      title: scenario.title,
      vehicle: scenario.vehicle.name,
      ...vehicleFigures(mechanism),
      winches,
      problems: warnings,
      pass: winches.every(({ pass }) => pass),
    };
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: winchText(report, style, width),
      quiet: quietWinch(report),
      found: [],
      files: [],
    };
  },
});

function unusable(problems: readonly Problem[], found: readonly Problem[]) {
  const report = unreadableReport('winch', problems);
  return { exit: exits.unusable, report, text: '', quiet: '', found, files: [] };
}

/** The winches that are meant: one by name, or all. None is a problem. */
function choose(all: readonly Winch[], name: string | undefined, problems: Problems): readonly Winch[] {
  const names = all.map((one) => one.name);
  if (all.length === 0)
    problems.error('vehicle.winches', 'is missing: the vehicle has no winch', 'add one to the scenario');
  else if (name !== undefined && !names.includes(name))
    problems.error(
      'vehicle.winches',
      `the vehicle has no winch called '${name}'`,
      didYouMean(name, names) ?? `known: ${names.join(', ')}`,
    );
  return name === undefined ? all : all.filter((one) => one.name === name);
}

/** The task of the document, with what the command line says instead. */
function taskOf({ task = plainTask }: Winch, flags: WinchFlags): WinchTask {
  const { slope, hole, rolling, lines, sheave, towards, anchorDistance, anchorHeight } = flags;
  const said = { slope, hole, rolling, lines, sheave, towards };
  const known = Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined));
  return {
    ...task,
    ...known,
    anchor: {
      ...task.anchor,
      ...(anchorDistance === undefined ? {} : { distance: anchorDistance }),
      ...(anchorHeight === undefined ? {} : { height: anchorHeight }),
    },
  };
}

/** The options that only this verb has; SI. */
interface WinchFlags {
  readonly winch?: string;
  readonly slope?: number;
  readonly hole?: number;
  readonly rolling?: number;
  readonly lines?: number;
  readonly sheave?: number;
  readonly anchorDistance?: number;
  readonly anchorHeight?: number;
  readonly towards?: WinchTask['towards'];
}

/** Steepest slope that is taken, rad: that of the document. */
const steepest = 1.4;
const slopeOf = inUnits('angle', { least: -steepest, most: steepest }, 'an angle between −80° and 80°');

function linesOf(text: string): number {
  const lines = Number(text);
  if (!Number.isInteger(lines) || lines < 1 || lines > 8)
    throw new InvalidArgumentError('Wanted: a whole number from 1 to 8.');
  return lines;
}

function endOf(text: string): WinchTask['towards'] {
  if (text !== 'front' && text !== 'rear') throw new InvalidArgumentError("Wanted: 'front' or 'rear'.");
  return text;
}
