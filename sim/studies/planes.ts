import { distance } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { Scenario } from '../scenario/schema.ts';
import { figureAt, type Knob, knobAt, type Move } from './knob.ts';
import { type Pivot, pivotsOf } from './pivots.ts';

/** Two knobs that span a map, with the stretch of each that is worth a look. */
export interface Plane {
  /** Name of the pivot, arm or bar. */
  readonly name: string;
  /** 'pivot': place of a pin, forward and up. 'arm': its length, and the height of its pivot. 'bar': of a torsion bar. */
  readonly kind: 'pivot' | 'arm' | 'bar';
  readonly x: Stretch;
  readonly z: Stretch;
}

/** A knob and the values between which it is turned, SI. */
export interface Stretch {
  readonly knob: Knob;
  readonly from: number;
  readonly to: number;
}

/** How far around its place a pivot is looked for, wheel radii of the smallest wheel. */
const around = 0.6;
/** Shares of today's value between which lengths, diameters and preloads are looked for. */
const [low, high] = [0.6, 1.5];

/**
 * The knobs that move a pivot forward and up.
 * @param carried takes everything that hangs on it along, so that the whole of it moves on the chassis
 */
export function pivotKnobs(
  scenario: Scenario,
  pivot: Pivot,
  carried = false,
): { readonly x: Knob; readonly z: Knob } {
  const points = carried ? pivot.carried : pivot.points;
  const knob = (axis: 'x' | 'z'): Knob => ({
    name: `${pivot.name}: ${pivot.kind} ${axis}${carried ? ' with all that hangs on it' : ''}`,
    dimension: 'length',
    unit: 'm',
    now: pivot.at[axis],
    moves: points.flatMap((point) => move(scenario, [...point, axis], 1)),
  });
  return { x: knob('x'), z: knob('z') };
}

/** Every plane that a map of this vehicle can be drawn over. */
export function planesOf(scenario: Scenario): readonly Plane[] {
  const pivots = pivotsOf(scenario);
  return [
    ...pivots.map((pivot) => pivotPlane(scenario, pivot)),
    ...pivots.flatMap((pivot) => armPlanes(scenario, pivot)),
    ...scenario.vehicle.elements.flatMap((_, i) => barPlane(scenario, i)),
  ];
}

/** The map of a pivot's place. */
export function pivotPlane(scenario: Scenario, pivot: Pivot, carried = false): Plane {
  const reach = around * Math.min(...scenario.vehicle.wheels.map((w) => w.radius));
  const { x, z } = pivotKnobs(scenario, pivot, carried);
  const near = (knob: Knob): Stretch => ({ knob, from: knob.now - reach, to: knob.now + reach });
  return { name: pivot.name, kind: 'pivot', x: near(x), z: near(z) };
}

/** For each arm on this pivot: its length, its far end and all on it moving along the arm, against the pivot's height. */
function armPlanes(scenario: Scenario, pivot: Pivot): Plane[] {
  return scenario.vehicle.members.flatMap((member, i) => {
    if (member.kind !== 'arm' || pivot.kind !== 'pivot' || !pivot.members.includes(member.name)) return [];
    const length = distance(member.pivot, member.end);
    if (!(length > 0)) return [];
    const way = { x: (member.end.x - member.pivot.x) / length, z: (member.end.z - member.pivot.z) / length };
    const own = ['vehicle', 'members', i];
    const points = distinct([[...own, 'end'], ...beyond(scenario, member.name, member.end)]);
    const knob: Knob = {
      name: `${member.name}: length`,
      dimension: 'length',
      unit: 'm',
      now: length,
      moves: points.flatMap((point) =>
        (['x', 'z'] as const).flatMap((axis) => move(scenario, [...point, axis], way[axis])),
      ),
    };
    const height = pivotPlane(scenario, pivot).z;
    return [
      { name: member.name, kind: 'arm', x: { knob, from: low * length, to: high * length }, z: height },
    ];
  });
}

