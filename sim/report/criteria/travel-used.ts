import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { memberCause } from '../causes/member.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { momentOf } from '../moments.ts';
import { because, type Outcome, unknownNames, withoutValue } from '../outcome.ts';
import { type TravelUse, travelUses } from '../travel.ts';
import {
  angleWords,
  besideLimit,
  brokenOff,
  lengthWords,
  momentWords,
  sentence,
  shareWords,
} from '../words.ts';
import { membersField, none, unknownOf } from './chosen.ts';

const fields = z.strictObject({
  most: quantity('ratio', 'Greatest share of the travel available that a member may use, to either side.', {
    least: 0,
    most: 10,
  }),
  members: membersField,
});

/** No member uses more of its travel than asked, to bump or to droop. */
export const travelUsed = defineCriterion({
  kind: 'travel-used',
  title: 'Travel in reserve',
  fields,
  sample: { most: '90 %' },
  asks: ({ most, members }) =>
    `${none('member', members, 'uses', 'does not use')} more than ${shareWords(most)} of its travel`,
  judge({ most, members }, run) {
    const { recording } = run;
    const limit = { limit: most, unit: '1' };
    const unknown = unknownOf(recording.members, members);
    if (unknown.length > 0) return unknownNames('member', unknown, recording.members, limit);
    const worst = travelUses(run)
      .filter(
        ({ member, share }) =>
          share !== undefined && (members === undefined || members.includes(recording.members[member] ?? '')),
      )
      .reduce<TravelUse | undefined>(
        (best, each) => ((each.share ?? 0) > (best?.share ?? -1) ? each : best),
        undefined,
      );
    if (worst !== undefined) return verdictOf(run, worst, most);
    return withoutValue(members === undefined, 'No member has a stop that limits its travel.', limit);
  },
});

function verdictOf(run: Run, worst: TravelUse, most: number): Outcome {
  const { recording, mechanism } = run;
  const of = recording.members[worst.member] ?? '';
  const value = worst.share ?? 0;
  const words = mechanism.members[worst.member]?.unit === 'rad' ? angleWords : lengthWords;
  const shown = besideLimit(shareWords, value, most);
  const moment = momentOf(recording, worst.peak.frame);
  const says =
    `${sentence(of)} uses ${shown} of its ${worst.side} travel, ${words(worst.peak.value)} of ${words(worst.available ?? 0)} ` +
    `(${momentWords(run, moment)}).${brokenOff(run)}`;
  const cause = because(value > 0 ? memberCause(run, worst.member, worst.peak.frame) : undefined);
  return { pass: value <= most, value, limit: most, unit: '1', shown, says, ...cause, of, moment };
}
