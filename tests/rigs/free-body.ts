/*
 * Free-body sums from the columns of a recording alone, written apart from the program's own: every force as a vector
 * at a point, added body by body. Only for vehicles that do not move (crawls).
 */
import { add, cross, distance, place, scale, sub, turn, type Vec2 } from '../../shared/geometry/vec.ts';
import { type Channel, column, poseAt, type Recording } from '../../shared/recording.ts';
import type { BodyPoint, Mechanism } from '../../sim/mechanism/mechanism.ts';

/** What is left of all forces on one body: N, and N·m about its centre of mass. */
export interface Left {
  readonly force: Vec2;
  readonly moment: number;
}

/** What is left over on every body in a frame. */
export function leftOver(mechanism: Mechanism, recording: Recording, frame: number): Left[] {
  const at = (channel: Channel, index: number) => column(recording, channel, index)[frame] as number;
  const poses = mechanism.bodies.map((_, b) => poseAt(recording, b, frame));
  const world = (body: number, drawn: Vec2) => place(poses[body] ?? { x: 0, z: 0, angle: 0 }, drawn);
  const left = mechanism.bodies.map((): Left => ({ force: { x: 0, z: 0 }, moment: 0 }));
  const push = (body: number, point: Vec2, force: Vec2, couple = 0) => {
    const { force: sum, moment } = left[body] as Left;
    const arm = sub(point, world(body, mechanism.bodies[body]?.centre ?? { x: 0, z: 0 }));
    left[body] = { force: add(sum, force), moment: moment + couple + cross(arm, force) };
  };
  const pair = (one: number, other: number, point: Vec2, force: Vec2, couple = 0) => {
    push(one, point, force, couple);
    push(other, point, scale(force, -1), -couple);
  };
  const pull = (a: BodyPoint, b: BodyPoint, tension: number) => {
    const [from, to] = [world(a.body, a.at), world(b.body, b.at)];
    const along = scale(sub(to, from), tension / distance(from, to));
    push(a.body, from, along);
    push(b.body, to, scale(along, -1));
  };
  mechanism.bodies.forEach(({ mass, centre }, b) => {
    push(b, world(b, centre), { x: 0, z: -mass * mechanism.gravity });
  });
  mechanism.wheels.forEach(({ body, hub, reactions }, w) => {
    push(body, world(body, hub), { x: at('groundX', w), z: at('groundZ', w) });
    for (const { body: on, share } of reactions)
      push(on, world(on, hub), { x: 0, z: 0 }, share * at('torque', w));
  });
  for (const { body, at: point, fx, fz } of mechanism.pulls) push(body, world(body, point), { x: fx, z: fz });
  mechanism.rods.forEach((rod, r) => {
    pull(rod.a, rod.b, at('rodTension', r));
  });
  for (const [e, { coordinate }] of mechanism.elements.entries()) {
    const effort = at('elementEffort', e);
    const joint = coordinate.kind === 'joint' ? mechanism.joints[coordinate.joint] : undefined;
    const slid = (child: number, parent: number, drawn: Vec2, axis: Vec2) =>
      pair(child, parent, world(child, drawn), scale(turn(axis, poses[parent]?.angle ?? 0), effort));
    if (coordinate.kind === 'span') pull(coordinate.a, coordinate.b, effort);
    else if (coordinate.kind === 'lift')
      slid(coordinate.body, coordinate.parent, coordinate.at, { x: 0, z: 1 });
    else if (joint?.kind === 'slide') slid(joint.child, joint.parent, joint.anchor, joint.axis);
    else if (joint) {
      const none = { x: 0, z: 0 };
      pair(joint.child, joint.parent, world(joint.child, joint.anchor), none, joint.sign * effort);
    }
  }
  mechanism.joints
    .filter(({ kind }) => kind !== 'free')
    .forEach(({ child, parent, anchor }, j) => {
      const force = { x: at('pinX', j), z: at('pinZ', j) };
      pair(child, parent, world(child, anchor), force, at('pinMoment', j));
    });
  return left;
}

/** Largest force and moment left over on any body in any frame, over weight and weight × smallest wheel radius. */
export function worstLeft(
  mechanism: Mechanism,
  recording: Recording,
): { readonly force: number; readonly moment: number } {
  const weight = mechanism.mass * mechanism.gravity;
  let worst = { force: 0, moment: 0 };
  for (let frame = 0; frame < recording.frames; frame++)
    for (const { force, moment } of leftOver(mechanism, recording, frame))
      worst = {
        force: Math.max(worst.force, Math.hypot(force.x, force.z) / weight),
        moment: Math.max(worst.moment, Math.abs(moment) / (weight * mechanism.size)),
      };
  return worst;
}
