import { formatNumber } from '../../../shared/units.ts';
import type { DrivePart } from '../../driveline/driveline.ts';
import { readDriveline } from '../../driveline/layouts.ts';
import type { Scenario } from '../../scenario/schema.ts';
import { geared, type InLine, inLine, isReduction, withParts } from './line.ts';
import { leastFactor, type Remedy } from './remedy.ts';

/**
 * The same reduction on the whole, moved behind the part: hub reductions at the wheels, and as much less in front of it.
 * Speed stays; everything between turns faster and carries less.
 */
export const reductionBehind: Remedy = {
  kind: 'reduction-behind',
  title: 'Reduction moved behind it, to the hubs',
  find(trouble) {
    const here = inLine(trouble);
    const before = here && common(here);
    if (here === undefined || before === undefined) return [];
    const vehicle = (factor: number) => withHubs(trouble.scenario, here, before, factor);
    const factor = leastFactor(trouble, vehicle, 6);
    if (factor === undefined) return [];
    const ratio = before.law.ratio;
    return [
      {
        says: `Hub reductions of ${formatNumber(factor)} at all wheels, ${before.name} ${formatNumber(ratio)} → ${formatNumber(ratio / factor)}; without the mass of the new gears, whose rating is not known.`,
        scenario: vehicle(factor),
        sets: [],
      },
    ];
  },
};

/** A reduction in front of the part that all axle lines of its source have in common. */
function common({ ways, part }: InLine): DrivePart | undefined {
  const way = ways.find((each) => each.includes(part));
  const source = way?.at(-1);
  const all = ways.filter((each) => each.at(-1) === source);
  return way
    ?.slice(way.indexOf(part) + 1)
    .find((each) => isReduction(each) && all.every((other) => other.includes(each)));
}

/** Efficiency of one spur pair at a hub. Common practice, no source. */
const efficiency = 0.95;

function withHubs(
  scenario: Scenario,
  { driveline, ways, part }: InLine,
  before: DrivePart,
  factor: number,
): Scenario {
  const source = ways.find((way) => way.includes(part))?.at(-1);
  const lines = driveline.lastPart.flatMap((last, w) => {
    const way = ways.find((each) => each[0] === driveline.parts[last]);
    return last >= 0 && way?.at(-1) === source ? [w] : [];
  });
  const changed = withParts(scenario, (entry, i) => {
    const kept = i === before.index ? geared(entry, before, before.law.ratio / factor) : entry;
    const names = lines.map((w) => scenario.vehicle.wheels[w]?.name ?? '');
    return { ...kept, wheels: kept.wheels.filter((name) => !names.includes(name)) };
  });
  const hubs = lines.map((w) => {
    const wheel = scenario.vehicle.wheels[w];
    return {
      name: `${wheel?.name} hub reduction`,
      kind: 'hub-reduction' as const,
      ratio: factor,
      efficiency,
      sense: 'same' as const,
      from: driveline.parts[driveline.lastPart[w] ?? -1]?.name ?? '',
      wheels: [wheel?.name ?? ''],
      count: wheel?.count ?? 1,
    };
  });
  const { vehicle } = changed;
  const parts = [...(vehicle.driveline?.parts ?? []), ...readDriveline({ parts: hubs }).parts];
  return {
    ...changed,
    vehicle: { ...vehicle, driveline: { ...vehicle.driveline, parts } as typeof vehicle.driveline },
  };
}
