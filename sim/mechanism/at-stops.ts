import type { Pose } from '../../shared/geometry/vec.ts';
import { distance, place, turn, unplace } from '../../shared/geometry/vec.ts';
import type { BodyPoint, Joint, Mechanism } from './mechanism.ts';

/** Where members stand: m or rad of each member's own coordinate, by index; drawn ones are left out. */
export type Motions = ReadonlyMap<number, number>;

/**
 * Poses of all bodies with the chassis as drawn and some members moved by so much along their own coordinates; what
 * rods hold follows (damped least squares on the rods' lengths from the drawn position). undefined where rods don't
 * let them get there.
 */
export function posesWith(mechanism: Mechanism, motions: Motions): readonly Pose[] | undefined {
  const free = freedoms(mechanism, motions);
  const values = new Float64Array(free.length);
  const bodies = () => poses(mechanism, motions, free, values);
  const errors = () => errorsOf(mechanism, motions, bodies());
  let now = errors();
  for (let n = 0; n < 40 && norm(now) > 1e-9 * mechanism.size; n++) {
    const columns = free.map((freedom, i) => {
      const before = values[i] as number;
      const step = 1e-6 * (freedom.turns ? 1 : mechanism.size);
      values[i] = before + step;
      const moved = errors();
      values[i] = before;
      return moved.map((error, e) => (error - (now[e] as number)) / step);
    });
    const steps = leastSquares(columns, now, 1e-9 * mechanism.size ** 2);
    if (!steps) return undefined;
    steps.forEach((step, i) => {
      const most = free[i]?.turns ? 0.3 : 0.3 * mechanism.size;
      values[i] = (values[i] as number) + Math.min(most, Math.max(-most, step));
    });
    now = errors();
  }
  return norm(now) > 1e-6 * mechanism.size ? undefined : bodies();
}

/** One freedom that nothing has fixed: the coordinate of a joint, or one of the three of a free body. */
interface Freedom {
  readonly joint: number;
  readonly axis: 'own' | 'x' | 'z' | 'angle';
  readonly turns: boolean;
}

/** Freedoms that only rods hold. Without rods nothing needs to follow, and all else stays as drawn. */
function freedoms(mechanism: Mechanism, motions: Motions): Freedom[] {
  if (mechanism.rods.length === 0) return [];
  return mechanism.joints.flatMap((joint, j): Freedom[] => {
    if (joint.kind === 'free')
      return (['x', 'z', 'angle'] as const).map((axis) => ({ joint: j, axis, turns: axis === 'angle' }));
    const fixed = mechanism.members.some(
      (member, m) =>
        member.coordinate?.kind === 'joint' &&
        member.coordinate.joint === j &&
        (motions.has(m) || ranged(member)),
    );
    return fixed ? [] : [{ joint: j, axis: 'own', turns: joint.kind === 'hinge' }];
  });
}

const ranged = ({ bump, droop }: Mechanism['members'][number]): boolean =>
  bump !== undefined || droop !== undefined;

function poses(
  mechanism: Mechanism,
  motions: Motions,
  free: readonly Freedom[],
  values: Float64Array,
): Pose[] {
  const at: Pose[] = mechanism.bodies.map(() => ({ x: 0, z: 0, angle: 0 }));
  mechanism.bodies.forEach((body, b) => {
    const j = mechanism.joints.findIndex((joint) => joint.child === b);
    const joint = mechanism.joints[j];
    if (b === 0 || !joint) return;
    const value = (axis: Freedom['axis']) => {
      const i = free.findIndex((f) => f.joint === j && f.axis === axis);
      return i < 0 ? 0 : (values[i] as number);
    };
    const parent = at[body.parent] as Pose;
    if (joint.kind === 'free')
      at[b] = { x: parent.x + value('x'), z: parent.z + value('z'), angle: parent.angle + value('angle') };
    else at[b] = moved(joint, parent, motionOf(mechanism, motions, j) ?? value('own'));
  });
  return at;
}

/** The motion asked of a joint, or 0 where its member has a range and nobody asked. */
function motionOf({ members }: Mechanism, motions: Motions, j: number): number | undefined {
  const m = members.findIndex(({ coordinate }) => coordinate?.kind === 'joint' && coordinate.joint === j);
  const member = members[m];
  return member === undefined ? undefined : (motions.get(m) ?? (ranged(member) ? 0 : undefined));
}

function moved({ kind, anchor, axis, sign }: Joint, parent: Pose, q: number): Pose {
  if (kind === 'slide') {
    const way = turn(axis, parent.angle);
    return { x: parent.x + q * way.x, z: parent.z + q * way.z, angle: parent.angle };
  }
  const angle = parent.angle + sign * q;
  const pin = place(parent, anchor);
  const arm = turn(anchor, angle);
  return { x: pin.x - arm.x, z: pin.z - arm.z, angle };
}

/** What rods are too long, and lifts are off what was asked, m. */
function errorsOf(mechanism: Mechanism, motions: Motions, at: readonly Pose[]): number[] {
  const world = ({ body, at: point }: BodyPoint) => place(at[body] as Pose, point);
  const rods = mechanism.rods.map((rod) => distance(world(rod.a), world(rod.b)) - rod.length);
  const lifts = mechanism.members.flatMap(({ coordinate, ...member }, m) => {
    if (coordinate?.kind !== 'lift' || !(motions.has(m) || ranged(member as Mechanism['members'][number])))
      return [];
    const hub = place(at[coordinate.body] as Pose, coordinate.at);
    return [unplace(at[coordinate.parent] as Pose, hub).z - coordinate.at.z - (motions.get(m) ?? 0)];
  });
  return [...rods, ...lifts];
}

const norm = (errors: readonly number[]): number => Math.max(0, ...errors.map(Math.abs));

/** Steps that undo the errors: (JᵀJ + d)·s = −Jᵀe by elimination; `columns[i][e]` = ∂error e/∂freedom i. */
function leastSquares(
  columns: readonly (readonly number[])[],
  errors: readonly number[],
  damping: number,
): number[] | undefined {
  const n = columns.length;
  const rows = columns.map((a, i) => [
    ...columns.map((b, j) => dotOf(a, b) + (i === j ? damping : 0)),
    -dotOf(a, errors),
  ]);
  for (let k = 0; k < n; k++) {
    const pivot = rows[k] as number[];
    if (!((pivot[k] as number) > 0)) return undefined;
    for (let i = k + 1; i < n; i++) {
      const row = rows[i] as number[];
      const factor = (row[k] as number) / (pivot[k] as number);
      for (let j = k; j <= n; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number);
    }
  }
  const steps = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    const row = rows[k] as number[];
    let sum = row[n] as number;
    for (let j = k + 1; j < n; j++) sum -= (row[j] as number) * (steps[j] as number);
    steps[k] = sum / (row[k] as number);
  }
  return steps;
}

const dotOf = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
