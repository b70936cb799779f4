import { inverse, Matrix } from 'ml-matrix';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Freedom, massMatrix, treeFreedoms } from './modes.ts';

/**
 * How readily bodies turn in the drawn pose: entry (i, j) is the turning acceleration of body i, rad/s², for 1 N·m on
 * body j, with hinges, guides and rods in place and the ground left out. Symmetric, never negative on its diagonal.
 * `hold`, 0 to 1: how much of what they should the rods hold; in one substep of the rigid-body solver they give way some.
 * M⁻¹ − M⁻¹Aᵀ(A·M⁻¹·Aᵀ)⁻¹A·M⁻¹ with A the rates of the rods' lengths. Source: constrained Lagrangian dynamics, any text.
 */
export function turningMobility(mechanism: Mechanism, hold: number): Matrix {
  const freedoms = treeFreedoms(mechanism);
  const { bodies, rods } = mechanism;
  if (freedoms.length === 0) return Matrix.zeros(bodies.length, bodies.length);
  const free = inverse(massMatrix(mechanism, freedoms));
  const turns = new Matrix(bodies.map((_, b) => freedoms.map((f) => f.spin[b] ?? 0)));
  let moves = free;
  if (rods.length > 0) {
    const rates = new Matrix(rods.map((rod) => freedoms.map((f) => lengthening(mechanism, rod, f))));
    const through = rates.mmul(free).mmul(rates.transpose());
    // rods that hold the same thing twice, or nothing, leave this singular: a hair of give in each of them
    const most = Math.max(1e-300, ...through.diagonal());
    for (let r = 0; r < rods.length; r++) through.set(r, r, through.get(r, r) + 1e-9 * most);
    const held = free.mmul(rates.transpose()).mmul(inverse(through)).mmul(rates).mmul(free);
    moves = Matrix.sub(free, held.mul(hold));
  }
  return turns.mmul(moves).mmul(turns.transpose());
}

/** Rate of a rod's length, m/s, in a unit motion of a freedom. */
function lengthening(
  { bodies }: Mechanism,
  { a, b, length }: Mechanism['rods'][number],
  { vx, vz, spin }: Freedom,
): number {
  const rate = ({ body, at }: typeof a) => {
    const centre = bodies[body]?.centre ?? { x: 0, z: 0 };
    const turn = spin[body] ?? 0;
    return { x: (vx[body] ?? 0) - turn * (at.z - centre.z), z: (vz[body] ?? 0) + turn * (at.x - centre.x) };
  };
  const [from, to] = [rate(a), rate(b)];
  return ((to.x - from.x) * (b.at.x - a.at.x) + (to.z - from.z) * (b.at.z - a.at.z)) / length;
}
