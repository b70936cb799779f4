import { column } from '../../../shared/recording.ts';
import { formatNumber, formatQuantity } from '../../../shared/units.ts';
import type { Run } from '../criterion.ts';
import { shareOf } from '../wheel-load.ts';
import { listWords, shareWords } from '../words.ts';

const newtons = (force: number): string => formatQuantity(force, 'force', 2);

/** A load away from the standing one by more than this is worth a word. */
const telling = 0.1;

/**
 * Why a wheel uses so much of its grip in a frame: the force along its contact, and what its coefficient of friction allows
 * under the force across it (Coulomb); how its load stands to the standing one. Undefined while it is off the ground.
 */
export function gripCause({ mechanism, recording }: Run, wheel: number, frame: number): string | undefined {
  const at = (channel: 'normal' | 'thrust' | 'load') => column(recording, channel, wheel)[frame] ?? 0;
  const grip = mechanism.wheels[wheel]?.tyre.grip ?? 0;
  const [normal, thrust] = [at('normal'), at('thrust')];
  if (!(normal > 0) || thrust === 0) return undefined;
  const allowed = `its grip of ${formatNumber(grip)} allows ${newtons(grip * normal)} under the ${newtons(normal)} across its contact`;
  const share = shareOf(recording, wheel, at('load'));
  const load =
    share === undefined || Math.abs(share - 1) < telling
      ? ''
      : `; it carries ${shareWords(share)} of its standing load`;
  return `It ${thrust > 0 ? 'drives' : 'is held back'} with ${newtons(Math.abs(thrust))}, and ${allowed}${load}.`;
}

/** From here on a wheel is at the limit of its grip: rounding aside. */
const atLimit = 0.999;

/**
 * What the wheels did when a run ended short of its goal: which were at the limit of their grip and which were off the
 * ground. Undefined when none was either.
 */
export function endCause({ recording }: Run): string | undefined {
  const last = recording.frames - 1;
  if (last < 0) return undefined;
  const those = (is: (w: number) => boolean) => recording.wheels.filter((_, w) => is(w));
  const off = those((w) => (column(recording, 'gap', w)[last] ?? 0) > 0);
  const slipping = those((w) => (column(recording, 'gripUse', w)[last] ?? 0) >= atLimit);
  const said = [
    ...(slipping.length === 0 ? [] : [`at the limit of grip: ${listWords(slipping)}`]),
    ...(off.length === 0 ? [] : [`off the ground: ${listWords(off)}`]),
  ];
  return said.length === 0 ? undefined : `At the end ${said.join('; ')}.`;
}
