import { type Command, InvalidArgumentError } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { parseQuantity } from '../../../shared/units.ts';
import {
  chooseMeasure,
  compile,
  Field,
  type MapAsk,
  mapOver,
  type Plane,
  Study,
  standOn,
} from '../../index.ts';
import { bogieTransfers } from '../../joints/bogie-transfer.ts';
import { pullingStanding } from '../../joints/pulling.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { usualChoice } from '../../studies/choice.ts';
import { exits } from '../exit.ts';
import { mapCsv } from '../files/studies-csv.ts';
import type { Loaded } from '../input/load.ts';
import { type PlaneFlags, planeFor, type Span } from '../input/plane.ts';
import { mapSvg } from '../picture/map.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import type { MapReport, SideReport } from '../study-report.ts';
import type { Terminal } from '../terminal.ts';
import { mapText } from '../text/studies.ts';
import { refused } from './matters.ts';

/** `axlewright map`: a measure of the crossing over the places of a pivot, the sizes of an arm, or the figures of a bar. */
export const map = scenarioVerb<MapFlags>({
  name: 'map',
  mode: 'map',
  summary: 'map a measure of the crossing over the place of a pivot, the size of an arm, or a torsion bar',
  examples: [
    ['axlewright map corrie-6x6 --pivot middle-arm --out results', 'as picture and CSV'],
    ["axlewright map my-truck.json --bar 'front bar' --bar 'rear bar'", 'two bars turned as one'],
    ['axlewright map my-truck.json --pivot bogie --x -140mm:-100mm', 'a stretch of your own'],
  ],
  options: (command: Command) =>
    command
      .option('--pivot <name>', 'pivot of this member, or pin of a rod, moved forward and up')
      .option('--arm <name>', 'length of this arm, and height of its pivot')
      .option('--bar <name>', 'thickness and preload of this torsion bar; may be given again', several)
      .option('--carry', 'move all that hangs on the pivot with it')
      .option('--size <columns x rows>', 'points along both sides', sizeOf, { columns: 60, rows: 40 })
      .option('--x <from:to>', 'stretch of the first side, such as -140mm:-100mm', spanOf)
      .option('--z <from:to>', 'stretch of the second side', spanOf)
      .option(
        '--measure <name>',
        "measure, such as wheelLeastLoad[rear] or criteria[0]; 'leastLoadShare' when left out",
      )
      .option('--stations <number>', 'stations of each crossing', stationsOf, 200),
  work(loaded, warnings, terminal, flags) {
    const { scenario } = loaded;
    const chosen = chooseMeasure(flags.measure ?? usualChoice, scenario);
    const plane = planeFor(scenario, flags);
    if (!chosen.ok || !plane.ok) return refused([...chosen.problems, ...plane.problems], 'map');
    const { columns, rows } = flags.size;
    const ask: MapAsk = {
      ...loaded,
      stations: flags.stations,
      measure: chosen.value.text,
      x: { ...plane.value.x, steps: columns },
      z: { ...plane.value.z, steps: rows },
    };
    const field = worked(ask, terminal);
    const report = reportOf(loaded, ask, plane.value, field, warnings);
    const { x, z, measure } = report;
    const heads = {
      x: `${x.name} (${x.unit})`,
      z: `${z.name} (${z.unit})`,
      value: `${measure.name} (${measure.unit})`,
    };
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: mapText(report, terminal.style, terminal.width),
      quiet: '',
      found: [],
      files: [
        { name: 'map.csv', text: mapCsv(field, heads) },
        { name: 'map.svg', text: mapSvg(report) },
      ],
    };
  },
});

/** The options that only this verb has. */
interface MapFlags extends PlaneFlags {
  readonly size: { readonly columns: number; readonly rows: number };
  readonly measure?: string;
  readonly stations: number;
}

const several = (value: string, before: readonly string[] = []): readonly string[] => [...before, value];

function sizeOf(text: string): { columns: number; rows: number } {
  const [, columns = 0, rows = 0] = (/^(\d+)\s*[x×]\s*(\d+)$/.exec(text) ?? []).map(Number);
  if (Math.min(columns, rows) < 2 || Math.max(columns, rows) > 400)
    throw new InvalidArgumentError('Wanted: columns x rows, each from 2 to 400, such as 60x40.');
  return { columns, rows };
}

function spanOf(text: string): Span {
  const ends = text
    .split(':')
    .map((end) =>
      (['length', 'torque', 'angle', 'torsionStiffness'] as const)
        .map((dimension) => parseQuantity(end, dimension))
        .find((read) => read.ok),
    );
  const [from, to] = ends;
  if (ends.length !== 2 || !from?.ok || !to?.ok || !(from.value < to.value))
    throw new InvalidArgumentError('Wanted: from:to with units, such as -140mm:-100mm.');
  return { from: from.value, to: to.value };
}

function stationsOf(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 2 || number > 10_000)
    throw new InvalidArgumentError('Wanted: a whole number from 2 to 10000.');
  return number;
}

/** All points, with a line that tells how far the work is. */
function worked(ask: MapAsk, terminal: Terminal): Field {
  const field = new Field(ask);
  const all = ask.x.steps * ask.z.steps;
  let done = 0;
  for (const tile of mapOver(ask)) {
    field.add(tile);
    done += tile.points.length;
    terminal.progress(`mapping  ${Math.floor((100 * done) / all)} %`);
  }
  return field;
}

/** The object that is printed. It passes when any point has an answer. */
function reportOf(
  loaded: Loaded,
  ask: MapAsk,
  plane: Plane,
  field: Field,
  problems: readonly Problem[],
): MapReport {
  const { scenario } = loaded;
  const study = new Study(ask);
  const vehicle = study.vehicle();
  const row = vehicle.ok ? study.row(vehicle, study.cross(vehicle)) : undefined;
  const best = field.best(study.choice.better, nearToday(ask));
  const side = ({ knob, from, to, steps }: MapAsk['x']): SideReport => ({
    name: knob.name,
    unit: knob.unit,
    now: knob.now,
    from,
    to,
    steps,
  });
  const grid = <T>(of: (column: number, row: number) => T): T[][] =>
    Array.from({ length: field.rows }, (_, r) => Array.from({ length: field.columns }, (__, c) => of(c, r)));
  return {
    mode: 'map',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(compile(scenario)),
    plane: { name: plane.name, kind: plane.kind },
    measure: {
      name: study.choice.text,
      title: row?.title ?? study.choice.text,
      unit: row?.unit ?? '1',
      better: study.choice.better,
    },
    x: side(ask.x),
    z: side(ask.z),
    today: study.at(),
    best: best ?? null,
    evenPivot: plane.kind === 'pivot' ? evenPivot(loaded, plane.name) : null,
    values: grid((c, r) => field.point(c, r)?.value ?? null),
    holds: grid((c, r) => field.point(c, r)?.holds === true),
    problems,
    pass: best !== undefined,
  };
}

/** Where today lies on the map, as shares of its sides. */
function nearToday({ x, z }: MapAsk): { readonly x: number; readonly z: number } {
  const share = ({ knob, from, to }: MapAsk['x']) => (knob.now - from) / (to - from);
  return { x: share(x), z: share(z) };
}

/** Pivot height of a driven beam at which its drive moves no load between its ends, m. */
function evenPivot({ scenario, source }: Loaded, name: string): number | null {
  const stood = standOn(scenario, { source });
  if (stood.kind !== 'stands') return null;
  const mechanism = compile(scenario);
  const transfers = bogieTransfers(mechanism, pullingStanding(mechanism, stood.standing, 1));
  return transfers.find((t) => t.name === name)?.cancelAt ?? null;
}
