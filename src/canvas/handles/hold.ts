import { type Pose, unplace, type Vec2 } from '../../../shared/geometry/vec.ts';
import { inWorld, onPicture, type View } from '../camera.ts';
import type { Spot } from '../geometry/shapes.ts';
import type { Seen } from '../sight.ts';
import type { Handle } from './handle.ts';
import { onSteps, withinLimits } from './steps.ts';

/** How the picture and the body lay when a pointer took hold: a drag is measured in them, however the vehicle moves. */
export interface Grip {
  readonly pointer: number;
  readonly from: Spot;
  readonly view: View;
  readonly pose: Pose;
  /** Moved far enough to be no mere press. */
  readonly moving: boolean;
}

/** A handle in hand: where it was, where it is wanted, and the pointer that holds it; keys have none. */
export interface Hold {
  readonly handle: Handle;
  readonly at: Vec2;
  readonly grip?: Grip;
}

/** A press that moves less than this is none, px. */
const SLACK = 3;

/** Takes a handle by a pointer at a spot of the picture; undefined while there is no picture of its body. */
export function gripBy(
  handle: Handle,
  pointer: number,
  from: Spot,
  seen: Seen | undefined,
): Hold | undefined {
  const pose = seen?.poses[handle.body];
  if (seen === undefined || pose === undefined) return undefined;
  return { handle, at: handle.at, grip: { pointer, from, view: seen.view, pose, moving: false } };
}

/** Where a drag to a spot takes the handle: the pointer's way in the drawing of its body, from where it was. */
export function dragTo(hold: Hold, to: Spot, step: number): Hold {
  const { grip, handle } = hold;
  if (grip === undefined) return hold;
  const { from, view, pose } = grip;
  if (!grip.moving && Math.hypot(to.x - from.x, to.y - from.y) < SLACK) return hold;
  const start = unplace(pose, inWorld(view, from.x, from.y));
  const end = unplace(pose, inWorld(view, to.x, to.y));
  const at = { x: handle.at.x + end.x - start.x, z: handle.at.z + end.z - start.z };
  return {
    ...hold,
    at: withinLimits(onSteps(at, handle.at, step), handle.limits),
    grip: { ...grip, moving: true },
  };
}

/** Where a drawn point of a body is on the picture, px; undefined when there is none. */
export function spotOf(seen: Seen | undefined, body: number, at: Vec2): Spot | undefined {
  const pose = seen?.poses[body];
  if (seen === undefined || pose === undefined) return undefined;
  const c = Math.cos(pose.angle);
  const s = Math.sin(pose.angle);
  return onPicture(seen.view, { x: pose.x + c * at.x - s * at.z, z: pose.z + s * at.x + c * at.z });
}

/** The handle nearest to a spot, within reach, px: handles may lie closer to each other than a finger is wide. */
export function nearestHandle(
  handles: readonly Handle[],
  seen: Seen | undefined,
  to: Spot,
  reach: number,
): Handle | undefined {
  let best: Handle | undefined;
  let least = reach;
  for (const handle of handles) {
    const spot = spotOf(seen, handle.body, handle.at);
    if (spot === undefined) continue;
    const d = Math.hypot(spot.x - to.x, spot.y - to.y);
    if (d <= least) {
      least = d;
      best = handle;
    }
  }
  return best;
}
