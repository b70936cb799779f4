import { place } from '../../../shared/geometry/vec.ts';
import { column, poseAt } from '../../../shared/recording.ts';
import type { Run } from '../criterion.ts';
import { lengthWords, theWheel } from '../words.ts';

/** A part of the height below this share of it is not worth a word. */
const telling = 0.05;

/** Difference of heights, as a share of the wheelbase, below which the vehicle stands level. */
const level = 0.005;

/**
 * Why the chassis pitches in a frame, as a sentence: how much higher its foremost hub lies against its rearmost one than as
 * drawn, and what part of that their travels take up or add. With hubs at drawn distance L the chassis' own share is L·sin
 * pitch; both are read off the recording, nothing is guessed. Undefined with fewer than two axle lines, or where the
 * difference is below a two-hundredth of the wheelbase (0.3°).
 */
export function pitchCause({ mechanism, recording }: Run, frame: number): string | undefined {
  const order = mechanism.wheels.map((_, w) => w).sort((a, b) => hubX(a) - hubX(b));
  const [rear, front] = [order[0], order.at(-1)];
  if (rear === undefined || front === undefined || rear === front) return undefined;
  const height = (w: number): number => {
    const { body, hub } = mechanism.wheels[w] as { body: number; hub: { x: number; z: number } };
    return place(poseAt(recording, body, frame), hub).z - hub.z;
  };
  const higher = height(front) - height(rear);
  if (!(Math.abs(higher) > level * (hubX(front) - hubX(rear)))) return undefined;
  const travel = (w: number) => column(recording, 'travel', w)[frame] ?? 0;
  // Travel of the front hub up, or of the rear one down, leaves so much less for the chassis to follow.
  const taken = (travel(front) - travel(rear)) * Math.sign(higher);
  const name = (w: number) => theWheel(mechanism.wheels[w]?.name ?? '');
  const words =
    Math.abs(taken) < telling * Math.abs(higher)
      ? 'their travels hardly change that'
      : taken > 0
        ? `their travels take up ${lengthWords(taken, 2)} of that`
        : `their travels add ${lengthWords(-taken, 2)} to that`;
  return (
    `${name(front)} is ${lengthWords(Math.abs(higher), 3)} ${higher > 0 ? 'higher' : 'lower'} than as drawn against ` +
    `${name(rear).replace(/^The/, 'the')}; ${words}.`
  );

  function hubX(w: number): number {
    return mechanism.wheels[w]?.hub.x ?? 0;
  }
}
