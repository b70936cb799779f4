import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { gaugeOf } from '../mechanism/gauge.ts';
import { type Kinematics, makeKinematics, setPose } from '../mechanism/kinematics.ts';
import type { BoundElement, Mechanism } from '../mechanism/mechanism.ts';

/** Undamped frequencies and damping rates of the mechanism in its drawn pose. */
export interface Modes {
  /** Natural frequencies, rad/s, rising. Rods are left out, which can only raise the highest. */
  readonly frequencies: readonly number[];
  /** Greatest rate at which a damper stops a motion, 1/s. */
  readonly damping: number;
  /** The element or tyre that adds most to the highest frequency. */
  readonly stiffest: string;
}

/** What counts as stiffness: as it stands, or the stiffest that each part can get (stops met, tyres pressed hard). */
export type Stiffness = 'standing' | 'greatest';

interface Spring {
  readonly name: string;
  readonly stiffness: number;
  readonly damping: number;
  /** Rate of the spring's coordinate per unit rate of each freedom. */
  readonly row: readonly number[];
}

/**
 * Small-motion analysis in the freedoms of the tree (chassis x, z, turn; one per hinge or slide; three per free body):
 * M·q̈ + K·q = 0 with K = Σ k·jᵀj over elements and tyres. Source: small vibrations, any text on analytical mechanics.
 * `hold`: N/m horizontally on the chassis, so that the free roll along the ground is not a mode of zero frequency.
 */
export function modesOf(mechanism: Mechanism, kind: Stiffness, hold: number): Modes {
  const freedoms = treeFreedoms(mechanism);
  const mass = massMatrix(mechanism, freedoms);
  const springs = allSprings(mechanism, kind, freedoms, hold);
  const n = freedoms.length;
  const lower = new CholeskyDecomposition(mass).lowerTriangularMatrix;
  const scaled = springs.map((s) => ({ ...s, row: forwardSolve(lower, s.row) }));
  const sum = (of: (s: Spring) => number) => {
    const total = Matrix.zeros(n, n);
    for (const s of scaled) addOuter(total, s.row, of(s));
    return total;
  };
  const eigen = new EigenvalueDecomposition(
    sum((s) => s.stiffness),
    { assumeSymmetric: true },
  );
  const squares = eigen.realEigenvalues;
  const top = squares.indexOf(Math.max(...squares));
  const shape = eigen.eigenvectorMatrix.getColumn(top);
  const share = (s: Spring) => s.stiffness * s.row.reduce((d, v, i) => d + v * (shape[i] as number), 0) ** 2;
  const stiffest = scaled.reduce((best, s) => (share(s) > share(best) ? s : best), scaled[0] as Spring);
  const damping = Math.max(
    0,
    ...new EigenvalueDecomposition(
      sum((s) => s.damping),
      { assumeSymmetric: true },
    ).realEigenvalues,
  );
  return {
    frequencies: squares.map((s) => Math.sqrt(Math.max(0, s))).sort((a, b) => a - b),
    damping,
    stiffest: stiffest?.name ?? '',
  };
}

/** One freedom as the velocity that it gives to all bodies in the drawn pose: vx, vz (at centres of mass) and spin. */
export type Freedom = Pick<Kinematics, 'vx' | 'vz' | 'spin'>;

/** Unit motions of all freedoms; a body's motion carries everything that hangs on it. */
export function treeFreedoms(mechanism: Mechanism): Freedom[] {
  const { bodies, joints } = mechanism;
  const carried = (root: number) => bodies.map((_, i) => hangsOn(mechanism, i, root));
  const shift = (root: number, x: number, z: number): Freedom => {
    const f = blank(bodies.length);
    carried(root).forEach((on, i) => {
      if (!on) return;
      f.vx[i] = x;
      f.vz[i] = z;
    });
    return f;
  };
  const turn = (root: number, ax: number, az: number, sense: number): Freedom => {
    const f = blank(bodies.length);
    carried(root).forEach((on, i) => {
      const centre = bodies[i]?.centre;
      if (!on || !centre) return;
      f.spin[i] = sense;
      f.vx[i] = -sense * (centre.z - az);
      f.vz[i] = sense * (centre.x - ax);
    });
    return f;
  };
  const free = (root: number) => [
    shift(root, 1, 0),
    shift(root, 0, 1),
    turn(root, bodies[root]?.centre.x ?? 0, bodies[root]?.centre.z ?? 0, 1),
  ];
  const root = mechanism.root === 'free' ? free(0) : [];
  return [
    ...root,
    ...joints.flatMap((j) => {
      if (j.kind === 'hinge') return [turn(j.child, j.anchor.x, j.anchor.z, j.sign)];
      return j.kind === 'slide' ? [shift(j.child, j.axis.x, j.axis.z)] : free(j.child);
    }),
  ];
}

const blank = (n: number): Freedom => ({
  vx: new Float64Array(n),
  vz: new Float64Array(n),
  spin: new Float64Array(n),
});

/** Whether body i is `root` or hangs on it. */
function hangsOn(mechanism: Mechanism, i: number, root: number): boolean {
  for (let at = i; at >= 0; at = mechanism.bodies[at]?.parent ?? -1) if (at === root) return true;
  return false;
}

