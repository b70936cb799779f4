import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { type Bogie, bogiesOf } from '../bogies.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { type Spread, spreadOf } from '../load-spread.ts';
import { lostLoad } from '../lost-load.ts';
import { momentOf } from '../moments.ts';
import { because, type Outcome, unknownNames, withoutValue } from '../outcome.ts';
import { besideLimit, brokenOff, listWords, momentWords, shareWords } from '../words.ts';
import { membersField, unknownOf } from './chosen.ts';

const fields = z.strictObject({
  most: quantity(
    'ratio',
    'Greatest load spread between the wheels of a bogie, as a share of its mean standing load per wheel.',
    {
      least: 0,
      most: 100,
    },
  ),
  members: membersField,
});

/** The wheels of each bogie share their load to within so much. */
export const loadSpread = defineCriterion({
  kind: 'load-spread',
  title: 'Bogies share their load',
  fields,
  sample: { most: '60 %' },
  asks: ({ most, members }) =>
    `On ${members === undefined ? 'every bogie' : listWords(members)} the wheel loads differ by at most ` +
    `${shareWords(most)} of its mean standing load per wheel`,
  judge({ most, members }, run) {
    const limit = { limit: most, unit: '1' };
    const bogies = bogiesOf(run.mechanism);
    const known = [...new Set(bogies.flatMap((bogie) => bogie.members))];
    const unknown = unknownOf(known, members);
    if (bogies.length === 0)
      return withoutValue(
        false,
        'The vehicle has no bogie: no two of its axle lines hang on one member, rod or pivot.',
        limit,
      );
    if (unknown.length > 0) return unknownNames('bogie', unknown, known, limit);
    const spreads = bogies
      .filter((bogie) => members === undefined || bogie.members.some((name) => members.includes(name)))
      .flatMap((bogie) => {
        const spread = spreadOf(run, bogie);
        return spread === undefined ? [] : [{ bogie, spread }];
      });
    const first = spreads[0];
    if (first === undefined) return withoutValue(false, 'No bogie carries a load when standing.', limit);
    const worst = spreads.reduce(
      (best, each) => (each.spread.peak.value > best.spread.peak.value ? each : best),
      first,
    );
    return verdictOf(run, worst.bogie, worst.spread, most);
  },
});

function verdictOf(run: Run, bogie: Bogie, spread: Spread, most: number): Outcome {
  const { recording } = run;
  const { value, frame } = spread.peak;
  const moment = momentOf(recording, frame);
  const shown = besideLimit(shareWords, value, most);
  const says =
    `On ${bogie.name} the ${recording.wheels[spread.most]} wheel carries ${shown} of the bogie's mean standing load more than ` +
    `the ${recording.wheels[spread.least]} wheel (${momentWords(run, moment)}).${brokenOff(run)}`;
  const lost = lostLoad(run, spread.least, frame);
  const cause = because(lost && `Of the ${recording.wheels[spread.least]} wheel: ${lost}`);
  return {
    pass: value <= most,
    value,
    limit: most,
    unit: '1',
    shown,
    says,
    ...cause,
    of: bogie.name,
    moment,
  };
}
