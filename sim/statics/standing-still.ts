import type { Recording } from '../../shared/recording.ts';
import { Frames, namesOf } from '../frames/frames.ts';
import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { Balance } from './balance.ts';
import { Instant } from './instant.ts';
import { Solver } from './solve.ts';
import type { Stand } from './stand.ts';

/**
 * A vehicle that stands as a recording of one frame, with the forces in its joints and members, so that everything that
 * looks at crossings can look at it too. Its wheels roll freely, or are locked where the ground pushes them along.
 */
export function stillOf(
  mechanism: Mechanism,
  ground: Ground,
  { standing, grip, unknowns }: Extract<Stand, { kind: 'stands' }>,
): Recording {
  const { station } = standing;
  const kind = grip > 0 ? 'parked' : 'none';
  const balance = new Balance(mechanism, ground, { thrust: { kind }, sense: 0, relaxed: true });
  const y = unknowns.slice();
  new Solver(balance).newton(y, station);
  const frames = new Frames(mechanism, true);
  const instant = new Instant(balance, station);
  const snapshot = instant.at(station, 0);
  frames.add({ ...snapshot, run: { ...snapshot.run, speed: 0 } });
  frames.addForces(instant.forces(y));
  return {
    mode: 'crawl',
    ...frames.pack(),
    columns: frames.columns,
    rate: 1,
    substep: 0,
    substepSays: 'balance of forces, no substep',
    ...namesOf(mechanism),
    standing,
    events: [],
    end: { kind: 'arrived', time: 0, station },
  };
}
