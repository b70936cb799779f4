import { column } from '../../shared/recording.ts';
import type { Run } from '../report/criterion.ts';
import { stationWords } from '../report/words.ts';
import { shareOf, type Track } from './track.ts';
import { figureWords, usedWords } from './words.ts';

/**
 * Every stop of every member: travel over the travel available from the drawn position. A stop that is met ends nothing by
 * itself, unless the member is named in `kept`.
 */
export function stopTracks(run: Run, kept: readonly string[]): Track[] {
  const { mechanism, recording } = run;
  const stations = column(recording, 'station');
  return mechanism.members.flatMap((member, m) =>
    (['bump', 'droop'] as const).flatMap((side): Track[] => {
      const available = member[side];
      if (available === undefined || member.coordinate === undefined || m >= recording.members.length)
        return [];
      const sign = side === 'bump' ? 1 : -1;
      const carries = column(recording, 'motion', m).map((way) => Math.max(0, sign * way));
      const share = (f: number) => shareOf(carries[f] as number, available);
      return [
        {
          head: {
            sort: 'stop',
            of: member.name,
            path: `vehicle.members[${m}].${side}`,
            quantity: `${side} travel`,
            unit: member.unit,
          },
          use: carries.map((way) => shareOf(way, available)),
          carries,
          limit: () => available,
          says: (f) =>
            `${member.name} travels ${figureWords(carries[f] as number, member.unit)} to its ${side} side at ${stationWords(run, stations[f] as number)}, with ${figureWords(available, member.unit)} to the stop (${usedWords(share(f))}).`,
          harmless: !kept.includes(member.name),
        },
      ];
    }),
  );
}
