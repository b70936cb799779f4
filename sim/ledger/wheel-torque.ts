import { column } from '../../shared/recording.ts';
import type { Run } from '../report/criterion.ts';
import { stationWords } from '../report/words.ts';
import { shareOf, type Track } from './track.ts';
import { figureWords, usedWords } from './words.ts';

/** Torque of every driven axle line against what its drive gives, for a vehicle without a drive line; of ONE wheel. */
export function torqueTracks(run: Run): Track[] {
  const { mechanism, recording } = run;
  const stations = column(recording, 'station');
  return mechanism.wheels.flatMap((wheel, w): Track[] => {
    if (!wheel.driven) return [];
    const limit = wheel.torqueLimit / wheel.count;
    const carries = column(recording, 'torque', w).map((torque) => Math.abs(torque) / wheel.count);
    return [
      {
        head: {
          sort: 'motor',
          of: wheel.name,
          path: 'vehicle.drive.torquePerWheel',
          quantity: 'torque',
          unit: 'N·m',
          how: 'given',
        },
        use: carries.map((torque) => shareOf(torque, limit)),
        carries,
        limit: () => limit,
        says: (f) =>
          `${wheel.name} needs ${figureWords(carries[f] as number, 'N·m')} at each wheel at ${stationWords(run, stations[f] as number)} and has ${figureWords(limit, 'N·m')} (${usedWords(shareOf(carries[f] as number, limit))}).`,
        harmless: recording.mode === 'drive',
      },
    ];
  });
}
