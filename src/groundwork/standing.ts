import type { Recording } from '../../shared/recording.ts';
import { previewOf } from '../runs/preview.ts';
import type { Solved } from '../solved.ts';
import type { Drawn } from '../workers/told.ts';

/** The vehicle where it stands before its run, on the ground as it is now: what the ground is changed under. */
export function standingOn(drawn: Drawn, found: Recording | undefined): Solved {
  const { mechanism } = drawn;
  const standing = found?.standing;
  const fits =
    standing !== undefined &&
    standing.poses.length === mechanism.bodies.length &&
    standing.loads.length === mechanism.wheels.length;
  const preview = previewOf(drawn, fits ? standing.loads : []);
  if (!fits) return preview;
  const { columns, block } = preview.recording;
  const placed = Float64Array.from(block, (value, i) => {
    const head = columns[i];
    const pose = head === undefined ? undefined : standing.poses[head.index];
    if (head === undefined || pose === undefined) return value;
    if (head.channel === 'x') return pose.x;
    if (head.channel === 'z') return pose.z;
    return head.channel === 'angle' ? pose.angle : value;
  });
  return { ...preview, recording: { ...preview.recording, block: placed } };
}
