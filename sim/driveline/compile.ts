import { didYouMean } from '../../shared/near.ts';
import type { Problems } from '../../shared/problem.ts';
import { withControllers } from './controllers.ts';
import type { Driveline, DrivePart, ShaftEnd } from './driveline.ts';
import type { DrivelineEntry, Fitting, PartEntry } from './entry.ts';
import { withAngles } from './joints.ts';
import type { PartKind, PartLaw } from './part.ts';
import { ratingOf } from './rating.ts';
import { partKinds } from './registry.ts';

export type { PartEntry };

const kinds = partKinds as readonly unknown[] as readonly PartKind[];

/** Kind of a part; every part of a read scenario has one. */
const kindOf = (entry: PartEntry): PartKind => kinds.find((k) => k.kind === entry.kind) as PartKind;

/**
 * Compiles a drive line: parts in order, each after what turns it, with the axle lines that they turn. Unknown names,
 * circles, parts without a source and axle lines that are turned twice are problems; the parts concerned are left out.
 */
export function compileDriveline(entry: DrivelineEntry, fitting: Fitting): Driveline {
  const sorted = inOrder(entry.parts, fitting.problems);
  const place = new Map(sorted.map((index, at) => [entry.parts[index]?.name ?? '', at]));
  const parts: DrivePart[] = [];
  for (const index of sorted) {
    const part = entry.parts[index] as PartEntry;
    const inputs = inputsOf(part).map((name) => place.get(name) ?? -1);
    parts.push(partOf(part, index, inputs, parts, fitting));
  }
  const outputs = parts.map((_, p) => parts.flatMap((other, o) => (other.inputs.includes(p) ? [o] : [])));
  const joined = parts.map((part, p) => ({ ...part, outputs: outputs[p] ?? [] }));
  const whole = withAngles(withControllers(joined, entry, fitting.problems), fitting);
  const lastPart = fitting.wheels.map((_, w) => whole.findIndex((part) => part.wheels.includes(w)));
  return { parts: whole, lastPart, supply: entry.battery };
}

/** Names of the parts that turn a part. */
export const inputsOf = ({ from }: PartEntry): readonly string[] =>
  from === undefined ? [] : typeof from === 'string' ? [from] : from;

function partOf(
  part: PartEntry,
  index: number,
  inputs: readonly number[],
  before: readonly DrivePart[],
  { wheels, carriers, bodyOf, problems }: Fitting,
): DrivePart {
  const kind = kindOf(part);
  const law: PartLaw = kind.law(part as never);
  const axisIn = axisOf(part, before[inputs[0] ?? -1]);
  const path = `vehicle.driveline.parts[${index}]`;
  const turned = part.wheels.flatMap((name, i) => {
    const w = wheels.indexOf(name);
    if (w < 0) unknown(name, `${path}.wheels[${i}]`, 'axle line', wheels, problems);
    return w < 0 ? [] : [w];
  });
  const rating = part.rating === undefined ? kind.rating?.(part as never) : ratingOf(part.rating);
  const home = kind.onCarrier ? carriers[turned[0] ?? -1] : undefined;
  const other = axisIn === 'across' ? 'lengthwise' : 'across';
  return {
    name: part.name,
    kind: part.kind,
    sort: kind.sort,
    index,
    inputs,
    outputs: [],
    wheels: turned,
    body: bodyNamed(part.on ?? home ?? 'chassis', `${path}.on`, bodyOf, problems),
    at: part.at,
    count: part.count,
    mass: part.mass * part.count,
    law,
    rating,
    axisIn,
    axisOut: law.turnsCorner ? other : axisIn,
    ends: endsOf(part, path, bodyOf, problems),
    angledBy: undefined,
  };
}

/** A motor says how its shaft lies; everything else lies as what turns it. */
function axisOf(part: PartEntry, input: DrivePart | undefined): DrivePart['axisIn'] {
  return 'axis' in part ? part.axis : (input?.axisOut ?? 'lengthwise');
}

function endsOf(
  part: PartEntry,
  path: string,
  bodyOf: Fitting['bodyOf'],
  problems: Problems,
): DrivePart['ends'] {
  if (!('ends' in part) || part.ends === undefined) return undefined;
  const [a, b] = part.ends.map(
    ({ on, x, z }, i): ShaftEnd => ({
      body: bodyNamed(on, `${path}.ends[${i}].on`, bodyOf, problems),
      at: { x, z },
    }),
  );
  return a && b ? [a, b] : undefined;
}

function bodyNamed(name: string, path: string, bodyOf: Fitting['bodyOf'], problems: Problems): number {
  const body = bodyOf.get(name);
  if (body === undefined) unknown(name, path, 'member with a body', [...bodyOf.keys()], problems);
  return body ?? 0;
}

function unknown(
  name: string,
  path: string,
  what: string,
  known: readonly string[],
  problems: Problems,
): void {
  problems.error(
    path,
    `no ${what} is called '${name}'`,
    didYouMean(name, known) ?? `known: ${known.join(', ')}`,
  );
}

/** Indices of the parts, each after what turns it. Parts of a circle, or with unknown inputs, are left out with a problem. */
function inOrder(parts: readonly PartEntry[], problems: Problems): number[] {
  const byName = new Map(parts.map((part, index) => [part.name, index]));
  const state = parts.map(() => 'new' as 'new' | 'open' | 'done' | 'bad');
  const order: number[] = [];
  const visit = (index: number): boolean => {
    const part = parts[index] as PartEntry;
    const path = `vehicle.driveline.parts[${index}].from`;
    if (state[index] === 'open')
      problems.error(
        path,
        `'${part.name}' turns itself in a circle`,
        'let one part of the circle begin at a motor',
      );
    if (state[index] !== 'new') return state[index] === 'done';
    state[index] = 'open';
    const inputs = inputsOf(part);
    if (inputs.length === 0 && kindOf(part).sort !== 'motor')
      problems.error(path, `is missing: nothing turns '${part.name}'`, 'name the part that turns it');
    const fit = inputs.every((name) => {
      const input = byName.get(name);
      if (input === undefined) unknown(name, path, 'part of the drive line', [...byName.keys()], problems);
      return input !== undefined && visit(input);
    });
    state[index] = fit && (inputs.length > 0 || kindOf(part).sort === 'motor') ? 'done' : 'bad';
    if (state[index] === 'done') order.push(index);
    return state[index] === 'done';
  };
  parts.forEach((_, index) => {
    visit(index);
  });
  return order;
}
