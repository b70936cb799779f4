import type { NamedPoint, Tree, TreePart } from './tree.ts';

/** A drawn point on a named body with its weight in a mean. */
export interface Anchor extends NamedPoint {
  readonly weight: number;
}

/** Where a part sits: the weighted mean of points that bodies carry. */
export interface Place {
  readonly anchors: readonly Anchor[];
  /** The document says it; otherwise it is taken to lie between its neighbours. */
  readonly told: boolean;
}

const alone = ({ on, at }: NamedPoint): readonly Anchor[] => [{ on, at, weight: 1 }];

/** The mean of several places, all with the same weight. */
function mean(places: readonly (readonly Anchor[])[]): readonly Anchor[] {
  return places.flatMap((anchors) =>
    anchors.map((anchor) => ({ ...anchor, weight: anchor.weight / places.length })),
  );
}

/** Where the document puts a part: its own place, or the middle of its ends. */
function toldPlace({ at, on, ends }: TreePart): readonly Anchor[] | undefined {
  if (at !== undefined) return alone({ on: on ?? 'chassis', at });
  return ends && mean(ends.map(alone));
}

/** Where a part lies by what it is joined to: a joint at the end of its shaft, what turns wheels at their hubs. */
function joinedPlace(part: TreePart, { parts, wheels }: Tree): readonly Anchor[] | undefined {
  if (part.sort === 'joint') {
    const after = part.outputs.map((o) => parts[o]?.ends?.[0]).find((end) => end !== undefined);
    const before = part.inputs.map((i) => parts[i]?.ends?.[1]).find((end) => end !== undefined);
    const end = after ?? before;
    if (end !== undefined) return alone(end);
  }
  const hubs = wheels.filter(({ index }) => part.wheels.includes(index));
  return hubs.length === 0 ? undefined : mean(hubs.map(({ hub }) => alone(hub)));
}

/** The nearest parts with a place on one side, and how many steps away the nearest is. */
function nearest(
  from: number,
  next: (part: number) => readonly number[],
  known: readonly (readonly Anchor[] | undefined)[],
): { readonly anchors: readonly Anchor[]; readonly steps: number } | undefined {
  let front = next(from);
  const seen = new Set<number>([from]);
  for (let steps = 1; front.length > 0; steps += 1) {
    const found = front.flatMap((part) => (known[part] === undefined ? [] : [known[part]]));
    if (found.length > 0) return { anchors: mean(found), steps };
    const reached = front.filter((part) => !seen.has(part));
    for (const part of reached) seen.add(part);
    front = reached.flatMap((part) => next(part)).filter((part) => !seen.has(part));
  }
  return undefined;
}

/** A part without a place lies between the nearest ones that have one, nearer to the nearer of them. */
function between(tree: Tree, part: number, known: readonly (readonly Anchor[] | undefined)[]) {
  const up = nearest(part, (p) => tree.parts[p]?.inputs ?? [], known);
  const down = nearest(part, (p) => tree.parts[p]?.outputs ?? [], known);
  if (up === undefined || down === undefined) return (up ?? down)?.anchors;
  const share = up.steps / (up.steps + down.steps);
  return [
    ...up.anchors.map((anchor) => ({ ...anchor, weight: anchor.weight * (1 - share) })),
    ...down.anchors.map((anchor) => ({ ...anchor, weight: anchor.weight * share })),
  ];
}

/** The place of every part of a drive line, in its order; for one that is joined to nothing with a place, the mean of all hubs. */
export function placesOf(tree: Tree): readonly Place[] {
  const told = tree.parts.map(toldPlace);
  const known = tree.parts.map((part, p) => told[p] ?? joinedPlace(part, tree));
  const hubs = mean(tree.wheels.map(({ hub }) => alone(hub)));
  const origin: readonly Anchor[] = [{ on: 'chassis', at: { x: 0, z: 0 }, weight: 1 }];
  const anywhere = hubs.length === 0 ? origin : hubs;
  return tree.parts.map((_, p) => ({
    anchors: known[p] ?? between(tree, p, known) ?? anywhere,
    told: told[p] !== undefined,
  }));
}

/** The drawn place of anchors, m. */
export function drawnAt(anchors: readonly Anchor[]): { readonly x: number; readonly z: number } {
  return anchors.reduce((sum, { at, weight }) => ({ x: sum.x + weight * at.x, z: sum.z + weight * at.z }), {
    x: 0,
    z: 0,
  });
}
