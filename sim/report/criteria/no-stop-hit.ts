import { z } from 'zod';
import type { RunEvent } from '../../../shared/recording.ts';
import { memberCause } from '../causes/member.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { momentAt } from '../moments.ts';
import { because, type Outcome, unknownNames } from '../outcome.ts';
import { brokenOff, listWords, momentWords, sentence } from '../words.ts';
import { membersField, none, unknownOf } from './chosen.ts';

type StopHit = Extract<RunEvent, { kind: 'stop-hit' }>;

const fields = z.strictObject({ members: membersField });
const limit = { limit: 0, unit: '1' };

/** No member hits its bump or droop stop. */
export const noStopHit = defineCriterion({
  kind: 'no-stop-hit',
  title: 'Nothing hits its stop',
  fields,
  sample: {},
  asks: ({ members }) => noneHits(members),
  judge({ members }, run) {
    const { recording } = run;
    const unknown = unknownOf(recording.members, members);
    if (unknown.length > 0) return unknownNames('member', unknown, recording.members, limit);
    const hits = recording.events.filter(
      (event): event is StopHit =>
        event.kind === 'stop-hit' && (members === undefined || members.includes(event.member)),
    );
    const first = hits[0];
    if (first !== undefined) return verdictOf(run, first, hits);
    const says = `${noneHits(members)}.${brokenOff(run)}`;
    return { pass: true, value: 0, ...limit, shown: 'no hits', says };
  },
});

const noneHits = (members: readonly string[] | undefined) =>
  members === undefined
    ? 'Nothing hits its stop'
    : none('member', members, 'hits its stop', 'does not hit its stop');

function verdictOf(run: Run, first: StopHit, hits: readonly StopHit[]): Outcome {
  const moment = momentAt(run.recording, first);
  const shown = hits.length === 1 ? '1 hit' : `${hits.length} hits`;
  const others = [...new Set(hits.map((hit) => hit.member))].filter((name) => name !== first.member);
  const also = others.length === 0 ? '' : `, later ${listWords(others)} too`;
  const often = hits.length === 1 ? '' : `; ${hits.length} hits in all${also}`;
  const says = `${sentence(first.member)} hits its ${first.side} stop (${momentWords(run, moment)})${often}.${brokenOff(run)}`;
  const member = run.recording.members.indexOf(first.member);
  const cause = because(memberCause(run, member, moment.frame));
  return { pass: false, value: hits.length, ...limit, shown, says, ...cause, of: first.member, moment };
}
