import { z } from 'zod';
import type { LedgerLine, LedgerSort } from '../../../shared/report.ts';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { defineCriterion, type Run } from '../criterion.ts';
import { type Outcome, unknownNames, withoutValue } from '../outcome.ts';
import { besideLimit, brokenOff, listWords, sentence, shareWords } from '../words.ts';

const driveLine: readonly LedgerSort[] = [
  'motor',
  'supply',
  'gear',
  'shaft',
  'joint',
  'differential',
  'clutch',
  'winch',
];
const runningGear: readonly LedgerSort[] = ['pin', 'rod', 'arm', 'bar', 'spring'];
const groups = {
  all: [...driveLine, ...runningGear],
  'drive-line': driveLine,
  'running-gear': runningGear,
} as const;

const fields = z.strictObject({
  most: quantity('ratio', 'Greatest share of its rating that a part may use.', { above: 0, most: 10 }),
  of: z.enum(['all', 'drive-line', 'running-gear']).default('all').meta({
    description:
      "Which parts: 'drive-line' (motors to hubs), 'running-gear' (pins, rods, arms, bars, springs), or 'all'.",
  }),
  parts: z
    .array(nameOf('Name of a part.'))
    .min(1)
    .max(200)
    .optional()
    .meta({ description: 'Only these parts, by name; every one when left out.' }),
  unknown: z
    .enum(['fail', 'leave-out'])
    .default('fail')
    .meta({ description: "Parts without a rating: they 'fail' the criterion, or it leaves them out." }),
});

/** Every part stays under a share of its rating. */
export const partUse = defineCriterion({
  kind: 'part-use',
  title: 'Parts stay under their ratings',
  fields,
  sample: { most: '70 %' },
  asks: ({ most, of, parts, unknown }) =>
    `${whoWords(of, parts)} under ${shareWords(most)} of ${(parts?.length ?? 1) > 1 ? 'their ratings' : 'its rating'}${unknown === 'leave-out' ? ', where that is known' : ''}`,
  judge({ most, of, parts, unknown }, run) {
    const limit = { limit: most, unit: '1' };
    const all = (run.ledger?.().lines ?? []).filter((line) => groups[of].includes(line.sort));
    const names = [...new Set(all.map((line) => line.of))];
    const missing = (parts ?? []).filter((name) => !names.includes(name));
    if (missing.length > 0) return unknownNames('part', missing, names, limit);
    const lines = parts === undefined ? all : all.filter((line) => parts.includes(line.of));
    if (lines.length === 0) return withoutValue(false, 'The vehicle has no such part to judge.', limit);
    return verdictOf(run, lines, most, unknown === 'fail');
  },
});

function whoWords(of: keyof typeof groups, parts: readonly string[] | undefined): string {
  if (parts !== undefined) return `${sentence(listWords(parts))} ${parts.length > 1 ? 'stay' : 'stays'}`;
  const where = { all: '', 'drive-line': ' of the drive line', 'running-gear': ' of the running gear' }[of];
  return `Every part${where} stays`;
}

/** The ledger comes sorted: its first line is the worst. */
function verdictOf(run: Run, lines: readonly LedgerLine[], most: number, strict: boolean): Outcome {
  const unrated = [...new Set(lines.filter((line) => line.use === null).map((line) => line.of))];
  const worst = lines.find((line) => line.use !== null);
  const rest = unrated.length === 0 ? '' : ` ${unratedWords(unrated)}`;
  if (worst === undefined || worst.use === null)
    return { ...withoutValue(!strict, `Nothing is known to judge by.${rest}`, { limit: most, unit: '1' }) };
  const value = worst.use;
  return {
    pass: value < most && !(strict && unrated.length > 0),
    value,
    limit: most,
    unit: '1',
    shown: besideLimit(shareWords, value, most),
    says: `${sentence(worst.says)}${rest}${brokenOff(run)}`,
    of: worst.of,
    ...(worst.moment === undefined ? {} : { moment: worst.moment }),
  };
}

/** 'No rating is known of a, b, c and 3 more.' */
function unratedWords(names: readonly string[]): string {
  const told = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  return `No rating is known of ${listWords(told)}.`;
}
