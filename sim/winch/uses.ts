import type { LedgerLine, LedgerSort } from '../../shared/report.ts';
import { formatQuantity, formatShare } from '../../shared/units.ts';
import type { Rating } from '../driveline/rating.ts';
import { motorAt, type WinchPower } from './power.ts';
import type { Winch } from './winch.ts';

/** What a haul asks of a winch: tension of the line on the drum, N; torque at the drum, N·m; all lines together, N. */
export interface Demand {
  readonly tension: number;
  readonly drumTorque: number;
  readonly force: number;
}

interface Use {
  readonly sort: LedgerSort;
  readonly of: string;
  readonly path: string;
  readonly quantity: string;
  readonly carries: number;
  readonly limit: number | undefined;
  readonly unit: 'N' | 'N·m' | 'A';
  readonly rating?: Rating | undefined;
  readonly what: string;
}

const dimensions = { N: 'force', N·m: 'torque', A: 'current' } as const;

/** A line of the ledger; a limit that is not known stays unknown. */
function line({ what, rating, limit, ...use }: Use): LedgerLine {
  const shown = (value: number) => formatQuantity(value, dimensions[use.unit]);
  const share =
    limit === undefined ? null : limit > 0 ? use.carries / limit : use.carries > 0 ? Number.MAX_VALUE : 0;
  const says =
    limit === undefined
      ? `${what}: ${shown(use.carries)}; how much it bears is not known`
      : `${what}: ${shown(use.carries)} of ${shown(limit)}${share === null || share > 1e6 ? '' : ` (${formatShare(share)})`}`;
  return {
    ...use,
    use: share,
    limit: limit ?? null,
    ...(limit === undefined ? {} : { how: rating?.how ?? 'given', spread: rating?.spread ?? 0 }),
    says,
  };
}

/**
 * Everything in a winch that could give way under this demand, in the order from the anchor to the source: use of its
 * limit, or unknown. The rope may bear its breaking load over the safety that the document asks for.
 */
export function usesOf(
  winch: Winch,
  power: WinchPower,
  { tension, drumTorque, force }: Demand,
): LedgerLine[] {
  const path = `vehicle.winches[${winch.index}]`;
  const { rope, reduction, brake, name } = winch;
  const lines: LedgerLine[] = [
    line({
      sort: 'winch',
      of: `${name}: anchor`,
      path: `${path}.task.anchor.strength`,
      quantity: 'force',
      carries: force,
      limit: winch.task?.anchor.strength,
      unit: 'N',
      what: `anchor of '${name}'`,
    }),
    line({
      sort: 'winch',
      of: `${name}: rope`,
      path: `${path}.rope.strength`,
      quantity: 'tension',
      carries: tension,
      limit: rope.strength === undefined ? undefined : rope.strength / rope.safety,
      unit: 'N',
      what: `rope of '${name}', ${rope.safety} times safe`,
    }),
  ];
  if (!reduction.locks)
    lines.push(
      line({
        sort: 'winch',
        of: `${name}: brake`,
        path: `${path}.brake`,
        quantity: 'torque',
        carries: drumTorque,
        limit: brake,
        unit: 'N·m',
        what: `brake of '${name}', holding`,
      }),
    );
  return [...lines, ...gearUses(winch, power, drumTorque), ...motorUses(winch, power, drumTorque)];
}

function gearUses(
  { name, index, reduction, from }: Winch,
  power: WinchPower,
  drumTorque: number,
): LedgerLine[] {
  const own: LedgerLine[] =
    from >= 0 && reduction.ratio === 1
      ? []
      : [
          line({
            sort: 'gear',
            of: `${name}: reduction`,
            path: `vehicle.winches[${index}].reduction.rating`,
            quantity: 'torque',
            carries: drumTorque,
            limit: reduction.rating?.torque,
            rating: reduction.rating,
            unit: 'N·m',
            what: `reduction of '${name}', at the drum`,
          }),
        ];
  const way = power.way.map(({ part, each }) =>
    line({
      sort: part.sort,
      of: part.name,
      path: `vehicle.driveline.parts[${part.index}].rating`,
      quantity: 'torque',
      carries: each * drumTorque,
      limit: part.rating?.torque,
      rating: part.rating,
      unit: 'N·m',
      what: `'${part.name}', turning '${name}'`,
    }),
  );
  return [...own, ...way];
}

function motorUses({ name, index, from }: Winch, power: WinchPower, drumTorque: number): LedgerLine[] {
  const path = from >= 0 ? 'vehicle.driveline' : `vehicle.winches[${index}].motor`;
  const torque = drumTorque * power.torquePer;
  const common = { sort: 'motor', path, quantity: 'torque', unit: 'N·m' } as const;
  if (power.motors.length === 0)
    return [
      line({
        ...common,
        of: `${name}: motor`,
        carries: torque,
        limit: undefined,
        what: `motor of '${name}'`,
      }),
    ];
  const motors = power.motors.map((m) =>
    line({
      ...common,
      of: m.name === name ? `${name}: motor` : m.name,
      carries: (torque * m.share) / m.count,
      limit: m.stall / m.count,
      what: m.name === name ? `motor of '${name}' against standstill` : `'${m.name}' against standstill`,
    }),
  );
  const most = power.supply?.currentLimit;
  const currents = power.motors.map((m) => {
    const { current } = motorAt(m, torque * m.share, power.supply);
    return current === undefined ? Number.NaN : current * m.count;
  });
  const current = currents.reduce((sum, one) => sum + one, 0);
  if (most === undefined || Number.isNaN(current)) return motors;
  const supply = line({
    sort: 'supply',
    of: 'battery',
    path: 'vehicle.driveline.battery.currentLimit',
    quantity: 'current',
    carries: current,
    limit: most,
    unit: 'A',
    what: `battery, feeding '${name}'`,
  });
  return [...motors, supply];
}
