import type { Measure } from '../../../shared/report.ts';
import type { MeasureKind, Run } from '../criterion.ts';
import { momentOf } from '../moments.ts';
import { type TravelUse, travelUses } from '../travel.ts';
import { measured, ownDefinition } from './measure.ts';

const sides = {
  bump: { title: 'bump', name: 'Bump', words: 'upwards (bump)' },
  droop: { title: 'droop', name: 'Droop', words: 'downwards (droop)' },
} as const;

/** Travel of every member to both sides, and the share of the travel available. */
export const travelMeasure: MeasureKind = {
  name: 'travel',
  measure: (run) =>
    travelUses(run).flatMap((use) => [
      travel(run, use),
      ...(use.available === undefined ? [] : [used(run, use)]),
    ]),
};

function travel({ mechanism, recording }: Run, { member, side, peak }: TravelUse): Measure {
  const head = {
    name: `member${sides[side].name}`,
    title: `Greatest ${sides[side].title} travel`,
    says: `Greatest travel ${sides[side].words} of the member's own coordinate from the drawn position.`,
    source: ownDefinition,
    unit: mechanism.members[member]?.unit ?? 'm',
  };
  return measured(head, peak.value, {
    of: recording.members[member],
    moment: momentOf(recording, peak.frame),
  });
}

function used({ recording }: Run, { member, side, peak, share }: TravelUse): Measure {
  const head = {
    name: `member${sides[side].name}Used`,
    title: `Share of the ${sides[side].title} travel used`,
    says: `Greatest travel ${sides[side].words} over the travel available to the stop; above 1 where the stop gives.`,
    source: ownDefinition,
    unit: '1',
  };
  return measured(head, share, { of: recording.members[member], moment: momentOf(recording, peak.frame) });
}
