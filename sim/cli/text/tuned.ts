import type { ShownDesign, StudyResults } from '../../tuning/results.ts';
import { answerOf, type holdsWords, say, sayNumber } from '../../tuning/summary.ts';
import { clean } from './clean.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

/** What a person sees of a study: the answer, then the best designs, then what rules designs out. */
export function tunedText(results: StudyResults, style: Style, width: number): string {
  const { title, vehicle, scenario, taken, best, rulesOut, failures } = results;
  const answer = answerOf(results).flatMap((line) => wrap(clean(line), width));
  const blocks = [
    [...wrap(clean(title), width).map(style.strong), ...wrap(clean(`${vehicle}: ${scenario}`), width)],
    answer.map((line) => (/^Take:/.test(line) ? style.good(line) : line)),
    designLines(shownOf(best, taken), results),
    rulesOut.length === 0
      ? []
      : table(
          [
            { head: 'designs', align: 'right' },
            { head: 'ruled out by', align: 'left' },
          ],
          rulesOut.map(({ asks, count }) => [String(count), clean(asks)]),
        ),
    failures.length === 0
      ? []
      : table(
          [
            { head: 'designs', align: 'right' },
            { head: 'could not be judged', align: 'left' },
          ],
          failures.map(({ why, count }) => [String(count), clean(why)]),
        ),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** The first ten of the best, and the one to take where it is not among them. */
function shownOf(best: readonly ShownDesign[], taken: ShownDesign | null): readonly ShownDesign[] {
  return best.filter(({ n }, i) => i < 10 || n === taken?.n);
}

function designLines(designs: readonly ShownDesign[], { dials, goals }: StudyResults): string[] {
  if (designs.length === 0) return [];
  const heads: Column[] = [
    ...dials.map(({ name }): Column => ({ head: clean(name), align: 'right' })),
    ...goals.map(({ title }): Column => ({ head: clean(title), align: 'right' })),
    { head: 'criteria', align: 'left' },
    ...(designs.some((d) => d.driven) ? [{ head: 'driven', align: 'left' } as const] : []),
  ];
  const held = (design: Parameters<typeof holdsWords>[0]) =>
    design.holds ? 'all hold' : design.misses.length > 0 ? `${design.misses.length} missed` : 'fails';
  return table(
    heads,
    designs.map((design) => [
      ...design.numbers.map((number) => clean(sayNumber(number))),
      ...goals.map(({ unit }, g) => {
        const value = design.goals[g] ?? null;
        return value === null ? '–' : say(value, unit);
      }),
      held(design),
      design.driven === undefined ? '' : held(design.driven),
    ]),
  );
}
