import { type Pose, place, turn, type Vec2 } from '../../shared/geometry/vec.ts';
import type { BodyPoint, Joint, Mechanism } from '../mechanism/mechanism.ts';

/** Motion of a rigid body in the plane: velocity of its material at the world's origin, and its turn rate, nose-up positive. */
export interface Twist {
  readonly vx: number;
  readonly vz: number;
  readonly w: number;
}

const still: Twist = { vx: 0, vz: 0, w: 0 };

/** Velocity of the material of a moving body at a world point. */
export const twistAt = ({ vx, vz, w }: Twist, p: Vec2): { readonly vx: number; readonly vz: number } => ({
  vx: vx - w * p.z,
  vz: vz + w * p.x,
});

/** Turning about a world point at 1 rad. */
const about = (p: Vec2): Twist => ({ vx: p.z, vz: -p.x, w: 1 });

const plus = (a: Twist, b: Twist, k: number): Twist => ({
  vx: a.vx + k * b.vx,
  vz: a.vz + k * b.vz,
  w: a.w + k * b.w,
});

/**
 * How all that hangs on a hinge moves when it turns nose-up by 1 rad while its parent stands still, undefined for other
 * bodies. Rods keep their lengths; a beam further down that carries two wheels or more keeps its attitude, so that it
 * moves as one load; what else could move is held still by its springs. `raised`: the hinge drawn that much higher, m.
 * @returns undefined when it is no hinge, or cannot turn for its rods
 */
export function turningOf(
  mechanism: Mechanism,
  joint: number,
  poses: readonly Pose[],
  raised = 0,
): readonly (Twist | undefined)[] | undefined {
  return mechanism.joints[joint]?.kind === 'hinge'
    ? travellingOf(mechanism, joint, poses, raised)
    : undefined;
}

/**
 * The same for any joint: a hinge turns nose-up by 1 rad, a guided axle moves along its guide by 1 m, an axle on rods
 * rises by 1 m as its rods let it.
 * @returns undefined when it cannot move for its rods
 */
export function travellingOf(
  mechanism: Mechanism,
  joint: number,
  poses: readonly Pose[],
  raised = 0,
): readonly (Twist | undefined)[] | undefined {
  const root = mechanism.joints[joint];
  if (root === undefined) return undefined;
  const moved: Joint = { ...root, anchor: { x: root.anchor.x, z: root.anchor.z + raised } };
  const below = mechanism.joints.filter((j) => j !== root && hangsOn(mechanism, j.child, root.child));
  const own = freedomsOf(moved, poses);
  // an axle on rods is led by its rise; its rods decide the other two
  const lead = own[root.kind === 'free' ? 1 : 0] as Twist;
  const freedoms = [
    ...own.filter((twist) => twist !== lead).map((twist) => ({ joint: root, twist })),
    ...below.flatMap((j) => freedomsOf(j, poses).map((twist) => ({ joint: j, twist }))),
  ];
  const motion = (body: number, rates: readonly number[]): Twist =>
    freedoms.reduce(
      (sum, f, i) => (hangsOn(mechanism, body, f.joint.child) ? plus(sum, f.twist, rates[i] as number) : sum),
      hangsOn(mechanism, body, root.child) ? lead : still,
    );
  const conditions = [
    ...rodConditions(mechanism, root.child, poses),
    ...below.filter((j) => isBeam(mechanism, j)).map((j) => (at: Motion) => at(j.child).w),
  ];
  const rates = solved(conditions, motion, freedoms.length);
  if (rates === undefined) return undefined;
  return mechanism.bodies.map((_, body) =>
    hangsOn(mechanism, body, root.child) ? motion(body, rates) : undefined,
  );
}

type Motion = (body: number) => Twist;

/** Whether a body is `root` or hangs on it. */
function hangsOn(mechanism: Mechanism, body: number, root: number): boolean {
  for (let b = body; b >= 0; b = mechanism.bodies[b]?.parent ?? -1) if (b === root) return true;
  return false;
}

