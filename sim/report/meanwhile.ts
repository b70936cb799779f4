import { column } from '../../shared/recording.ts';
import type { Run } from './criterion.ts';
import { shareOf } from './wheel-load.ts';
import { listWords, shareWords, theWheel } from './words.ts';

/** A wheel that carries this much more than when standing is worth a word: below it, loads are about as they stand. */
const heavy = 1.25;

/**
 * What helps to see why a wheel was light in a frame, as a sentence with a leading space: which of the members that
 * carry it were at their droop stop, and which wheel carried the load instead. Empty when there is neither.
 */
export function meanwhile(run: Run, wheel: number, frame: number): string {
  const stops = droopedOut(run, wheel, frame).map((name) => `${name} is at its droop stop`);
  const said = listWords([...stops, ...heaviest(run, wheel, frame)]);
  return said === '' ? '' : ` Meanwhile ${said}.`;
}

/** Members between a wheel and the chassis that hang in their droop stop in this frame. */
function droopedOut({ mechanism, recording }: Run, wheel: number, frame: number): readonly string[] {
  const carriers = new Set<number>();
  for (let body = mechanism.wheels[wheel]?.body ?? 0; body > 0; body = mechanism.bodies[body]?.parent ?? 0) {
    carriers.add(body);
  }
  return mechanism.members.flatMap(({ name, body, coordinate, droop }, index) => {
    if (coordinate === undefined || droop === undefined || !carriers.has(body)) return [];
    return (column(recording, 'motion', index)[frame] ?? 0) <= -droop ? [name] : [];
  });
}

/** The other wheel with the greatest share of its standing load in this frame, if it is a heavy one. */
function heaviest({ recording }: Run, wheel: number, frame: number): readonly string[] {
  const shares = recording.wheels.map((_, other) =>
    other === wheel ? undefined : shareOf(recording, other, column(recording, 'load', other)[frame] ?? 0),
  );
  const most = Math.max(...shares.map((share) => share ?? 0));
  if (!(most >= heavy)) return [];
  const name = recording.wheels[shares.indexOf(most)] ?? '';
  return [`${theWheel(name).replace(/^The/, 'the')} carries ${shareWords(most)} of its standing load`];
}
