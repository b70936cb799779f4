import { type Command, InvalidArgumentError } from 'commander';
import { didYouMean } from '../../../shared/near.ts';
import type { Problem } from '../../../shared/problem.ts';
import { type Scenario, type Stand, standOn, standReport, takeOff } from '../../index.ts';
import { standWords } from '../../statics/stand.ts';
import { type Exit, exitOf, exits } from '../exit.ts';
import { inUnits } from '../in-units.ts';
import { unreadableReport } from '../report-json.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { quietText, reportText } from '../text/report.ts';

/** `axlewright stand`: finds how the vehicle stands on the ground where it starts, and says what each wheel carries. */
export const stand = scenarioVerb<StandFlags>({
  name: 'stand',
  mode: 'stand',
  summary: 'let the vehicle stand where it starts: the load of each wheel',
  examples: [
    ["axlewright stand my-truck.json --set 'vehicle.wheels[rear].radius=60 mm'", 'what larger wheels carry'],
    ["axlewright stand my-truck.json --slope '20 deg' --without 'dump body'", 'empty, on a slope'],
  ],
  options: (command: Command) =>
    command
      .option(
        '--station <length>',
        'stand with the reference point there, instead of where the run starts',
        inUnits('length'),
      )
      .option(
        '--slope <angle>',
        'stand on an even slope instead of the ground, nose-up positive',
        inUnits('angle'),
      )
      .option('--without <name>', 'take a mass item off; may be given again', collect)
      .option(
        '--torque <wheel=torque>',
        'hold by this torque of an axle line instead of locks; may be given again',
        torqueOf,
      ),
  work({ scenario: whole, source }, warnings, { style, width }, { station, slope, without = [], torque }) {
    const unknown = unknownNames(whole, without, Object.keys(torque ?? {}));
    if (unknown.length > 0) return unusable([...warnings, ...unknown], unknown, exits.unusable);
    const scenario = takeOff(whole, without);
    const stood = standOn(scenario, {
      source,
      ...(station === undefined ? {} : { station }),
      ...(slope === undefined ? {} : { slope }),
      ...(torque === undefined ? {} : { torques: torque }),
    });
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
  return unusable([...warnings, ...found], found, stood.kind === 'none' ? exits.unusable : exits.failed);
}

function unusable(problems: readonly Problem[], found: readonly Problem[], exit: Exit) {
  return { exit, report: unreadableReport('stand', problems), text: '', quiet: '', found, files: [] };
}

/** The options that only a stand has; SI. */
interface StandFlags {
  readonly station?: number;
  readonly slope?: number;
  readonly without?: readonly string[];
  readonly torque?: Readonly<Record<string, number>>;
}

/** Names that the options use and the vehicle does not know. */
function unknownNames({ vehicle }: Scenario, items: readonly string[], wheels: readonly string[]): Problem[] {
  const check = (name: string, known: readonly string[], path: string, what: string): Problem[] => {
    if (known.includes(name)) return [];
    const hint = didYouMean(name, known) ?? `known: ${known.join(', ')}`;
    return [{ path, message: `the vehicle has no ${what} called '${name}'`, hint, severity: 'error' }];
  };
  return [
    ...items.flatMap((name) =>
      check(
        name,
        vehicle.masses.map((m) => m.name),
        'vehicle.masses',
        'mass item',
      ),
    ),
    ...wheels.flatMap((name) =>
      check(
        name,
        vehicle.wheels.map((w) => w.name),
        'vehicle.wheels',
        'axle line',
      ),
    ),
  ];
}

const collect = (name: string, before: readonly string[] = []): readonly string[] => [...before, name];

function torqueOf(
  text: string,
  before: Readonly<Record<string, number>> = {},
): Readonly<Record<string, number>> {
  const at = text.indexOf('=');
  if (at < 1)
    throw new InvalidArgumentError("Wanted: the name of an axle line and a torque, as in 'rear=0.2 N m'.");
  return { ...before, [text.slice(0, at).trim()]: inUnits('torque')(text.slice(at + 1)) };
}