/** A hinged body that carries several wheels. */
const isBeam = (mechanism: Mechanism, { kind, child }: Joint): boolean =>
  kind === 'hinge' && mechanism.wheels.filter((w) => hangsOn(mechanism, w.body, child)).length > 1;

/** The motions that a joint allows its child, in the world. */
function freedomsOf({ kind, anchor, axis, parent }: Joint, poses: readonly Pose[]): Twist[] {
  const pose = poses[parent] as Pose;
  if (kind === 'hinge') return [about(place(pose, anchor))];
  if (kind === 'free') return [{ ...still, vx: 1 }, { ...still, vz: 1 }, about(place(pose, anchor))];
  const way = turn(axis, pose.angle);
  return [{ vx: way.x, vz: way.z, w: 0 }];
}

/** For each rod on what hangs below `root`: how fast it would grow. */
function rodConditions(
  mechanism: Mechanism,
  root: number,
  poses: readonly Pose[],
): ((at: Motion) => number)[] {
  return mechanism.rods
    .filter(
      ({ a, b }) =>
        hangsOn(mechanism, a.body, root) !== hangsOn(mechanism, b.body, root) ||
        hangsOn(mechanism, a.body, root),
    )
    .map(({ a, b }) => {
      const where = ({ body, at }: BodyPoint) => place(poses[body] as Pose, at);
      const [from, to] = [where(a), where(b)];
      const length = Math.hypot(to.x - from.x, to.z - from.z);
      return (at: Motion) => {
        const [va, vb] = [twistAt(at(a.body), from), twistAt(at(b.body), to)];
        return ((vb.vx - va.vx) * (to.x - from.x) + (vb.vz - va.vz) * (to.z - from.z)) / length;
      };
    });
}

/** Rates of the freedoms for which all conditions vanish; those that no condition needs are 0. Undefined when none do. */
function solved(
  conditions: readonly ((at: Motion) => number)[],
  motion: (body: number, rates: readonly number[]) => Twist,
  count: number,
): number[] | undefined {
  const none = Array.from({ length: count }, () => 0);
  const unit = (i: number) => none.map((_, j) => (i === j ? 1 : 0));
  const rows = conditions.map((condition) => {
    const rest = condition((body) => motion(body, none));
    return [...none.map((_, i) => condition((body) => motion(body, unit(i))) - rest), -rest];
  });
  return eliminated(rows, count);
}

/** Solves rows [a₁ … aₙ | b] by elimination with full pivoting; unknowns that stay free are 0. */
function eliminated(rows: number[][], count: number): number[] | undefined {
  const left = rows.map((row) => [...row]);
  const largest = Math.max(1e-300, ...left.flatMap((row) => row.map(Math.abs)));
  const order: { row: number[]; column: number }[] = [];
  for (;;) {
    let best = { row: -1, column: -1, size: 1e-9 * largest };
    left.forEach((row, r) => {
      for (let c = 0; c < count; c++) {
        const size = Math.abs(row[c] as number);
        if (size > best.size) best = { row: r, column: c, size };
      }
    });
    const [pivot] = best.row < 0 ? [] : left.splice(best.row, 1);
    if (pivot === undefined) break;
    for (const row of left) {
      const factor = (row[best.column] as number) / (pivot[best.column] as number);
      row.forEach((value, c) => {
        row[c] = c === best.column ? 0 : value - factor * (pivot[c] as number);
      });
    }
    order.push({ row: pivot, column: best.column });
  }
  if (left.some((row) => Math.abs(row[count] as number) > 1e-9 * largest)) return undefined;
  const rates = Array.from({ length: count }, () => 0);
  for (const { row, column } of order.reverse()) {
    const known = row
      .slice(0, count)
      .reduce((sum, a, c) => (c === column ? sum : sum + a * (rates[c] as number)), 0);
    rates[column] = ((row[count] as number) - known) / (row[column] as number);
  }
  return rates;
}
