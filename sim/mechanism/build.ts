import type { Vec2 } from '../../shared/geometry/vec.ts';
import { distance } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import type { MemberBuilder, MemberKind, StopLimits } from '../members/member.ts';
import { memberKinds } from '../members/registry.ts';
import type { BodyPoint, Coordinate, Joint, Member, Rod } from './mechanism.ts';

/** A member as it stands in a scenario: its kind's own fields beside name and kind. */
export interface MemberEntry {
  readonly name: string;
  readonly kind: string;
}

/** Stops that a member asked for, before the vehicle's weight is known. */
export interface AskedStops {
  readonly member: number;
  readonly coordinate: Coordinate;
  readonly limits: StopLimits;
  readonly lever: number;
}

/** Bodies, joints, rods and stops of all members, parents before children. Body 0 is the chassis. */
export interface Tree {
  readonly bodies: readonly { readonly name: string; readonly parent: number }[];
  readonly joints: readonly Joint[];
  readonly rods: readonly Rod[];
  readonly members: readonly Member[];
  readonly stops: readonly AskedStops[];
  /** Body index by member name, 'chassis' included; rods have none. */
  readonly bodyOf: ReadonlyMap<string, number>;
  readonly problems: Problems;
}

interface Growing {
  bodies: { name: string; parent: number }[];
  joints: Joint[];
  rods: Rod[];
  stops: AskedStops[];
  bodyOf: Map<string, number>;
  problems: Problems;
}

/** Kind of a member entry, or undefined for an unknown one (the reader has refused it before). */
export function memberKindOf(entry: MemberEntry): MemberKind | undefined {
  return (memberKinds as readonly unknown[] as readonly MemberKind[]).find(
    (kind) => kind.kind === entry.kind,
  );
}

/**
 * Expands members into bodies, joints and rods. Members may stand in any order; each is expanded after those that it
 * needs. Unknown parents and circles are problems at `vehicle.members[i]`.
 */
export function growTree(entries: readonly MemberEntry[]): Tree {
  const grown: Growing = {
    bodies: [{ name: 'chassis', parent: -1 }],
    joints: [],
    rods: [],
    stops: [],
    bodyOf: new Map([['chassis', 0]]),
    problems: new Problems(),
  };
  const members: (Member | undefined)[] = entries.map(() => undefined);
  for (const index of inOrder(entries, grown.problems)) {
    const entry = entries[index];
    const kind = entry && memberKindOf(entry);
    if (!entry || !kind) continue;
    const built = kind.expand(entry.name, entry as never, builderFor(grown, index));
    if (built.body >= 0) grown.bodyOf.set(entry.name, built.body);
    const limits = grown.stops.find((s) => s.member === index)?.limits;
    members[index] = {
      name: entry.name,
      kind: entry.kind,
      ...built,
      ...(limits?.bump === undefined ? {} : { bump: limits.bump }),
      ...(limits?.droop === undefined ? {} : { droop: limits.droop }),
    };
  }
  return { ...grown, members: members.filter((m): m is Member => m !== undefined) };
}

/** Indices of the entries, each after those that it needs; entries of a circle or with unknown parents are left out. */
function inOrder(entries: readonly MemberEntry[], problems: Problems): number[] {
  const byName = new Map(entries.map((entry, index) => [entry.name, index]));
  const state = entries.map(() => 'new' as 'new' | 'open' | 'done' | 'bad');
  const order: number[] = [];
  const visit = (index: number): boolean => {
    if (state[index] === 'done') return true;
    if (state[index] === 'bad') return false;
    if (state[index] === 'open') {
      problems.error(
        `vehicle.members[${index}].on`,
        `'${entries[index]?.name}' hangs on itself through its parents`,
        "let one of the circle hang on 'chassis'",
      );
      return false;
    }
    state[index] = 'open';
    const entry = entries[index];
    const needs = entry ? (memberKindOf(entry)?.needs(entry as never) ?? []) : [];
    const fit = needs.every(
      (name) => name === 'chassis' || (byName.has(name) && visit(byName.get(name) ?? -1)),
    );
    state[index] = fit ? 'done' : 'bad';
    if (fit) order.push(index);
    return fit;
  };
  entries.forEach((_, index) => {
    visit(index);
  });
  return order;
}

/** Hands one member the means to add its parts. */
function builderFor(grown: Growing, member: number): MemberBuilder {
  const addJoint = (
    kind: Joint['kind'],
    name: string,
    child: number,
    anchor: Vec2,
    axis: Vec2,
    sign: 1 | -1,
  ): Coordinate => {
    grown.joints.push({ name, kind, parent: grown.bodies[child]?.parent ?? 0, child, anchor, axis, sign });
    return { kind: 'joint', joint: grown.joints.length - 1 };
  };
  return {
    body(name, on) {
      grown.bodies.push({ name, parent: grown.bodyOf.get(on) ?? 0 });
      return grown.bodies.length - 1;
    },
    hinge: (name, child, anchor, sign) => addJoint('hinge', name, child, anchor, { x: 0, z: 1 }, sign),
    slide: (name, child, axis, anchor) => addJoint('slide', name, child, anchor, axis, 1),
    free: (name, child) => {
      addJoint('free', name, child, { x: 0, z: 0 }, { x: 0, z: 1 }, 1);
    },
    rod: (name: string, a: BodyPoint, b: BodyPoint) => {
      grown.rods.push({ name, a, b, length: distance(a.at, b.at) });
    },
    bodyOf: (on) => grown.bodyOf.get(on) ?? 0,
    stops: (coordinate, limits, lever) => {
      grown.stops.push({ member, coordinate, limits, lever });
    },
    problem: (path, message, hint) => {
      grown.problems.error(`vehicle.members[${member}].${path}`, message, hint);
    },
  };
}
