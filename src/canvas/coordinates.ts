import { distance, type Pose, place, unplace } from '../../shared/geometry/vec.ts';
import type { Coordinate, Mechanism } from '../../sim/mechanism/mechanism.ts';

/**
 * Value of a coordinate in a pose of the vehicle, m or rad; definitions and signs as in `Coordinate`. 0 for a `free`
 * joint, which has none.
 */
export function coordinateIn(
  mechanism: Pick<Mechanism, 'joints'>,
  coordinate: Coordinate,
  poses: readonly Pose[],
): number {
  const pose = (body: number) => poses[body] as Pose;
  if (coordinate.kind === 'span') {
    const { a, b, drawn } = coordinate;
    return drawn - distance(place(pose(a.body), a.at), place(pose(b.body), b.at));
  }
  if (coordinate.kind === 'lift') {
    const { body, at, parent } = coordinate;
    return unplace(pose(parent), place(pose(body), at)).z - at.z;
  }
  const joint = mechanism.joints[coordinate.joint];
  if (joint === undefined || joint.kind === 'free') return 0;
  if (joint.kind === 'hinge') return joint.sign * (pose(joint.child).angle - pose(joint.parent).angle);
  const now = unplace(pose(joint.parent), place(pose(joint.child), joint.anchor));
  return (now.x - joint.anchor.x) * joint.axis.x + (now.z - joint.anchor.z) * joint.axis.z;
}
