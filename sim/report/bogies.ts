import { distance } from '../../shared/geometry/vec.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { listWords } from './words.ts';

/**
 * A bogie, for reports: two or more axle lines that are carried, directly or through arms, by one common member body
 * (a beam; a rocker with what hangs on it), or by members on the chassis that belong together: a rod or a spring joins
 * them to each other, or they swing about one pivot. A beam on a rocker is a bogie of its own, and the rocker is
 * another one around it. The chassis makes no bogie.
 */
export interface Bogie {
  /** Name of the common member, or of the joined ones: 'rear beam', 'rear arm 1 and rear arm 2'. */
  readonly name: string;
  /** Members that it is made of, by name: the common one, or the joined ones. */
  readonly members: readonly string[];
  /** Indices of its wheels, in the vehicle's order. */
  readonly wheels: readonly number[];
}

/** The bogies of a vehicle: small ones before those around them, front before rear. */
export function bogiesOf(mechanism: Mechanism): readonly Bogie[] {
  const beams = mechanism.bodies
    .map((body, index) => ({
      name: body.name,
      members: [body.name],
      wheels: wheelsBelow(mechanism, [index]),
    }))
    .slice(1)
    .reverse();
  const seen = new Set<string>();
  const found = [...beams, ...joinedOnes(mechanism)].filter(({ wheels }) => {
    const key = wheels.join();
    if (wheels.length < 2 || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  const foremost = ({ wheels }: Bogie) =>
    Math.min(...wheels.map((wheel) => mechanism.wheels[wheel]?.axle ?? 0));
  return found.sort((a, b) => a.wheels.length - b.wheels.length || foremost(a) - foremost(b));
}

/** Wheels that these bodies carry, directly or through others. */
function wheelsBelow(mechanism: Mechanism, roots: readonly number[]): readonly number[] {
  const carried = (body: number): boolean =>
    roots.includes(body) || (body > 0 && carried(mechanism.bodies[body]?.parent ?? -1));
  return mechanism.wheels.flatMap((wheel, index) => (carried(wheel.body) ? [index] : []));
}

/** Members on the chassis that rods, springs or one pivot join to each other, in groups. */
function joinedOnes(mechanism: Mechanism): readonly Bogie[] {
  const group = mechanism.bodies.map((_, index) => index);
  for (const [a, b] of [...links(mechanism), ...sharedPivots(mechanism)]) {
    const from = group[topOf(mechanism, a)];
    const to = group[topOf(mechanism, b)];
    group.forEach((g, index) => {
      if (g === from && to !== undefined) group[index] = to;
    });
  }
  return [...new Set(group)].map((g) => {
    const roots = group.flatMap((other, index) =>
      other === g && mechanism.bodies[index]?.parent === 0 ? [index] : [],
    );
    const members = roots.map((root) => mechanism.bodies[root]?.name ?? '');
    return { name: listWords(members), members, wheels: wheelsBelow(mechanism, roots) };
  });
}

/** Pairs of bodies, neither of them the chassis, that a rod or a spring between two points joins. */
function links(mechanism: Mechanism): readonly (readonly [number, number])[] {
  const spans = mechanism.elements.flatMap(({ coordinate }) =>
    coordinate.kind === 'span' ? [coordinate] : [],
  );
  return [...mechanism.rods, ...spans]
    .filter(({ a, b }) => a.body > 0 && b.body > 0)
    .map(({ a, b }) => [a.body, b.body] as const);
}

/**
 * Pairs of bodies that are hinged on the chassis at one pivot: closer than a quarter of the smallest wheel radius, so
 * that two pins side by side in one bracket count as one.
 */
function sharedPivots({ joints, size }: Mechanism): readonly (readonly [number, number])[] {
  const hinges = joints.filter((joint) => joint.kind === 'hinge' && joint.parent === 0);
  return hinges.flatMap((a, i) =>
    hinges
      .slice(i + 1)
      .flatMap((b) => (distance(a.anchor, b.anchor) < size / 4 ? [[a.child, b.child] as const] : [])),
  );
}

/** The body below the chassis that carries this one, or this one itself. */
function topOf(mechanism: Mechanism, body: number): number {
  const parent = mechanism.bodies[body]?.parent ?? -1;
  return parent <= 0 ? body : topOf(mechanism, parent);
}
