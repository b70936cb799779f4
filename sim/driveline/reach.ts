import { posesWith } from '../mechanism/at-stops.ts';
import { makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { Mechanism, Member } from '../mechanism/mechanism.ts';
import { JointAngles } from './angles.ts';
import type { DrivePart } from './driveline.ts';

/** The worst angle that the stops of the suspension let a joint take. */
export interface JointReach {
  /** Index of the part. */
  readonly part: number;
  /** rad. */
  readonly angle: number;
  /** Members away from where they are drawn, and at which of their stops. */
  readonly pose: readonly { readonly member: string; readonly side: 'bump' | 'droop' }[];
}

/** Members that are tried in every combination; with more of them only all at bump and all at droop. */
const mostMembers = 4;

/** For each joint with a known angle, the worst of it over the stops of the members that move its shafts. */
export function jointReaches(mechanism: Mechanism): JointReach[] {
  const parts = mechanism.driveline?.parts ?? [];
  const angles = new JointAngles(parts);
  return parts.flatMap((part, p): JointReach[] => {
    const moved = membersOf(mechanism, bodiesOf(parts, part));
    if (part.angledBy === undefined || !Number.isFinite(angles.at(p, undefined))) return [];
    let worst: JointReach = { part: p, angle: angles.at(p, undefined), pose: [] };
    for (const pose of combinations(moved)) {
      const k = placementOf(mechanism, pose);
      const angle = k === undefined ? Number.NaN : angles.at(p, k);
      if (angle > worst.angle + 1e-9)
        worst = { part: p, angle, pose: pose.map(({ member, side }) => ({ member: member.name, side })) };
    }
    return [worst];
  });
}

/** A member with stops, and one that is at a stop. */
interface Movable {
  readonly index: number;
  readonly member: Member;
}
interface AtStop extends Movable {
  readonly side: 'bump' | 'droop';
}

/** Bodies that the angle of a joint depends on. */
function bodiesOf(parts: readonly DrivePart[], { angledBy: by }: DrivePart): number[] {
  if (by === undefined || by.kind === 'fixed') return [];
  const ends = (shaft: number) => parts[shaft]?.ends?.map(({ body }) => body) ?? [];
  return by.kind === 'shafts' ? [...ends(by.shaft), ...ends(by.other)] : [...ends(by.shaft), by.body];
}

/** Members with stops whose motion moves one of these bodies. */
function membersOf(mechanism: Mechanism, bodies: readonly number[]): Movable[] {
  const moving = new Set<number>();
  for (const body of bodies) for (let b = body; b > 0; b = mechanism.bodies[b]?.parent ?? -1) moving.add(b);
  return mechanism.members.flatMap((member, m) => {
    const { coordinate, bump, droop } = member;
    if (bump === undefined && droop === undefined) return [];
    const child =
      coordinate?.kind === 'joint'
        ? mechanism.joints[coordinate.joint]?.child
        : coordinate?.kind === 'lift'
          ? coordinate.body
          : undefined;
    return child !== undefined && moving.has(child) ? [{ index: m, member }] : [];
  });
}

/** Every choice of bump, droop or as drawn; with many members only all at one side. */
function combinations(members: readonly Movable[]): AtStop[][] {
  const sides = ['droop', 'bump'] as const;
  const has = ({ member }: Movable, side: 'bump' | 'droop') => member[side] !== undefined;
  if (members.length > mostMembers)
    return sides.map((side) => members.filter((m) => has(m, side)).map((m) => ({ ...m, side })));
  return members.reduce<AtStop[][]>(
    (all, m) =>
      all.flatMap((pose) => [
        pose,
        ...sides.filter((side) => has(m, side)).map((side) => [...pose, { ...m, side }]),
      ]),
    [[]],
  );
}

function placementOf(mechanism: Mechanism, pose: readonly AtStop[]) {
  const motions = new Map(
    pose.map(({ index, member, side }) => [
      index,
      side === 'bump' ? (member.bump ?? 0) : -(member.droop ?? 0),
    ]),
  );
  const poses = posesWith(mechanism, motions);
  if (poses === undefined) return undefined;
  const k = makeKinematics(mechanism.bodies.length);
  poses.forEach((at, b) => {
    setPose(k, mechanism, b, at);
  });
  return k;
}
