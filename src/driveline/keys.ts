import type { Layout, Plan } from './layout.ts';
import type { Tree } from './tree.ts';

/** The part of a row that stands nearest to a place, px. */
function nearestIn(row: readonly number[] | undefined, layout: Layout, x: number): number | undefined {
  return row?.reduce<number | undefined>((best, part) => {
    const far = (each: number) => Math.abs((layout.parts[each]?.x ?? 0) - x);
    return best === undefined || far(part) < far(best) ? part : best;
  }, undefined);
}

/**
 * Where an arrow key leads from a part: along its row; up to what it turns, down to what turns it, else to the nearest of
 * the row there. Home: the first source; End: the last part. Undefined for other keys and at the ends.
 */
export function partFrom(
  key: string,
  part: number,
  tree: Tree,
  plan: Plan,
  layout: Layout,
): number | undefined {
  const row = plan.rowOf[part] ?? 0;
  const line = plan.rows[row] ?? [];
  const at = line.indexOf(part);
  const x = layout.parts[part]?.x ?? 0;
  if (key === 'ArrowRight') return line[at + 1];
  if (key === 'ArrowLeft') return line[at - 1];
  if (key === 'Home') return plan.rows[0]?.[0];
  if (key === 'End') return plan.rows.at(-1)?.at(-1);
  const joined = (others: readonly number[] | undefined) =>
    others?.find((other) => (plan.rowOf[other] ?? 0) !== row);
  if (key === 'ArrowUp') return joined(tree.parts[part]?.outputs) ?? nearestIn(plan.rows[row + 1], layout, x);
  if (key === 'ArrowDown')
    return joined(tree.parts[part]?.inputs) ?? nearestIn(plan.rows[row - 1], layout, x);
  return undefined;
}
