import { didYouMean } from '../../shared/near.ts';
import type { AngledBy, DrivePart } from './driveline.ts';
import type { Fitting } from './entry.ts';
import type { Angled } from './part.ts';

/** Parts with what the angles of their joints follow from. Unknown names are problems. */
export function withAngles(parts: readonly DrivePart[], fitting: Fitting): DrivePart[] {
  return parts.map((part) => ({ ...part, angledBy: angledBy(parts, part, fitting) }));
}

function angledBy(parts: readonly DrivePart[], part: DrivePart, fitting: Fitting): AngledBy | undefined {
  const { angled } = part.law;
  if (angled === undefined) return undefined;
  if (angled.fixed !== undefined) return { kind: 'fixed', angle: angled.fixed };
  const path = `vehicle.driveline.parts[${part.index}]`;
  const beside = [...part.inputs, ...part.outputs].filter((o) => parts[o]?.ends !== undefined);
  const shaft =
    angled.shaft === undefined ? beside[0] : shaftNamed(parts, angled.shaft, `${path}.shaft`, fitting);
  if (shaft === undefined) return undefined;
  const other = otherShaft(parts, angled.against, beside, shaft, path, fitting);
  if (other === null) return undefined;
  if (other !== undefined) return { kind: 'shafts', shaft, other };
  return bodyOf(angled, part, parts[shaft]?.axisIn === 'across', shaft, path, fitting);
}

/** The other shaft of a joint between two; undefined when a body stands on the other side; null for an unknown name. */
function otherShaft(
  parts: readonly DrivePart[],
  against: Angled['against'],
  beside: readonly number[],
  shaft: number,
  path: string,
  fitting: Fitting,
): number | undefined | null {
  if (against === undefined) return beside.find((o) => o !== shaft);
  if (!('shaft' in against)) return undefined;
  return shaftNamed(parts, against.shaft, `${path}.against.shaft`, fitting) ?? null;
}

function bodyOf(
  { against }: Angled,
  part: DrivePart,
  across: boolean,
  shaft: number,
  path: string,
  { bodyOf: bodies, problems }: Fitting,
): AngledBy {
  const own = against !== undefined && 'angle' in against ? against : { angle: 0 };
  const named = own.on === undefined ? part.body : bodies.get(own.on);
  if (named === undefined)
    problems.error(
      `${path}.against.on`,
      `no member with a body is called '${own.on}'`,
      didYouMean(own.on ?? '', [...bodies.keys()]) ?? `known: ${[...bodies.keys()].join(', ')}`,
    );
  const [cos, sin] = [Math.cos(own.angle), Math.sin(own.angle)];
  return { kind: 'body', shaft, body: named ?? 0, cos, sin, across };
}

function shaftNamed(
  parts: readonly DrivePart[],
  name: string,
  path: string,
  { problems }: Fitting,
): number | undefined {
  const at = parts.findIndex((part) => part.name === name && part.ends !== undefined);
  if (at >= 0) return at;
  const known = parts.filter(({ ends }) => ends !== undefined).map((part) => part.name);
  const there = parts.some((part) => part.name === name);
  problems.error(
    path,
    there ? `'${name}' has no two ends in the drawing` : `no shaft is called '${name}'`,
    there ? 'give it `ends`' : (didYouMean(name, known) ?? `shafts with ends: ${known.join(', ') || 'none'}`),
  );
  return undefined;
}
