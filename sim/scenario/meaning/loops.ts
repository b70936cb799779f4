import { cross, distance, scale, sub, type Vec2 } from '../../../shared/geometry/vec.ts';
import type { BodyPoint, Joint, Mechanism, Rod } from '../../mechanism/mechanism.ts';
import type { WholeCheck } from './check.ts';
import { rankOf } from './rank.ts';

/** Ways in which a joint lets its child move: two directions and a turn when it is free, one otherwise. */
const freedomsOf = (joint: Joint): number => (joint.kind === 'free' ? 3 : 1);

/** Whether a body is moved by a joint: it is the joint's child or hangs below it. */
function moves(mechanism: Mechanism, joint: Joint, body: number): boolean {
  for (let b = body; b > 0; b = mechanism.bodies[b]?.parent ?? -1) if (b === joint.child) return true;
  return false;
}

/** Joints between the bodies that a rod joins: those that move one of its ends and not the other. */
function jointsOf(mechanism: Mechanism, rod: Rod): Joint[] {
  return mechanism.joints.filter(
    (joint) => moves(mechanism, joint, rod.a.body) !== moves(mechanism, joint, rod.b.body),
  );
}

/** Rate of change of a point along `u` for each freedom of a joint that moves it; turns are made lengths by `size`. */
function ratesOf(joint: Joint, { at }: BodyPoint, u: Vec2, size: number): number[] {
  const turning = cross(sub(at, joint.anchor), u) / size;
  if (joint.kind === 'hinge') return [turning];
  return joint.kind === 'slide' ? [joint.axis.x * u.x + joint.axis.z * u.z] : [u.x, u.z, turning];
}

/** How the length of a rod changes with each freedom of these joints, in the drawn position. */
function rowOf(mechanism: Mechanism, joints: readonly Joint[], rod: Rod): number[] {
  const u = scale(sub(rod.b.at, rod.a.at), 1 / rod.length);
  return joints.flatMap((joint) => {
    const a = moves(mechanism, joint, rod.a.body) ? ratesOf(joint, rod.a, u, mechanism.size) : undefined;
    const b = moves(mechanism, joint, rod.b.body) ? ratesOf(joint, rod.b, u, mechanism.size) : undefined;
    return Array.from({ length: freedomsOf(joint) }, (_, i) => (b?.[i] ?? 0) - (a?.[i] ?? 0));
  });
}

interface Group {
  readonly rods: Rod[];
  readonly joints: Set<Joint>;
}

/** Rods that share a joint, directly or through others, belong to one loop or net of loops. */
function groupsOf(mechanism: Mechanism): Group[] {
  let groups: Group[] = [];
  for (const rod of mechanism.rods) {
    const joints = new Set(jointsOf(mechanism, rod));
    const touching = groups.filter((group) => [...group.joints].some((joint) => joints.has(joint)));
    const merged = {
      rods: [...touching.flatMap((g) => g.rods), rod],
      joints: new Set([...touching.flatMap((g) => [...g.joints]), ...joints]),
    };
    groups = [...groups.filter((group) => !touching.includes(group)), merged];
  }
  return groups;
}

/**
 * Rods leave the parts that they join free to move: not more rods than freedoms, none that only repeats what others
 * hold. Freedoms and rank of the rods' constraint matrix in the drawn position: textbooks on mechanisms (Grübler).
 */
export const loopsMove: WholeCheck = ({ mechanism }, problems) => {
  for (const rod of mechanism.rods.filter((r) => distance(r.a.at, r.b.at) === 0)) {
    problems.error('vehicle.members', `'${rod.name}' has no length`, 'move one of its ends');
  }
  if (problems.failed) return;
  for (const { rods, joints } of groupsOf(mechanism)) {
    const names = rods.map((rod) => `'${rod.name}'`).join(', ');
    const freedoms = [...joints].reduce((sum, joint) => sum + freedomsOf(joint), 0);
    const rows = rods.map((rod) => rowOf(mechanism, [...joints], rod));
    const rank = rankOf(rows);
    if (rods.length > freedoms) {
      problems.error(
        'vehicle.members',
        `${names}: ${rods.length} rods for ${freedoms} ${freedoms === 1 ? 'freedom' : 'freedoms'} of the parts that they join, so the loop cannot close once anything moves`,
        'leave out a rod, or hang a part on a housing',
      );
    } else if (rank < rods.length) {
      problems.warn(
        'vehicle.members',
        `${names}: one of these rods holds nothing that the others do not hold already in the drawn position`,
        'move an end, so that the rods neither meet in one point nor run in one line',
      );
    } else if (rank === freedoms) {
      problems.warn(
        'vehicle.members',
        `${names}: these rods leave the parts that they join no motion at all`,
        'leave out a rod if something ought to move',
      );
    }
  }
};
