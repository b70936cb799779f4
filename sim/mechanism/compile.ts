import { distance } from '../../shared/geometry/vec.ts';
import { type Checked, problemLine } from '../../shared/problem.ts';
import type { Sharing, SharingTree } from '../../shared/schema/scenario.ts';
import { compileDriveline } from '../driveline/compile.ts';
import type { Driveline } from '../driveline/driveline.ts';
import { reactionsOf as heldBy, shareTree, slipsOf, sourcesOf } from '../driveline/linear.ts';
import { standstillTorque } from '../driveline/motor.ts';
import type { ElementKind } from '../elements/element.ts';
import { elementKinds } from '../elements/registry.ts';
import { makeStop } from '../elements/stop.ts';
import type { Scenario } from '../scenario/schema.ts';
import { compileSteering } from '../steering/compile.ts';
import { compileStrength } from '../strength/compile.ts';
import { compileWinches } from '../winch/compile.ts';
import { growTree, type Tree } from './build.ts';
import { type Lump, together } from './masses.ts';
import type {
  Body,
  BoundElement,
  Coordinate,
  DriveShare,
  Mechanism,
  Member,
  Pull,
  Wheel,
} from './mechanism.ts';
import { setRideHeight } from './ride-height.ts';
import { lineTyre } from './tyres.ts';

type Vehicle = Scenario['vehicle'];

/**
 * Compiles the vehicle of a scenario once into what statics and dynamics read. Pure and cheap.
 * @throws Error naming the problems, if the scenario was not read through `readScenario` and cannot be compiled.
 */
export function compile(scenario: Scenario): Mechanism {
  const checked = compileChecked(scenario);
  if (!checked.ok)
    throw new Error(`the vehicle cannot be compiled: ${checked.problems.map(problemLine).join('; ')}`);
  return checked.value;
}

/** As `compile`, with the problems of members and bodies instead of an exception. */
export function compileChecked(scenario: Scenario): Checked<Mechanism> {
  const { vehicle, gravity } = scenario;
  const tree = growTree(vehicle.members);
  const driveline =
    vehicle.driveline &&
    compileDriveline(vehicle.driveline, {
      wheels: vehicle.wheels.map((w) => w.name),
      carriers: vehicle.wheels.map((w) => w.on),
      bodyOf: tree.bodyOf,
      problems: tree.problems,
    });
  const wheels = driven(wheelsOf(vehicle, tree, gravity), driveline);
  const bodies = bodiesOf(vehicle, tree, wheels, driveline);
  const whole = together(bodies.map((b) => ({ mass: b.mass, at: b.centre, inertia: b.inertia })));
  const size = Math.min(...vehicle.wheels.map((w) => w.radius));
  const stops = stopsOf(tree, whole.mass * gravity, size, wheels);
  const own = vehicle.elements.flatMap((entry) => boundElement(entry, tree));
  const outlines = vehicle.bodywork.outlines.map((o) => ({
    body: tree.bodyOf.get(o.on) ?? 0,
    points: o.points,
    closed: o.closed,
  }));
  const mechanism: Mechanism = {
    gravity,
    bodies,
    root: 'free',
    joints: tree.joints,
    rods: tree.rods,
    elements: [...own, ...stops],
    wheels,
    members: withOwnStops(tree.members, own),
    drive: {
      speed: vehicle.drive.speed,
      acceleration: vehicle.drive.acceleration,
      share: (driveline && shareTree(driveline)) ?? shareOf(vehicle.drive.sharing, wheels),
      ...(driveline === undefined
        ? {}
        : {
            sources: [
              ...sourcesOf(driveline, (part) => standstillTorque(part, driveline.supply)),
              ...slipsOf(driveline),
            ],
          }),
    },
    ...(driveline === undefined ? {} : { driveline }),
    ...(vehicle.strength && {
      strength: compileStrength(vehicle.strength, { ...tree, elements: vehicle.elements }),
    }),
    ...(vehicle.winches === undefined
      ? {}
      : {
          winches: compileWinches(vehicle.winches, {
            bodyOf: tree.bodyOf,
            driveline,
            problems: tree.problems,
          }),
        }),
    ...(vehicle.steering === undefined
      ? {}
      : { steering: compileSteering(vehicle.steering, vehicle.wheels, tree.problems) }),
    pulls: pullsOf(scenario.run.pulls, tree),
    outlines,
    belly: { body: 0, points: [...vehicle.bodywork.belly].sort((a, b) => a.x - b.x) },
    reference: vehicle.reference,
    mass: whole.mass,
    cg: whole.at,
    size,
  };
  const elements = setRideHeight(vehicle, mechanism, elementKindOf, tree.problems);
  return tree.problems.check<Mechanism>({ ...mechanism, elements });
}

