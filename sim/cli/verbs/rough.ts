import { type Command, InvalidArgumentError } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { parseQuantity } from '../../../shared/units.ts';
import { appraise, compile, drive, layGround, type Report, type Scenario } from '../../index.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { figuresOf, type Ride, rideOf, spectraOf } from '../../rough/statistics.ts';
import { cutWords, roughStretch, type Stretch, steadyPart } from '../../rough/steady.ts';
import { sweepSpeeds } from '../../rough/sweep.ts';
import { densityInterval } from '../../rough/welch.ts';
import { exits } from '../exit.ts';
import { roughCsv, spectraCsv } from '../files/rough-csv.ts';
import type { Loaded } from '../input/load.ts';
import { spectraSvg } from '../picture/spectra.ts';
import { unreadableReport } from '../report-json.ts';
import type { RoughReport, SpectraReport, SpeedReport } from '../rough-report.ts';
import { type Outcome, scenarioVerb } from '../scenario-verb.ts';
import type { Terminal } from '../terminal.ts';
import { figure } from '../text/figures.ts';
import { endSentence } from '../text/report.ts';
import { quietRough, roughText } from '../text/rough.ts';

/** `axlewright rough`: statistics of drives over random rough ground, over speed, and the fastest safe speed. */
export const rough = scenarioVerb<RoughFlags>({
  name: 'rough',
  mode: 'rough',
  summary: 'drive over random rough ground and find RMS, spectra, lift-offs and the fastest safe speed',
  examples: [
    ['axlewright rough my-truck.json', "at the scenario's own speed"],
    [
      'axlewright rough my-truck.json --speeds 1km/h:6km/h --steps 6',
      'over speed, with the fastest safe one',
    ],
    ['axlewright rough my-truck.json --within 5% --rides 20 --out results', 'surer, with spectra as files'],
  ],
  options: (command: Command) =>
    command
      .option(
        '--speeds <list>',
        "speeds with commas, or a stretch from:to; the scenario's own when left out",
        speedsOf,
      )
      .option('--steps <number>', 'speeds along a stretch, its ends among them', wholeOf(2, 100), 5)
      .option(
        '--halvings <number>',
        'times the gap around the fastest safe speed is halved',
        wholeOf(0, 20),
        3,
      )
      .option(
        '--within <share>',
        '95 % interval of the RMS acceleration: half its width at most',
        shareOf,
        0.1,
      )
      .option(
        '--rides <number>',
        'most rides per speed, each over another ground of its kind',
        wholeOf(1, 1000),
        4,
      ),
  work(loaded, warnings, terminal, flags) {
    const stretch = roughStretch(loaded.scenario, layGround(loaded.scenario, loaded.source));
    const speeds = wantedSpeeds(loaded.scenario, flags);
    const refusal = refusalOf(stretch, speeds);
    if (refusal !== undefined || stretch === undefined) return refused(refusal ?? []);
    const sweep = sweepSpeeds(speeds, flags.speeds === undefined ? 0 : flags.halvings, (speed) =>
      tried(loaded, stretch, speed, flags, terminal),
    );
    const doubts = doubtsOf(sweep.tried, flags.within);
    const report: RoughReport = {
      mode: 'rough',
      title: loaded.scenario.title,
      vehicle: loaded.scenario.vehicle.name,
      ...vehicleFigures(compile(loaded.scenario)),
      stretch,
      cutSays: cutWords,
      speeds: sweep.tried,
      fastest: sweep.fastest?.speed ?? null,
      fails: sweep.fails?.speed ?? null,
      problems: [...warnings, ...doubts],
      pass: sweep.fastest !== undefined,
    };
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: roughText(report, terminal.style, terminal.width),
      quiet: quietRough(report),
      found: doubts,
      files: [
        { name: 'rough.csv', text: roughCsv(report) },
        { name: 'spectra.csv', text: spectraCsv(report) },
        { name: 'spectra.svg', text: spectraSvg(report) },
      ],
    };
  },
});

/** The options that only this verb has. */
interface RoughFlags {
  readonly speeds?: { readonly list?: readonly number[]; readonly from?: number; readonly to?: number };
  readonly steps: number;
  readonly halvings: number;
  readonly within: number;
  readonly rides: number;
}

function speedsOf(text: string): NonNullable<RoughFlags['speeds']> {
  const read = text.split(/[,:]/).map((part) => parseQuantity(part.trim(), 'speed'));
  const values = read.flatMap((each) => (each.ok && each.value > 0 && each.value <= 100 ? [each.value] : []));
  const [from = 0, to = 0] = values;
  if (
    values.length < read.length ||
    (text.includes(':') && (text.includes(',') || read.length !== 2 || from >= to))
  )
    throw new InvalidArgumentError('Wanted: speeds above 0 with units, such as 1km/h,2km/h or 1km/h:6km/h.');
  return text.includes(':') ? { from, to } : { list: values };
}

const wholeOf =
  (least: number, most: number) =>
  (text: string): number => {
    const number = Number(text);
    if (!Number.isInteger(number) || number < least || number > most)
      throw new InvalidArgumentError(`Wanted: a whole number from ${least} to ${most}.`);
    return number;
  };

function shareOf(text: string): number {
  const read = parseQuantity(text, 'ratio');
  if (!read.ok || !(read.value > 0 && read.value < 1))
    throw new InvalidArgumentError('Wanted: a share above 0 and below 1, such as 10% or 0.1.');
  return read.value;
}

