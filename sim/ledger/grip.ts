import { column } from '../../shared/recording.ts';
import { formatNumber } from '../../shared/units.ts';
import type { DriveShare } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import { stationWords, theWheel } from '../report/words.ts';
import { shareOf, type Track } from './track.ts';
import { usedWords } from './words.ts';

/** Use from which a wheel behind a differential counts as spinning: it gets all the torque that its grip takes. */
const spins = 1 - 1e-9;

/**
 * Grip of every driven axle line: friction over the force across the contact, against the coefficient of friction. Behind
 * an open differential a wheel that spins ends the crossing: the others get no more torque than it takes.
 */
export function gripTracks(run: Run): Track[] {
  const { mechanism, recording } = run;
  const stations = column(recording, 'station');
  return mechanism.wheels.flatMap((wheel, w): Track[] => {
    if (!wheel.driven) return [];
    const normal = column(recording, 'normal', w);
    const thrust = column(recording, 'thrust', w);
    const { grip } = wheel.tyre;
    // a wheel that takes all its grip is at its limit, not past it by a rounding
    const carries = normal.map((load, f) => {
      const wants = load > 0 ? Math.abs(thrust[f] as number) / load : 0;
      return Math.abs(wants - grip) <= 1e-9 * grip ? grip : wants;
    });
    const use = carries.map((wants) => shareOf(wants, grip));
    const behind = standsBehind(mechanism.drive.share, w);
    const pulls = driving(run);
    return [
      {
        head: {
          sort: 'grip',
          of: wheel.name,
          path: `vehicle.wheels[${w}].tyre.grip`,
          quantity: 'grip',
          unit: '1',
        },
        use,
        carries,
        limit: () => grip,
        says: (f) =>
          `${theWheel(wheel.name)} ${recording.mode === 'drive' ? 'uses' : 'needs'} a grip of ${formatNumber(carries[f] as number)} at ${stationWords(run, stations[f] as number)} and has ${formatNumber(grip)} (${usedWords(use[f] as number)}).`,
        // in a drive, and behind a motor of its own, a wheel may spin while the others get on
        harmless: recording.mode === 'drive' || behind === 'motor',
        ...(recording.mode === 'crawl' && behind === 'differential'
          ? { ends: (f: number) => pulls(f) && ((use[f] as number) >= spins || !((normal[f] as number) > 0)) }
          : {}),
      },
    ];
  });
}

/**
 * What stands between an axle line and the others: locks alone, an open differential somewhere, or else motors of their own
 * (a limited differential, which passes more to the others, counts as these).
 */
function standsBehind(node: DriveShare, wheel: number): 'locks' | 'motor' | 'differential' {
  if (node.kind === 'wheel') return 'locks';
  const mine = node.branches.find((branch) => has(branch, wheel));
  if (mine === undefined) return 'locks';
  const inside = standsBehind(mine, wheel);
  if (node.branches.length < 2 || node.kind === 'locked' || inside === 'differential') return inside;
  const limited = (node.bias ?? 1) > 1 || (node.preload ?? 0) > 0;
  return node.kind === 'open' && !limited ? 'differential' : 'motor';
}

const has = (node: DriveShare, wheel: number): boolean =>
  node.kind === 'wheel' ? node.wheel === wheel : node.branches.some((branch) => has(branch, wheel));

/** Whether the drive has anything to do in a frame: on the level, coasting, nothing spins. */
function driving({ mechanism, recording }: Run): (frame: number) => boolean {
  const torques = mechanism.wheels.map((_, w) => column(recording, 'torque', w));
  const least = 1e-6 * mechanism.mass * mechanism.gravity * mechanism.size;
  return (f) => torques.some((torque) => Math.abs(torque[f] as number) > least);
}
