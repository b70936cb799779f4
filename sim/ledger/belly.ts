import { column } from '../../shared/recording.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Run } from '../report/criterion.ts';
import { stationWords } from '../report/words.ts';
import { shareOf, type Track } from './track.ts';
import { usedWords } from './words.ts';

/**
 * Underside against the ground: what is gone of its clearance as drawn, over that clearance; at 100 % it touches.
 * Definition of our own. Nothing for a vehicle without a belly line, or whose belly is drawn in the ground.
 */
export function bellyTracks(run: Run): Track[] {
  const { mechanism, recording } = run;
  const { points } = mechanism.belly;
  const drawn = Math.min(...points.map((p) => p.z));
  if (points.length === 0 || !(drawn > 0)) return [];
  const clearance = column(recording, 'clearance');
  const stations = column(recording, 'station');
  const carries = clearance.map((left) => Math.max(0, drawn - left));
  const place = (f: number) => stationWords(run, stations[f] as number);
  return [
    {
      head: {
        sort: 'belly',
        of: 'underside',
        path: 'vehicle.bodywork.belly',
        quantity: 'clearance',
        unit: 'm',
      },
      use: carries.map((gone) => shareOf(gone, drawn)),
      carries,
      limit: () => drawn,
      says: (f) => {
        const left = clearance[f] as number;
        const gone = `of ${formatQuantity(drawn, 'length')} as drawn`;
        return left < 0
          ? `The underside runs ${formatQuantity(-left, 'length')} into the ground at ${place(f)}, ${gone}.`
          : `The underside keeps ${formatQuantity(left, 'length')} ${gone} above the ground at ${place(f)} (${usedWords((carries[f] as number) / drawn)} gone).`;
      },
    },
  ];
}
