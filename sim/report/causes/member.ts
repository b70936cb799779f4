import { column } from '../../../shared/recording.ts';
import type { Run } from '../criterion.ts';
import { shareOf } from '../wheel-load.ts';
import { lengthWords, shareWords, theWheel } from '../words.ts';

/** Wheels that a member carries, directly or through others. */
function wheelsOn({ mechanism }: Run, member: number): readonly number[] {
  const top = mechanism.members[member]?.body ?? -1;
  const carried = (body: number): boolean =>
    body === top || (body > 0 && carried(mechanism.bodies[body]?.parent ?? -1));
  return top <= 0 ? [] : mechanism.wheels.flatMap(({ body }, w) => (carried(body) ? [w] : []));
}

const the = (name: string): string => theWheel(name).replace(/^The/, 'the');

/** 'carries 243 % of its standing load', 'is off the ground'. */
function loadWords({ recording }: Run, wheel: number, frame: number): string {
  if ((column(recording, 'gap', wheel)[frame] ?? 0) > 0) return 'is off the ground';
  const share = shareOf(recording, wheel, column(recording, 'load', wheel)[frame] ?? 0);
  return share === undefined ? '' : `carries ${shareWords(share, 3)} of its standing load`;
}

/**
 * What pushed a member to a side in a frame, as a sentence, from its wheels: of one axle line the load that presses it up
 * or lets it hang; of several how much higher one of them lies than another. Undefined for a member without wheels.
 */
export function memberCause(run: Run, member: number, frame: number): string | undefined {
  const { recording } = run;
  const wheels = wheelsOn(run, member);
  const travel = (w: number) => column(recording, 'travel', w)[frame] ?? 0;
  const name = (w: number) => recording.wheels[w] ?? '';
  const [only] = wheels;
  if (only === undefined) return undefined;
  if (wheels.length === 1) {
    const load = loadWords(run, only, frame);
    return load === '' ? undefined : `${theWheel(name(only))} on it ${load} there.`;
  }
  const high = wheels.reduce((a, b) => (travel(b) > travel(a) ? b : a));
  const low = wheels.reduce((a, b) => (travel(b) < travel(a) ? b : a));
  if (high === low) return undefined;
  const up = loadWords(run, high, frame);
  return (
    `${theWheel(name(high))} on it lies ${lengthWords(travel(high) - travel(low), 3)} higher against ${the(name(low))} than as drawn` +
    `${up === '' ? '' : `, and ${up}`}.`
  );
}
