import { cell, nineDigits } from '../../../shared/csv.ts';
import type { BoundStudy } from '../../tuning/bind.ts';
import { judgeWords } from '../../tuning/criteria.ts';
import type { Entry } from '../../tuning/journal.ts';
import { numbersOfDesign } from '../../tuning/results.ts';

/** All samples of a study as CSV, one per line in the order of the plan, made piece by piece. All values in SI. */
export function* samplesCsv(
  study: BoundStudy,
  units: readonly string[],
  samples: Iterable<Entry & { readonly design: readonly number[] }>,
): Generator<string> {
  const asks = judgeWords(study.scenario.criteria);
  const heads = [
    'n',
    ...study.dials.map(({ name, unit }) => (unit === '' ? name : `${name} (${unit})`)),
    ...study.goals.map(({ text }, g) => `${text} (${units[g] ?? '1'})`),
    'holds',
    'violation',
    ...asks.slice(0, -1).map((ask) => `missed: ${ask}`),
    'missed: gets across',
    'why',
  ];
  yield `${heads.map(cell).join(',')}\n`;
  for (const { n, design, outcome } of samples) {
    const { goals, holds, violation, short, why = '' } = outcome;
    const cells = [
      String(n),
      ...numbersOfDesign(study, design).map(({ value }) =>
        typeof value === 'number' ? nineDigits(value) : cell(value),
      ),
      ...goals.map((value) => (value === null ? '' : nineDigits(value))),
      holds ? '1' : '0',
      nineDigits(violation),
      ...short.map(nineDigits),
      cell(why),
    ];
    yield `${cells.join(',')}\n`;
  }
}