/** Axle lines in the order of the document, numbered from the front. */
function wheelsOf(vehicle: Vehicle, tree: Tree, gravity: number): Wheel[] {
  const fromFront = vehicle.wheels
    .map((_, i) => i)
    .sort((a, b) => (vehicle.wheels[b]?.at.x ?? 0) - (vehicle.wheels[a]?.at.x ?? 0));
  const totalMass =
    vehicle.masses.reduce((sum, item) => sum + item.mass * item.count, 0) +
    (vehicle.driveline?.parts ?? []).reduce((sum, part) => sum + part.mass * part.count, 0) +
    vehicle.wheels.reduce((sum, w) => sum + w.massPerWheel * w.count, 0);
  const meanLoad = (totalMass * gravity) / vehicle.wheels.reduce((sum, w) => sum + w.count, 0);
  const driven = vehicle.drive.driven;
  return vehicle.wheels.map((w, i) => {
    const body = tree.bodyOf.get(w.on) ?? 0;
    const inertia = w.count * (w.inertiaPerWheel ?? 0.5 * w.massPerWheel * w.radius ** 2);
    return {
      name: w.name,
      axle: fromFront.indexOf(i) + 1,
      count: w.count,
      body,
      hub: w.at,
      radius: w.radius,
      mass: w.count * w.massPerWheel,
      inertia,
      tyre: lineTyre(w.tyre, w.radius, w.count, meanLoad, inertia),
      reactions: reactionsOf(w.reaction, body, tree),
      driven: driven === 'all' || driven.includes(w.name),
      torqueLimit: w.count * (vehicle.drive.torquePerWheel ?? 0),
    };
  });
}

/**
 * Where a drive torque is reacted. Through a gear train of ratio i along a beam the shaft at the pivot brings T/i, which
 * its motor's body holds, and the beam holds the rest: 1 − 1/i of it when shaft and wheel turn alike, 1 + 1/i when not.
 * Source: moments of the train about its pivot.
 */
function reactionsOf(
  reaction: Vehicle['wheels'][number]['reaction'],
  carrier: number,
  tree: Tree,
): Wheel['reactions'] {
  if (reaction === undefined) return [{ body: carrier, share: 1 }];
  if (typeof reaction === 'string') return [{ body: tree.bodyOf.get(reaction) ?? 0, share: 1 }];
  const shaft = (reaction.sense === 'same' ? 1 : -1) / reaction.ratio;
  return [
    { body: tree.bodyOf.get(reaction.train) ?? 0, share: 1 - shaft },
    { body: tree.bodyOf.get(reaction.motorOn) ?? 0, share: shaft },
  ];
}

/** Axle lines as their drive line drives them: lines that it does not reach roll freely. */
function driven(wheels: Wheel[], driveline: Driveline | undefined): Wheel[] {
  if (driveline === undefined) return wheels;
  const sources = sourcesOf(driveline, (part) => standstillTorque(part, driveline.supply));
  return wheels.map((wheel, w) => {
    const reached = (driveline.lastPart[w] ?? -1) >= 0;
    const most = sources.reduce((sum, { needs, limit }) => {
      const need = needs[w] ?? 0;
      return need > 0 ? sum + limit / need : sum;
    }, 0);
    return {
      ...wheel,
      driven: reached,
      torqueLimit: most,
      reactions: reached ? heldBy(driveline, w) : wheel.reactions,
    };
  });
}

/** The sharing of the document as a tree over axle lines. */
function shareOf(sharing: Sharing, wheels: readonly Wheel[]): DriveShare {
  if (typeof sharing === 'string') {
    const lines = wheels.map((_, wheel) => ({ kind: 'wheel' as const, wheel }));
    const branches = lines.filter(({ wheel }) => wheels[wheel]?.driven);
    return { kind: sharing, branches };
  }
  const branchOf = (branch: string | SharingTree): DriveShare =>
    typeof branch === 'string'
      ? { kind: 'wheel', wheel: wheels.findIndex((w) => w.name === branch) }
      : shareOf(branch, wheels);
  if ('locked' in sharing) return { kind: 'locked', branches: sharing.locked.map(branchOf) };
  if ('open' in sharing) return { kind: 'open', branches: sharing.open.map(branchOf) };
  return { kind: 'motors', branches: sharing.motors.map(branchOf) };
}

function pullsOf(pulls: Scenario['run']['pulls'], tree: Tree): Pull[] {
  return pulls.map((p) => ({
    name: p.name,
    body: tree.bodyOf.get(p.on) ?? 0,
    at: p.at,
    fx: p.force * Math.cos(p.angle),
    fz: p.force * Math.sin(p.angle),
  }));
}

/** Bodies with the masses that the document puts on them and the wheels as point masses at their hubs. */
function bodiesOf(
  vehicle: Vehicle,
  tree: Tree,
  wheels: readonly Wheel[],
  driveline: Driveline | undefined,
): Body[] {
  return tree.bodies.map((body, index): Body => {
    const items = vehicle.masses
      .filter((item) => (tree.bodyOf.get(item.on) ?? 0) === index)
      .map(
        (item): Lump => ({
          mass: item.mass * item.count,
          at: item.at,
          inertia: (item.inertia ?? 0) * item.count,
        }),
      );
    const hubs = wheels
      .filter((w) => w.body === index)
      .map((w): Lump => ({ mass: w.mass, at: w.hub, inertia: 0 }));
    const parts = (driveline?.parts ?? [])
      .filter((part) => part.body === index && part.mass > 0)
      .map((part): Lump => ({ mass: part.mass, at: part.at ?? { x: 0, z: 0 }, inertia: 0 }));
    const sum = together([...items, ...parts, ...hubs]);
    if (!(sum.mass > 0))
      tree.problems.error(
        'vehicle.masses',
        `'${body.name}' carries no mass`,
        `add a mass item with "on": "${body.name}"`,
      );
    return {
      name: body.name,
      mass: sum.mass,
      centre: sum.at,
      inertia: leastInertia(sum, wheels),
      parent: body.parent,
    };
  });
}

