import { didYouMean } from '../../../shared/near.ts';
import type { Checked, Problem } from '../../../shared/problem.ts';
import { type Plane, pivotPlane, pivotsOf, planesOf, type Scenario } from '../../index.ts';
import { pivotNamed } from '../../studies/pivots.ts';
import { together } from '../../studies/planes.ts';

/** A stretch of a side, SI. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The options that say what a map is drawn over. */
export interface PlaneFlags {
  readonly pivot?: string;
  readonly arm?: string;
  readonly bar?: readonly string[];
  readonly carry?: true;
  readonly x?: Span;
  readonly z?: Span;
}

/** The plane that these options name, or what is wrong with them and which names there are. */
export function planeFor(scenario: Scenario, flags: PlaneFlags): Checked<Plane> {
  const { pivot, arm, bar, x, z } = flags;
  const asked = [pivot, arm, bar].filter((name) => name !== undefined).length;
  const names = namesOf(scenario);
  if (asked !== 1) {
    const message =
      asked === 0 ? 'a map needs something to turn' : 'a map is of one pivot, one arm or one bar';
    return refused(
      message,
      `choose ${names.map(([option, list]) => `${option} ${list.join(' | ')}`).join('; ')}`,
    );
  }
  const found = named(scenario, flags);
  if (!found.ok) return found;
  const plane = {
    ...found.value,
    x: { ...found.value.x, ...x },
    z: { ...found.value.z, ...z },
  };
  return { ok: true, value: plane, problems: [] };
}

function namesOf(scenario: Scenario): [string, string[]][] {
  const of = (kind: Plane['kind']) =>
    planesOf(scenario).flatMap((p) => (p.kind === kind ? [`'${p.name}'`] : []));
  const all: [string, string[]][] = [
    ['--pivot', of('pivot')],
    ['--arm', of('arm')],
    ['--bar', of('bar')],
  ];
  return all.filter(([, list]) => list.length > 0);
}

function named(scenario: Scenario, { pivot, arm, bar, carry }: PlaneFlags): Checked<Plane> {
  if (pivot !== undefined) {
    const found = pivotNamed(scenario, pivot);
    const known = pivotsOf(scenario).map((p) => p.name);
    return found === undefined
      ? unknown('pivot', pivot, known)
      : { ok: true, value: pivotPlane(scenario, found, carry === true), problems: [] };
  }
  const kind = arm === undefined ? 'bar' : 'arm';
  const wanted = arm === undefined ? (bar ?? []) : [arm];
  const planes = planesOf(scenario).filter((p) => p.kind === kind);
  const missing = wanted.find((name) => !planes.some((p) => p.name === name));
  const chosen = wanted.flatMap((name) => planes.filter((p) => p.name === name));
  const [first, ...others] = chosen;
  if (missing !== undefined || first === undefined) {
    const what = kind === 'arm' ? 'arm' : 'torsion bar';
    return unknown(
      what,
      missing ?? '',
      planes.map((p) => p.name),
    );
  }
  return { ok: true, value: others.length === 0 ? first : together([first, ...others]), problems: [] };
}

function unknown(what: string, name: string, known: readonly string[]): Checked<never> {
  const hint =
    didYouMean(name, known) ?? (known.length === 0 ? 'it has none' : `there are: ${known.join(', ')}`);
  return refused(`the vehicle has no ${what} called '${name}' that could be turned`, hint);
}

function refused(
  message: string,
  hint: string,
): { readonly ok: false; readonly problems: readonly Problem[] } {
  return { ok: false, problems: [{ path: 'vehicle', message, hint, severity: 'error' }] };
}
