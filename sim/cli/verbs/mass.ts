import { type Command, InvalidArgumentError } from 'commander';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import type { Problem } from '../../../shared/problem.ts';
import { parseQuantity } from '../../../shared/units.ts';
import { compile, layGround, type Scenario } from '../../index.ts';
import { type MassCurve, massCurve } from '../../ledger/curve.ts';
import { type GreatestMass, greatestMass } from '../../ledger/mass.ts';
import { vehicleFigures } from '../../report/appraise.ts';
import { exits } from '../exit.ts';
import { massCurveCsv } from '../files/ledger-csv.ts';
import type { MassReport } from '../ledger-report.ts';
import { scenarioVerb } from '../scenario-verb.ts';
import { massText, quietMass } from '../text/ledger.ts';

/** `axlewright mass`: how heavy the vehicle may come out before something gives on its ground. */
export const mass = scenarioVerb<MassFlags>({
  name: 'mass',
  mode: 'mass',
  summary: 'find how heavy the vehicle may come out before something gives, and what sets it',
  examples: [
    ['axlewright mass my-truck.json', 'all mass items heavier alike'],
    ['axlewright mass my-truck.json --at "-250 mm, 150 mm"', 'a load in the dump body'],
    ['axlewright mass my-truck.json --curve', 'the largest step over mass'],
  ],
  options: (command: Command) =>
    command
      .option('--at <x,z>', 'put more mass at this point of the chassis, as drawn', pointOf)
      .option('--curve', 'the largest obstacle of the kind on its ground over mass, too'),
  work({ scenario, source }, problems, terminal, { at, curve }) {
    terminal.progress('weighing');
    const found = greatestMass(
      scenario,
      layGround(scenario, source),
      at === undefined ? {} : { spread: { at } },
    );
    const curved = curve === true ? massCurve(scenario) : undefined;
    const report = reportOf(scenario, at, found, curved, problems);
    return {
      exit: report.pass ? exits.pass : exits.failed,
      report,
      text: massText(report, terminal.style, terminal.width),
      quiet: quietMass(report),
      found: [],
      files: report.curve
        ? [{ name: 'mass.csv', text: massCurveCsv(report.curve.points, report.curve.unit) }]
        : [],
    };
  },
});

/** The options that only this verb has. */
interface MassFlags {
  readonly at?: Vec2;
  readonly curve?: true;
}

/** Two lengths with a comma between. */
function pointOf(text: string): Vec2 {
  const [x, z, ...rest] = text.split(/[,;]/).map((part) => parseQuantity(part.trim(), 'length'));
  if (!x?.ok || !z?.ok || rest.length > 0)
    throw new InvalidArgumentError("Wanted: a point of the drawing, such as '-250 mm, 150 mm'.");
  return { x: x.value, z: z.value };
}

/** It passes when today's mass holds. */
function reportOf(
  scenario: Scenario,
  at: Vec2 | undefined,
  found: GreatestMass,
  curve: MassCurve | undefined,
  problems: readonly Problem[],
): MassReport {
  const { mass: greatest, today, more, factor, setBy, most, least, unhelped } = found;
  return {
    mode: 'mass',
    title: scenario.title,
    vehicle: scenario.vehicle.name,
    ...vehicleFigures(compile(scenario)),
    spread: at ?? 'items',
    greatest,
    margin: greatest === null ? null : greatest / today - 1,
    more,
    factor,
    setBy: setBy ?? null,
    most,
    least,
    unhelped,
    ...(curve === undefined ? {} : { curve: curveReport(curve) }),
    problems,
    pass: unhelped.length === 0 && greatest !== null && greatest >= today,
  };
}

function curveReport({ obstacle, there, points }: MassCurve): NonNullable<MassReport['curve']> {
  return {
    obstacle: obstacle.kind,
    title: obstacle.title,
    unit: obstacle.unit,
    there: there ?? null,
    points: points.map(({ mass: at, size, setBy }) => ({ mass: at, size, setBy: setBy ?? null })),
  };
}
