/*
 * Linkages on a held frame, without wheels: for textbook mechanisms and vibration problems. Body 0 is the frame.
 */
import type { Pose, Vec2 } from '../../shared/geometry/vec.ts';
import { distance } from '../../shared/geometry/vec.ts';
import { Plant } from '../../sim/dynamics/plant.ts';
import { damper } from '../../sim/elements/damper.ts';
import { hooke } from '../../sim/elements/hooke.ts';
import type {
  Body,
  BodyPoint,
  BoundElement,
  Coordinate,
  Joint,
  Mechanism,
  Rod,
  Wheel,
} from '../../sim/mechanism/mechanism.ts';
import { groundOf } from './vehicle.ts';

/** One moving body and how it hangs on its parent (0: the frame). Points are drawn points. */
export interface Link {
  readonly name: string;
  readonly mass: number;
  readonly centre: Vec2;
  readonly inertia: number;
  readonly parent?: number;
  /** Where it turns about its parent; or the way it slides; or nothing for a free body. */
  readonly hinge?: Vec2;
  readonly slide?: Vec2;
}

/** A linkage to be built. */
export interface Plan {
  readonly gravity?: number;
  readonly links: readonly Link[];
  readonly rods?: readonly (readonly [BodyPoint, BodyPoint])[];
  readonly elements?: readonly BoundElement[];
  readonly wheels?: readonly Wheel[];
  /** Length that the solver's tolerances follow, m: about that of the smallest link. */
  readonly size: number;
}

const frame: Body = { name: 'frame', mass: 1, centre: { x: 0, z: 0 }, inertia: 1, parent: -1 };

function jointOf({ name, parent = 0, hinge, slide }: Link, index: number): Joint {
  const common = { name, parent, child: index + 1, sign: 1 as const };
  if (hinge) return { ...common, kind: 'hinge', anchor: hinge, axis: { x: 0, z: 1 } };
  return { ...common, kind: slide ? 'slide' : 'free', anchor: { x: 0, z: 0 }, axis: slide ?? { x: 0, z: 1 } };
}

/** The plan as a mechanism. Link i is body i + 1, and its joint is joint i. */
export function mechanismOf({
  gravity = 0,
  links,
  rods = [],
  elements = [],
  wheels = [],
  size,
}: Plan): Mechanism {
  const moving = links.map(
    ({ name, mass, centre, inertia, parent = 0 }): Body => ({ name, mass, centre, inertia, parent }),
  );
  return {
    gravity,
    bodies: [frame, ...moving],
    root: 'held',
    joints: links.map(jointOf),
    rods: rods.map(([a, b], i): Rod => ({ name: `rod ${i}`, a, b, length: distance(a.at, b.at) })),
    elements,
    wheels,
    members: [],
    drive: { speed: 0, acceleration: 1, share: { kind: 'locked', branches: [] } },
    pulls: [],
    outlines: [],
    belly: { body: 0, points: [] },
    reference: { x: 0, z: 0 },
    mass: moving.reduce((sum, b) => sum + b.mass, 0),
    cg: { x: 0, z: 0 },
    size,
  };
}

/** Linkages never touch the ground: it is there because a plant has one. */
const farBelow = groundOf([{ kind: 'flat', length: 1 }]);

/** The linkage as drawn, at rest, ready to be moved. */
export function plantOf(mechanism: Mechanism, ground = farBelow): Plant {
  return new Plant(
    mechanism,
    ground,
    mechanism.bodies.map((): Pose => ({ x: 0, z: 0, angle: 0 })),
  );
}

/** Freedom of link i along its joint. */
export const alongJoint = (link: number): Coordinate => ({ kind: 'joint', joint: link });

/** A spring that pulls and pushes, free as drawn: N/m or N·m/rad. */
export const spring = (coordinate: Coordinate, rate: number): BoundElement => ({
  name: 'spring',
  kind: 'linear-spring',
  coordinate,
  count: 1,
  law: hooke({ rate, pushOnly: false, damping: 0 }),
});

/** A damper, the same both ways: N·s/m. */
export const dashpot = (coordinate: Coordinate, rate: number): BoundElement => ({
  name: 'damper',
  kind: 'damper',
  coordinate,
  count: 1,
  law: damper.law({ bump: rate }),
});

/** What moves a linkage without wheels: nothing but its own elements and gravity. */
export const free = { kind: 'park', drag: 0 } as const;

/** Moves on over `time` in substeps of h and calls `look` after each with the time reached, s. */
export function run(
  plant: Plant,
  h: number,
  time: number,
  look: (now: number) => void = () => undefined,
): void {
  const steps = Math.round(time / h);
  for (let n = 1; n <= steps; n++) {
    plant.substep(h, free);
    look(n * h);
  }
}

/** Mean angular frequency, rad/s, of samples that swing about zero: from the first crossing to the last. */
export function frequencyOf(samples: readonly { readonly at: number; readonly value: number }[]): number {
  const crossings: number[] = [];
  samples.forEach(({ at, value }, i) => {
    const before = samples[i - 1];
    if (before && before.value < 0 !== value < 0)
      crossings.push(before.at + ((at - before.at) * before.value) / (before.value - value));
  });
  const [first, last] = [crossings[0], crossings.at(-1)];
  if (first === undefined || last === undefined || crossings.length < 3)
    throw new Error('too few swings to count');
  return (Math.PI * (crossings.length - 1)) / (last - first);
}