export function massMatrix(mechanism: Mechanism, freedoms: readonly Freedom[]): Matrix {
  const n = freedoms.length;
  const mass = Matrix.zeros(n, n);
  for (let a = 0; a < n; a++) {
    for (let b = 0; b <= a; b++) {
      const [f, g] = [freedoms[a] as Freedom, freedoms[b] as Freedom];
      const entry = mechanism.bodies.reduce(
        (sum, body, i) =>
          sum +
          body.mass * ((f.vx[i] ?? 0) * (g.vx[i] ?? 0) + (f.vz[i] ?? 0) * (g.vz[i] ?? 0)) +
          body.inertia * (f.spin[i] ?? 0) * (g.spin[i] ?? 0),
        0,
      );
      mass.set(a, b, entry);
      mass.set(b, a, entry);
    }
  }
  return mass;
}

/** Elements, tyres and the hold, each with its rate per freedom. */
function allSprings(
  mechanism: Mechanism,
  kind: Stiffness,
  freedoms: readonly Freedom[],
  hold: number,
): Spring[] {
  const k = makeKinematics(mechanism.bodies.length);
  mechanism.bodies.forEach((_, i) => {
    setPose(k, mechanism, i, { x: 0, z: 0, angle: 0 });
  });
  const rateOf = (e: BoundElement) => {
    const gauge = gaugeOf(e.coordinate, mechanism);
    return freedoms.map((f) => {
      k.vx.set(f.vx);
      k.vz.set(f.vz);
      k.spin.set(f.spin);
      gauge.read(k);
      return gauge.rate;
    });
  };
  const elements = mechanism.elements
    .filter((e) => kind === 'standing' || !hasStifferTwin(e, mechanism))
    .map(
      (e): Spring => ({
        name: e.name,
        stiffness: e.count * stiffnessOf(e, mechanism, kind),
        damping: e.count * e.law.damping,
        row: rateOf(e),
      }),
    );
  const hubs = mechanism.wheels.map((w): Spring => {
    const centre = mechanism.bodies[w.body]?.centre ?? { x: 0, z: 0 };
    const row = freedoms.map((f) => (f.vz[w.body] ?? 0) + (f.spin[w.body] ?? 0) * (w.hub.x - centre.x));
    const level = tyreStiffness(mechanism, w.tyre.foundation, w.radius, kind);
    return { name: `${w.name} tyre`, stiffness: level.stiffness, damping: level.force * w.tyre.damping, row };
  });
  const held: Spring = { name: 'hold', stiffness: hold, damping: 0, row: freedoms.map((f) => f.vx[0] ?? 0) };
  return [...elements, ...hubs, held];
}

/** Whether another stop of the same member is stiffer, or as stiff and named before: only one of them is met at a time. */
function hasStifferTwin(element: BoundElement, mechanism: Mechanism): boolean {
  if (!element.stopOf) return false;
  const own = stiffnessOf(element, mechanism, 'greatest') * element.count;
  const at = mechanism.elements.indexOf(element);
  return mechanism.elements.some((other, i) => {
    if (other === element || other.stopOf?.member !== element.stopOf?.member || !other.stopOf) return false;
    const its = stiffnessOf(other, mechanism, 'greatest') * other.count;
    return its > own || (its === own && i < at);
  });
}

/** Stiffness in the drawn position, or the greatest over the travel that the part has, with a tenth more at each end. */
function stiffnessOf(element: BoundElement, mechanism: Mechanism, kind: Stiffness): number {
  const memory = new Float64Array(element.law.memory);
  if (kind === 'standing') return element.law.stiffness(0, memory);
  const member = mechanism.members.find((m) => m.coordinate === element.coordinate);
  const unit =
    member?.unit === 'rad' ||
    (element.coordinate.kind === 'joint' && mechanism.joints[element.coordinate.joint]?.kind === 'hinge')
      ? 1
      : mechanism.size;
  const reach = { up: member?.bump ?? unit, down: member?.droop ?? unit };
  const places = [...Array(23).keys()].map(
    (i) => -1.1 * reach.down + ((reach.up + reach.down) * 1.1 * i) / 22,
  );
  const corners = element.law.corners.flatMap((c) => [c - 1e-6 * unit, c + 1e-6 * unit]);
  const stuckAt = (x: number) => {
    element.law.rest?.(x, memory);
    return element.law.stiffness(x, memory);
  };
  return Math.max(0, ...[...places, ...corners].map(stuckAt));
}

/** Load and tangent stiffness of a line's tyres on the level under the mean load, or under three times it. */
function tyreStiffness(
  mechanism: Mechanism,
  foundation: number,
  radius: number,
  kind: Stiffness,
): { force: number; stiffness: number } {
  const mean = (mechanism.mass * mechanism.gravity) / Math.max(1, mechanism.wheels.length);
  const force = (kind === 'standing' ? 1 : 3) * mean;
  // level ground, shallow contact: N = (4√2/3)·k·δ^1.5/√r and dN/dδ = 1.5·N/δ; see sim/PHYSICS.md
  const depth = ((3 * force * Math.sqrt(radius)) / (4 * Math.SQRT2 * foundation)) ** (2 / 3);
  return { force, stiffness: (1.5 * force) / depth };
}

function forwardSolve(lower: Matrix, row: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < row.length; i++) {
    let sum = row[i] as number;
    for (let j = 0; j < i; j++) sum -= lower.get(i, j) * (out[j] as number);
    out.push(sum / lower.get(i, i));
  }
  return out;
}

function addOuter(total: Matrix, row: readonly number[], factor: number): void {
  if (factor === 0) return;
  for (let i = 0; i < row.length; i++)
    for (let j = 0; j < row.length; j++)
      total.set(i, j, total.get(i, j) + factor * (row[i] as number) * (row[j] as number));
}
