import { turn } from '../../shared/geometry/vec.ts';
import type { Problems } from '../../shared/problem.ts';
import type { ElementKind } from '../elements/element.ts';
import type { Scenario } from '../scenario/schema.ts';
import { effortsFor, type Target } from '../statics/ride-height.ts';
import type { BoundElement, Mechanism } from './mechanism.ts';

type Vehicle = Scenario['vehicle'];

/** An element whose preload is found from the ride height. */
interface Preset {
  readonly index: number;
  readonly joint: number;
  readonly entry: Vehicle['elements'][number];
  readonly kind: ElementKind;
}

/**
 * Gives the elements named by `vehicle.rideHeight` the preload with which the vehicle stands level as drawn (raised by
 * `lift`, m). Elements that share a joint share its effort in proportion to their count. What cannot be set is a problem
 * at `vehicle.rideHeight`.
 */
export function setRideHeight(
  vehicle: Vehicle,
  mechanism: Mechanism,
  kindOf: (name: string) => ElementKind | undefined,
  problems: Problems,
): readonly BoundElement[] {
  const wanted = vehicle.rideHeight;
  if (wanted === undefined) return mechanism.elements;
  const sets = wanted.setBy.flatMap((name, n) => findSet(name, n, vehicle, mechanism, kindOf, problems));
  const joints = [...new Set(sets.map((s) => s.joint))];
  const targets = joints.map((joint): Target => ({ joint, at: coordinateAt(mechanism, joint, wanted.lift) }));
  const efforts = sets.length === wanted.setBy.length ? effortsFor(mechanism, targets) : undefined;
  if (efforts === undefined) {
    if (sets.length === wanted.setBy.length)
      problems.error(
        'vehicle.rideHeight',
        'no preloads make the vehicle stand as it is drawn',
        'name an element for every sprung member, and check that the drawn wheels stand at one height',
      );
    return mechanism.elements;
  }
  return mechanism.elements.map((element, index) => {
    const set = sets.find((s) => s.index === index);
    if (set === undefined) return element;
    const at = joints.indexOf(set.joint);
    const together = sets.filter((s) => s.joint === set.joint).reduce((sum, s) => sum + s.entry.count, 0);
    const effort = (efforts[at] as number) / together;
    return { ...element, law: preloaded(set, targets[at]?.at ?? 0, effort) };
  });
}

/** The element's law with the preload that gives this effort more (per one) at coordinate x: d(effort)/d(preload) = −1. */
function preloaded({ entry, kind }: Preset, x: number, more: number): BoundElement['law'] {
  const lawWith = (preload: number) => kind.law({ ...entry, preload } as never);
  const rested = (preload: number) => {
    const law = lawWith(preload);
    const memory = new Float64Array(law.memory);
    law.rest?.(x, memory);
    return law.spring(x, memory);
  };
  const wanted = rested(0) + more;
  let preload = 0;
  // a loose spring answers only once it is pressed, so the step is taken until it does
  for (let n = 0; n < 4; n++) preload += rested(preload) - wanted;
  return lawWith(preload);
}

function findSet(
  name: string,
  n: number,
  vehicle: Vehicle,
  mechanism: Mechanism,
  kindOf: (name: string) => ElementKind | undefined,
  problems: Problems,
): Preset[] {
  const path = `vehicle.rideHeight.setBy[${n}]`;
  const index = vehicle.elements.findIndex((e) => e.name === name);
  const entry = vehicle.elements[index];
  const bound = mechanism.elements[index];
  const kind = entry && kindOf(entry.kind);
  if (!entry || !kind || !bound) {
    problems.error(
      path,
      `no element is called '${name}'`,
      `known: ${vehicle.elements.map((e) => e.name).join(', ')}`,
    );
    return [];
  }
  if (!('preload' in kind.fields.shape)) {
    problems.error(path, `'${name}' has no preload that could be set`, 'name a spring or a torsion bar');
    return [];
  }
  if (bound.coordinate.kind !== 'joint') {
    problems.error(
      path,
      `'${name}' acts between two points, and its preload cannot be found this way`,
      'let it act on a member, or give its preload',
    );
    return [];
  }
  if ('preload' in entry && entry.preload !== undefined) {
    problems.error(path, `'${name}' has a preload of its own`, 'leave its preload out, or its name');
    return [];
  }
  return [{ index, joint: bound.coordinate.joint, entry, kind }];
}

/** Coordinate at which what a joint carries hangs `lift` m lower under the chassis than drawn. */
function coordinateAt(mechanism: Mechanism, joint: number, lift: number): number {
  const j = mechanism.joints[joint];
  if (!j || lift === 0) return 0;
  if (j.kind === 'slide') return -lift / j.axis.z;
  const wheel = mechanism.wheels.find((w) => carries(mechanism, j.child, w.body));
  if (!wheel) return 0;
  const arm = { x: wheel.hub.x - j.anchor.x, z: wheel.hub.z - j.anchor.z };
  let angle = 0;
  // Newton on the height of the hub, which is a sine of the angle
  for (let n = 0; n < 20; n++) {
    const now = turn(arm, angle);
    if (Math.abs(now.x) < 1e-9) break;
    angle -= (now.z - arm.z + lift) / now.x;
  }
  return j.sign * angle;
}

/** Whether body `at` is `root` or hangs on it. */
function carries(mechanism: Mechanism, root: number, at: number): boolean {
  for (let i = at; i >= 0; i = mechanism.bodies[i]?.parent ?? -1) if (i === root) return true;
  return false;
}
