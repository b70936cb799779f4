import type { DriveShare, Source, Wheel } from '../mechanism/mechanism.ts';
import type { Driveline, DrivePart } from './driveline.ts';

/*
 * What the drive line means to a crawl, which knows torques on axle lines only: everything here is linear in them, for
 * power that flows to the wheels.
 */

/** Parts from the one that turns an axle line up to its first source; several motors on a shaft count as the first. */
export function wayUp({ parts }: Driveline, last: number): DrivePart[] {
  const way: DrivePart[] = [];
  for (let p = last; p >= 0; p = parts[p]?.inputs[0] ?? -1) way.push(parts[p] as DrivePart);
  return way;
}

/** Torque at the input of a part for 1 N·m at its output while it drives. Power balance: T_out = i·η·T_in. */
export const inputFor = ({ law }: DrivePart): number => 1 / (law.ratio * law.driving);

/**
 * Bodies that take the reaction of an axle line's drive torque, as shares of it: each housing holds what its output
 * shaft brings less what its input shaft does, as far as these shafts lie across the vehicle. The shares sum to 1.
 * Source: moments on each housing.
 */
export function reactionsOf(driveline: Driveline, wheel: number): Wheel['reactions'] {
  const held = new Map<number, number>();
  let out = 1;
  for (const part of wayUp(driveline, driveline.lastPart[wheel] ?? -1)) {
    const through = part.sort === 'motor' ? 0 : out * inputFor(part) * part.law.sense;
    const moment = (part.axisOut === 'across' ? out : 0) - (part.axisIn === 'across' ? through : 0);
    if (moment !== 0) held.set(part.body, (held.get(part.body) ?? 0) + moment);
    out = through;
  }
  return [...held].map(([body, share]) => ({ body, share }));
}

/** Driven axle lines as a tree of shares: who turns alike, who gets which torque. Undefined when nothing is driven. */
export function shareTree(driveline: Driveline): DriveShare | undefined {
  const roots = driveline.parts.flatMap((part, p) => (part.inputs.length === 0 ? [p] : []));
  const trees = roots.flatMap((p, i) => {
    // several motors on one shaft: the first stands for them
    const again = driveline.parts.some(
      ({ inputs }) => inputs.includes(p) && roots.indexOf(inputs[0] as number) !== i,
    );
    const tree = again ? undefined : below(driveline, p);
    return tree === undefined ? [] : [{ tree, weight: strength(driveline, p) * gainBelow(driveline, p) }];
  });
  if (trees.length <= 1) return trees[0] && rooted(trees[0].tree);
  return { kind: 'motors', branches: trees.map((t) => t.tree), weights: trees.map((t) => t.weight) };
}

/** A single wheel as a tree of its own. */
const rooted = (tree: DriveShare): DriveShare =>
  tree.kind === 'wheel' ? { kind: 'locked', branches: [tree] } : tree;

function below(driveline: Driveline, p: number): DriveShare | undefined {
  const part = driveline.parts[p] as DrivePart;
  const branches: { readonly tree: DriveShare; readonly gain: number }[] = [
    ...part.outputs.flatMap((o) => {
      const tree = below(driveline, o);
      return tree === undefined ? [] : [{ tree, gain: gainOf(driveline, o) }];
    }),
    ...part.wheels.map((wheel) => ({ tree: { kind: 'wheel' as const, wheel }, gain: 1 })),
  ];
  const [first] = branches;
  if (first === undefined || branches.length === 1) return first?.tree;
  const split = part.law.split;
  const trees = branches.map((b) => b.tree);
  if (split === undefined || split.mode === 'locked') return { kind: 'locked', branches: trees };
  const weights = branches.map((b, i) => (split.shares?.[i] ?? 1 / branches.length) * b.gain);
  if (split.mode === 'open') return { kind: 'open', branches: trees, weights };
  return { kind: 'open', branches: trees, weights, bias: split.bias, preload: split.preload };
}

/** Torque on the axle lines below for 1 N·m into part `p`, all gains in a row down to the first split. */
function gainOf(driveline: Driveline, p: number): number {
  const part = driveline.parts[p] as DrivePart;
  return (1 / inputFor(part)) * gainBelow(driveline, p);
}

function gainBelow(driveline: Driveline, p: number): number {
  const part = driveline.parts[p] as DrivePart;
  const gains = [...part.outputs.map((o) => gainOf(driveline, o)), ...part.wheels.map(() => 1)];
  return gains.length === 0 ? 0 : gains.reduce((sum, g) => sum + g, 0) / gains.length;
}

/** Torque that the motors of a source's shaft have at standstill, N·m. */
function strength(driveline: Driveline, p: number): number {
  const part = driveline.parts[p] as DrivePart;
  return part.count * (part.law.motor?.stallTorque ?? 0);
}

/** Torque at the input of a part for 1 N·m at its output while the wheels turn it: 0 where it locks itself. */
const inputBack = ({ law }: DrivePart): number => law.backDriving / law.ratio;

/** Sources with the torque that each axle line asks of them, for the limits of a crawl. */
export function sourcesOf(driveline: Driveline, torqueOf: (part: DrivePart) => number): Source[] {
  return driveline.parts.flatMap((part, p) => {
    if (part.inputs.length > 0) return [];
    const limit = torqueOf(part);
    const mates = driveline.parts.find(({ inputs }) => inputs.includes(p))?.inputs ?? [p];
    const all = mates.reduce((sum, m) => sum + torqueOf(driveline.parts[m] as DrivePart), 0);
    // motors that have nothing to give are asked alike, so that a crawl is told they are short
    const share = all > 0 ? limit / all : 1 / mates.length;
    const through = (gain: (part: DrivePart) => number) =>
      driveline.lastPart.map((last) => {
        const way = wayUp(driveline, last);
        const source = way.at(-1);
        if (!source || !mates.includes(driveline.parts.indexOf(source))) return 0;
        return way.slice(0, -1).reduce((torque, each) => torque * gain(each), 1) * share;
      });
    return [{ name: part.name, needs: through(inputFor), back: through(inputBack), limit }];
  });
}

/** Clutches as further limits of a crawl: what each axle line asks of them, and where they slip. */
export function slipsOf(driveline: Driveline): Source[] {
  return driveline.parts.flatMap((part) => {
    const { slipTorque } = part.law;
    if (slipTorque === undefined) return [];
    const through = (gain: (part: DrivePart) => number) =>
      driveline.lastPart.map((last) => {
        const way = wayUp(driveline, last);
        const at = way.indexOf(part);
        return at < 0 ? 0 : way.slice(0, at).reduce((torque, each) => torque * gain(each), 1);
      });
    const limit = slipTorque * part.count;
    return [{ name: part.name, needs: through(inputFor), back: through(inputBack), limit }];
  });
}