/**
 * A body whose mass sits in one point (a wheel on a bare housing) would spin without resistance, which no solver
 * takes: it gets at least the inertia of its mass spread over a tenth of the smallest wheel radius.
 */
function leastInertia(sum: Lump, wheels: readonly Wheel[]): number {
  const radius = Math.min(...wheels.map((w) => w.radius), Number.POSITIVE_INFINITY);
  const least = Number.isFinite(radius) ? sum.mass * (0.1 * radius) ** 2 : 0;
  return Math.max(sum.inertia, least);
}

/**
 * Stops that members ask for. A fitting stiffness lets the whole weight press one stop by 3 % of the smallest wheel
 * radius; damping is a third of critical for the mean mass of an axle line (definitions of our own).
 */
function stopsOf(tree: Tree, weight: number, size: number, wheels: readonly Wheel[]): BoundElement[] {
  const mass = wheels.reduce((sum, w) => sum + w.mass, 0) / Math.max(1, wheels.length);
  return tree.stops.flatMap(({ member, coordinate, limits, lever }) => {
    const unit = tree.members[member]?.unit ?? 'm';
    const arm = unit === 'rad' ? Math.max(lever, size) : 1;
    const rate = limits.stiffness ?? (weight / (0.03 * size)) * arm * arm;
    const damping = (2 / 3) * Math.sqrt(rate * mass * arm * arm);
    const name = tree.members[member]?.name ?? '';
    return (['bump', 'droop'] as const).flatMap((side): BoundElement[] => {
      const clearance = limits[side];
      if (clearance === undefined) return [];
      const law = makeStop(side, clearance, rate, damping);
      return [
        {
          name: `${name} ${side} stop`,
          kind: `${side}-stop`,
          coordinate,
          count: 1,
          law,
          stopOf: { member, side },
        },
      ];
    });
  });
}

/** Kind of an element by its name in documents. */
function elementKindOf(name: string): ElementKind | undefined {
  return (elementKinds as readonly unknown[] as readonly ElementKind[]).find((k) => k.kind === name);
}

/** An element of the document where it acts. */
function boundElement(entry: Vehicle['elements'][number], tree: Tree): BoundElement[] {
  const kind = (elementKinds as readonly unknown[] as readonly ElementKind[]).find(
    (k) => k.kind === entry.kind,
  );
  const coordinate = coordinateOf(entry.on, tree);
  if (!kind || !coordinate) return [];
  const member =
    'member' in entry.on
      ? tree.members.findIndex((m) => 'member' in entry.on && m.name === entry.on.member)
      : -1;
  const bar = kind.bar?.(entry as never);
  const side = entry.kind === 'bump-stop' ? 'bump' : entry.kind === 'droop-stop' ? 'droop' : undefined;
  return [
    {
      name: entry.name,
      kind: entry.kind,
      coordinate,
      count: entry.count,
      law: kind.law(entry as never),
      ...(bar === undefined ? {} : { bar }),
      ...(side !== undefined && member >= 0 ? { stopOf: { member, side } } : {}),
    },
  ];
}

/** Where an element acts, or undefined when it names a member without a coordinate (the reader has refused it). */
function coordinateOf(on: Vehicle['elements'][number]['on'], tree: Tree): Coordinate | undefined {
  if ('member' in on) return tree.members.find((m) => m.name === on.member)?.coordinate;
  const a = { body: tree.bodyOf.get(on.from.on) ?? 0, at: { x: on.from.x, z: on.from.z } };
  const b = { body: tree.bodyOf.get(on.to.on) ?? 0, at: { x: on.to.x, z: on.to.z } };
  return { kind: 'span', a, b, drawn: distance(a.at, b.at) };
}

/** Members whose travel ends at stops that are elements of the document take their clearance as travel available. */
function withOwnStops(members: readonly Member[], own: readonly BoundElement[]): Member[] {
  return members.map((member, index) => {
    const stop = (side: 'bump' | 'droop') => {
      const faces = own
        .filter((e) => e.stopOf?.member === index && e.stopOf.side === side)
        .flatMap((e) => e.law.corners.map(Math.abs));
      const limits = [...faces, ...(member[side] === undefined ? [] : [member[side]])];
      return limits.length === 0 ? {} : { [side]: Math.min(...limits) };
    };
    return { ...member, ...stop('bump'), ...stop('droop') };
  });
}
