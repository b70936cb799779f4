import { column } from '../../shared/recording.ts';
import type { Run } from './criterion.ts';
import { greatestOf, leastOf, type Peak } from './moments.ts';

/** Travel of one member to one side, and what share of the travel available that is. */
export interface TravelUse {
  /** Index of the member. */
  readonly member: number;
  readonly side: 'bump' | 'droop';
  /** Greatest travel from the drawn position to this side, m or rad, at least 0; its frame. */
  readonly peak: Peak;
  /** Travel available, m or rad; undefined when unlimited. */
  readonly available: number | undefined;
  /** Travel over travel available, above 1 when the stop gives; undefined when unlimited or none is available. */
  readonly share: number | undefined;
}

/** Travel to both sides of every member that has a travel coordinate, from the drawn position. */
export function travelUses({ mechanism, recording }: Run): readonly TravelUse[] {
  return mechanism.members.flatMap(({ coordinate, bump, droop }, member) => {
    if (coordinate === undefined || member >= recording.members.length) return [];
    const motion = column(recording, 'motion', member);
    const up = greatestOf(motion);
    const down = leastOf(motion);
    if (up === undefined || down === undefined) return [];
    return [
      use(member, 'bump', up.value, up.frame, bump),
      use(member, 'droop', -down.value, down.frame, droop),
    ];
  });
}

function use(
  member: number,
  side: TravelUse['side'],
  travel: number,
  frame: number,
  available: number | undefined,
): TravelUse {
  const peak = { value: Math.max(0, travel), frame };
  const share = available === undefined || !(available > 0) ? undefined : peak.value / available;
  return {
    member,
    side,
    peak,
    available,
    share: share !== undefined && Number.isFinite(share) ? share : undefined,
  };
}