/** Points that sit at the end of an arm: the hub on it, and what hangs on its end with all that hangs on that. */
function beyond(scenario: Scenario, arm: string, end: { readonly x: number; readonly z: number }): Path[] {
  const { wheels } = scenario.vehicle;
  const near = 1e-3 * Math.min(...wheels.map((w) => w.radius));
  const hubs = wheels.flatMap((w, i) =>
    w.on === arm && distance(w.at, end) <= near ? [['vehicle', 'wheels', i, 'at']] : [],
  );
  const hung = pivotsOf(scenario)
    .filter((p) => p.kind === 'pivot' && p.on === arm && distance(p.at, end) <= near)
    .flatMap((p) => p.carried);
  return [...hubs, ...hung];
}

function distinct(paths: readonly Path[]): Path[] {
  return [...new Map(paths.map((path) => [path.join('/'), path])).values()];
}

/** The map of a torsion bar: its thickness (its rate where that is given), and its preload or what stands for it. */
function barPlane(scenario: Scenario, i: number): Plane[] {
  const element = scenario.vehicle.elements[i];
  if (element?.kind !== 'torsion-bar') return [];
  const own = ['vehicle', 'elements', i];
  const thick =
    element.bar === undefined ? knobAt(scenario, [...own, 'rate']) : thickness(scenario, own, element.name);
  const press = pressStretch(scenario, own, element.name);
  if (thick === undefined || press === undefined) return [];
  const x = { knob: thick, from: low * thick.now, to: high * thick.now };
  return [{ name: element.name, kind: 'bar', x, z: press }];
}

/** Scales the section of a bar: its diameter, or its first side with the others in proportion. */
function thickness(scenario: Scenario, own: Path, name: string): Knob | undefined {
  const at = [...own, 'bar', 'section'];
  const sides = ['diameter', 'outside', 'inside', 'width', 'height', 'arm'].flatMap((side) => {
    const now = figureAt(scenario, [...at, side]);
    return now === undefined ? [] : [{ side, path: [...at, side], now }];
  });
  const [first] = sides;
  if (first === undefined || !(first.now > 0)) return undefined;
  const moves = sides.map(({ path, now }): Move => ({ path, by: now / first.now, now }));
  return { name: `${name}: ${first.side}`, dimension: 'length', unit: 'm', now: first.now, moves };
}

/** What presses a bar: the ride height that its preload is found from, its free angle, its preload; else its length. */
function pressStretch(scenario: Scenario, own: Path, name: string): Stretch | undefined {
  const { rideHeight, wheels } = scenario.vehicle;
  if (rideHeight?.setBy.includes(name)) {
    const knob = knobAt(scenario, ['vehicle', 'rideHeight', 'lift']);
    const reach = 0.3 * Math.min(...wheels.map((w) => w.radius));
    return knob && { knob, from: knob.now - reach, to: knob.now + reach };
  }
  const places = [['freeAt'], ['preload'], ['bar', 'length'], ['damping']];
  const knob = places
    .map((place) => knobAt(scenario, [...own, ...place]))
    .find((k) => k !== undefined && k.now !== 0);
  if (knob === undefined) return undefined;
  const ends = [low * knob.now, high * knob.now];
  return { knob, from: Math.min(...ends), to: Math.max(...ends) };
}

/** Several planes turned as one: every knob of the others moves by as much as that of the first. */
export function together(planes: readonly [Plane, ...Plane[]]): Plane {
  const [first] = planes;
  const stretch = (axis: 'x' | 'z'): Stretch => ({
    ...first[axis],
    knob: {
      ...first[axis].knob,
      name: planes.map((p) => p[axis].knob.name).join(' and '),
      moves: distinctMoves(planes.flatMap((p) => p[axis].knob.moves)),
    },
  });
  return {
    name: planes.map((p) => p.name).join(' and '),
    kind: first.kind,
    x: stretch('x'),
    z: stretch('z'),
  };
}

/** Moves of different figures: a ride height that presses several bars is moved once. */
function distinctMoves(moves: readonly Move[]): Move[] {
  return [...new Map(moves.map((m) => [m.path.join('/'), m])).values()];
}

/** How a figure moves with a knob; nothing where no figure stands. */
function move(scenario: Scenario, path: Path, by: number): Move[] {
  const now = figureAt(scenario, path);
  return now === undefined || by === 0 ? [] : [{ path, by, now }];
}
