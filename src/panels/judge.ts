import type { Verdict } from '../../shared/report.ts';
import type { Change, VerdictChange } from '../../sim/report/changes.ts';

/** Which way a change goes for the builder; 'moved' where more is neither better nor worse. */
export type Way = 'better' | 'worse' | 'moved';

/** Measures of which more is better (1) or worse (−1). All others only move. */
const wanted: Readonly<Record<string, 1 | -1>> = {
  leastLoadShare: 1,
  wheelLeastLoad: 1,
  wheelLeastLoadShare: 1,
  leastClearance: 1,
  stationReached: 1,
  distance: 1,
  greatestLoadShare: -1,
  wheelGreatestLoadShare: -1,
  wheelDynamicLoadCoefficient: -1,
  wheelGripUse: -1,
  greatestGripUse: -1,
  bogieLoadSpread: -1,
  bogieMeanLoadSpread: -1,
  wheelTimeOff: -1,
  wheelLongestOff: -1,
  longestOff: -1,
  heaveAccelerationUp: -1,
};

/** A change below this share of the figure is not worth a word for or against. */
const WORTH_A_WORD = 0.005;

function isSmall({
  before,
  after,
}: {
  readonly before: number | null;
  readonly after: number | null;
}): boolean {
  if (before === null || after === null) return false;
  return Math.abs(after - before) <= WORTH_A_WORD * Math.max(Math.abs(before), Math.abs(after));
}

/** Which way a criterion wants its value, by the side of the limit on which it holds; 0 where that can't be told. */
function wantedBy({ pass, value, limit }: Verdict): number {
  if (value === null || limit === null || value === limit) return 0;
  return (value > limit ? 1 : -1) * (pass ? 1 : -1);
}

function wayOfVerdict({ turn, before, after, difference }: VerdictChange): Way {
  if (turn === 'now passes') return 'better';
  if (turn === 'now fails') return 'worse';
  if (before === undefined || after === undefined || difference === null) return 'moved';
  if (isSmall({ before: before.value, after: after.value })) return 'moved';
  const direction = (wantedBy(after) || wantedBy(before)) * Math.sign(difference);
  return direction > 0 ? 'better' : direction < 0 ? 'worse' : 'moved';
}

/** Whether a change is for the better or the worse. */
export function wayOf(change: Change): Way {
  if (change.kind === 'verdict') return wayOfVerdict(change);
  if (isSmall(change)) return 'moved';
  const direction = (wanted[change.name] ?? 0) * Math.sign(change.difference ?? 0);
  return direction > 0 ? 'better' : direction < 0 ? 'worse' : 'moved';
}