/** Sizes of the speeds to try, m/s. */
function wantedSpeeds({ vehicle }: Scenario, { speeds, steps }: RoughFlags): readonly number[] {
  if (speeds === undefined) return [Math.abs(vehicle.drive.speed)];
  const { list, from = 0, to = 0 } = speeds;
  return list ?? Array.from({ length: steps }, (_, i) => from + ((to - from) * i) / (steps - 1));
}

function refusalOf(stretch: Stretch | undefined, speeds: readonly number[]): readonly Problem[] | undefined {
  const refusal = (path: string, message: string, hint: string): readonly Problem[] => [
    { path, message, hint, severity: 'error' },
  ];
  if (stretch === undefined)
    return refusal('ground', 'has no random rough ground', "add a piece of kind 'rough'");
  if (speeds.some((speed) => speed === 0))
    return refusal('vehicle.drive.speed', 'is 0: the vehicle does not move', 'give it a speed, or --speeds');
  return undefined;
}

function refused(problems: readonly Problem[]): Outcome {
  const report = unreadableReport('rough', problems);
  return { exit: exits.unusable, report, text: '', quiet: '', found: problems, files: [] };
}

/** The scenario at another speed, m/s forward or rearward as before, over another ground of the same kind. */
function at(scenario: Scenario, speed: number, ride: number): Scenario {
  const { vehicle } = scenario;
  return {
    ...scenario,
    vehicle: { ...vehicle, drive: { ...vehicle.drive, speed } },
    ground: scenario.ground.map((piece) =>
      piece.kind === 'rough' ? { ...piece, seed: (piece.seed + ride) % 2 ** 32 } : piece,
    ),
  };
}

/** Rides at one speed until the RMS acceleration is sure enough, or the most were made. */
function tried(
  { scenario, source }: Loaded,
  stretch: Stretch,
  size: number,
  { within, rides: most }: RoughFlags,
  terminal: Terminal,
): SpeedReport {
  const speed = scenario.vehicle.drive.speed < 0 ? -size : size;
  const rides: Ride[] = [];
  const why = new Set<string>();
  const first = scenario.ground.find((piece) => piece.kind === 'rough')?.seed ?? 0;
  const seeds: number[] = [];
  while (seeds.length < most && !isSure(rides, within)) {
    const ride = seeds.length;
    const changed = at(scenario, speed, ride);
    seeds.push((first + ride) % 2 ** 32);
    const recording = drive(changed, {
      source,
      progress: ({ share }) =>
        terminal.progress(`at ${figure(size, 'm/s')}, ride ${ride + 1}  ${Math.floor(100 * share)} %`),
    });
    for (const reason of reasonsOf(appraise(changed, recording))) why.add(reason);
    const steady = steadyPart(recording, stretch, speed);
    // a ride that ends early, or is too short, tells no more over another ground
    if (steady === undefined) break;
    rides.push(rideOf(recording, steady));
  }
  return {
    speed,
    holds: why.size === 0,
    why: [...why],
    seeds,
    cut: rides.map(({ cut, rate }) => (cut.before + cut.dying) / rate),
    figures: rides.length === 0 ? null : figuresOf(rides),
    spectra: spectraReport(rides),
  };
}

function isSure(rides: readonly Ride[], within: number): boolean {
  if (rides.length === 0) return false;
  const { value, low, high } = figuresOf(rides).acceleration;
  return high - low <= 2 * within * value;
}

/** Why a ride is not safe: criteria that fail, and an end before the end. */
function reasonsOf({ verdicts, end, pass }: Report): readonly string[] {
  const failing = verdicts.filter((verdict) => !verdict.pass).map(({ asks }) => `Fails: ${asks}`);
  if (pass || end === undefined) return failing;
  const finished = end.kind === 'arrived' || end.kind === 'time-up';
  return finished ? failing : [...failing, endSentence(end)];
}

function spectraReport(rides: readonly Ride[]): SpectraReport | null {
  const spectra = spectraOf(rides);
  if (spectra === undefined) return null;
  const { acceleration, loads } = spectra;
  return {
    frequency: [...acceleration.frequency],
    acceleration: [...acceleration.density],
    loads: loads.map(({ density }, i) => ({ wheel: rides[0]?.wheels[i] ?? '', density: [...density] })),
    ...densityInterval(acceleration.freedom),
  };
}

/** Warnings where speeds have no figures, or figures that are less sure than was asked. */
function doubtsOf(speeds: readonly SpeedReport[], within: number): readonly Problem[] {
  const named = (some: readonly SpeedReport[]) =>
    some.map(({ speed }) => figure(Math.abs(speed), 'm/s')).join(', ');
  const warning = (message: string, hint: string): Problem => ({
    path: 'ground',
    message,
    hint,
    severity: 'warning',
  });
  const short = speeds.filter(({ figures }) => figures === null);
  const unsure = speeds.filter(({ figures }) => {
    const { value, low, high } = figures?.acceleration ?? { value: 1, low: 1, high: 1 };
    return high - low > 2 * within * value;
  });
  const longer = 'make the rough ground longer';
  return [
    ...(short.length === 0
      ? []
      : [warning(`too little steady driving is left for statistics at ${named(short)}`, longer)]),
    ...(unsure.length === 0
      ? []
      : [
          warning(
            `the RMS acceleration is less sure than ± ${figure(within, '1')} at ${named(unsure)}`,
            `${longer}, or allow more --rides`,
          ),
        ]),
  ];
}
