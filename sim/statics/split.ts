import type { DriveShare, Mechanism } from '../mechanism/mechanism.ts';

/** See Share. */
export type Behind = 'locks' | 'motors' | 'differential';

/**
 * How one driven axle line's torque follows from the thrust unknown τ and the moment arms m (Σ N·lever) of all lines:
 * T = τ·C, C = factor · Π m(up) / Π m(down), where m of a group is the sum over its lines.
 */
export interface Share {
  readonly factor: number;
  readonly up: readonly (readonly number[])[];
  readonly down: readonly (readonly number[])[];
  /**
   * What stands between the wheel and the source. Behind locks alone it may be asked for any grip; behind motors or a
   * differential it gives no more than it has, and behind a differential the others then get no more either.
   */
  readonly behind: Behind;
}

/**
 * Shares of all axle lines. A lock makes its branches turn alike, so that each takes torque in proportion to the load
 * under it; an open differential and motors give their branches equal torque. At a locked root τ is the use of grip that all have in
 * common; at an open one it is the torque over `unit` (N·m). Lines outside the tree have no share.
 * Source: definition of our own for slow driving; equal torque of an open differential: any text on drivelines.
 */
export function sharesOf(mechanism: Mechanism, tree: DriveShare, unit: number): (Share | undefined)[] {
  const shares: (Share | undefined)[] = mechanism.wheels.map(() => undefined);
  const walk = (node: DriveShare, factor: number, up: number[][], down: number[][], behind: Behind): void => {
    if (node.kind === 'wheel') {
      if (mechanism.wheels[node.wheel]?.driven) shares[node.wheel] = { factor, ...cancel(up, down), behind };
      return;
    }
    for (const [b, branch] of node.branches.entries()) {
      if (node.kind !== 'locked') {
        const next = node.kind === 'open' || behind === 'differential' ? 'differential' : 'motors';
        walk(branch, factor * partOf(node.weights, b, node.branches.length), up, down, next);
      } else
        walk(
          branch,
          factor,
          [...up, linesOf(branch, mechanism)],
          [...down, linesOf(node, mechanism)],
          behind,
        );
    }
  };
  const all = linesOf(tree, mechanism);
  if (tree.kind === 'locked') walk(tree, 1, [all], [], 'locks');
  else walk(tree, unit, [], [], 'locks');
  return shares;
}

/** Part of the torque that branch b of n gets. */
function partOf(weights: readonly number[] | undefined, b: number, n: number): number {
  if (weights === undefined) return 1 / n;
  return (weights[b] as number) / weights.reduce((sum, weight) => sum + weight, 0);
}

/** Driven lines under a node, rising. */
function linesOf(node: DriveShare, mechanism: Mechanism): number[] {
  if (node.kind === 'wheel') return mechanism.wheels[node.wheel]?.driven ? [node.wheel] : [];
  return node.branches.flatMap((branch) => linesOf(branch, mechanism)).sort((a, b) => a - b);
}

/** Leaves out groups that stand above and below the line. */
function cancel(up: readonly number[][], down: readonly number[][]): { up: number[][]; down: number[][] } {
  const left = [...down];
  const kept = up.filter((group) => {
    const same = left.findIndex((other) => other.join() === group.join());
    if (same >= 0) left.splice(same, 1);
    return same < 0;
  });
  return { up: kept, down: left };
}

/** Torque per unit of τ, C, at these moment arms; 0 where a group carries nothing. */
export function shareAt(share: Share, moments: Float64Array): number {
  let c = share.factor;
  for (const group of share.up) c *= sumOf(group, moments);
  for (const group of share.down) {
    const m = sumOf(group, moments);
    c = m > 0 ? c / m : 0;
  }
  return c;
}

/** Whether everything that a line without load turns alike with is without load too, so that it spins. */
export const hangsFree = (share: Share, moments: Float64Array): boolean =>
  share.down.every((group) => !(sumOf(group, moments) > 0));

/** Whether a tree has a limited differential. */
export const hasBias = (tree: DriveShare): boolean =>
  tree.kind !== 'wheel' &&
  (('bias' in tree && ((tree.bias ?? 1) > 1 || (tree.preload ?? 0) > 0)) || tree.branches.some(hasBias));

/** What an axle line takes, and what it would be given, N·m. */
interface Taken {
  readonly torque: number;
  readonly asked: number;
}

/**
 * Whether the differentials give all other branches what they need while some spin: where a branch takes T instead of
 * what it is asked for, the others get up to bias·T and the preload, each by its weight; an open one has a bias of 1.
 * Source: torque bias ratio of limited-slip differentials, texts on drivelines.
 */
export function biasCarries(tree: DriveShare, taken: readonly Taken[]): boolean {
  return carried(tree, taken).holds;
}

function carried(node: DriveShare, taken: readonly Taken[]): Taken & { readonly holds: boolean } {
  if (node.kind === 'wheel') {
    const { torque, asked } = taken[node.wheel] as Taken;
    return { torque, asked, holds: true };
  }
  const branches = node.branches.map((branch) => carried(branch, taken));
  const sum = (of: (branch: Taken) => number) => branches.reduce((all, branch) => all + of(branch), 0);
  const [torque, asked] = [sum((b) => b.torque), sum((b) => b.asked)];
  const given = branches.every(({ torque: has, asked: wants }, b) => {
    if (node.kind !== 'open' || Math.abs(has) >= Math.abs(wants) * (1 - 1e-9)) return true;
    // weights are shares of the torque times what gears make of it: without the share, gears alone
    const gear = (node.weights?.[b] ?? 1 / branches.length) * branches.length;
    return Math.abs(wants) <= (node.bias ?? 1) * Math.abs(has) + (node.preload ?? 0) * gear;
  });
  return { torque, asked, holds: given && branches.every(({ holds }) => holds) };
}

/** Writes ∂C/∂m of every line to `out`, for a share whose C at these moment arms is `c`. */
export function shareSlopes(share: Share, moments: Float64Array, c: number, out: Float64Array): void {
  out.fill(0);
  for (const group of share.up) addTo(out, group, c / sumOf(group, moments));
  for (const group of share.down) addTo(out, group, -c / sumOf(group, moments));
}

function addTo(out: Float64Array, group: readonly number[], value: number): void {
  for (const line of group) out[line] = (out[line] as number) + value;
}

function sumOf(group: readonly number[], moments: Float64Array): number {
  let sum = 0;
  for (const line of group) sum += moments[line] as number;
  return sum;
}
