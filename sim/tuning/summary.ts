import { type Dimension, dimensions, formatNumber, formatQuantity, formatShare } from '../../shared/units.ts';
import type { Probability } from '../chance/interval.ts';
import type { DrivenDesign, ShownDesign, ShownNumber, StudyResults } from './results.ts';

/** A value with its unit for people; a share in per cent. */
export function say(value: number, unit: string): string {
  if (unit === '1') return formatShare(value);
  const dimension = (Object.keys(dimensions) as Dimension[]).find((name) => dimensions[name].unit === unit);
  return dimension === undefined ? `${formatNumber(value)} ${unit}`.trim() : formatQuantity(value, dimension);
}

/** A number of a design: '2.2 mm', a word as it is, a count or ratio bare. */
export function sayNumber({ value, unit }: Pick<ShownNumber, 'value' | 'unit'>): string {
  if (typeof value === 'string') return value;
  return unit === '1' || unit === '' ? formatNumber(value) : say(value, unit);
}

/** The first goals of a design in words. */
export function sayGoals({ goals }: Pick<ShownDesign, 'goals'>, results: StudyResults): string {
  return results.goals
    .map(({ title, unit }, g) => {
      const value = goals[g] ?? null;
      return `${title.toLowerCase()}: ${value === null ? 'none' : say(value, unit)}`;
    })
    .join('; ');
}

const counted = (count: number, one: string): string =>
  `${count.toLocaleString('en')} ${one}${count === 1 ? '' : 's'}`;

/** The answer of a study in a few sentences: what to take, what it does, what today's does; or why there is none. */
export function answerOf(results: StudyResults): string[] {
  const { taken, today, tried, held, failed, best, wanted } = results;
  const lines = [
    `Tried ${counted(tried, 'design')}: all criteria hold for ${held.toLocaleString('en')}${failed > 0 ? `, ${failed.toLocaleString('en')} could not be judged` : ''}.`,
    `Today: ${sayGoals(today, results)}; ${holdsWords(today)}.`,
  ];
  if (taken !== null)
    return [
      ...lines,
      `Take: ${sayDesign(taken)}. ${sentence(sayGoals(taken, results))}; ${holdsWords(taken)}.`,
      ...drivenWords(taken),
      ...sureWords(taken),
      ...plainWords(results),
    ];
  const surest = best
    .filter((d) => d.sure !== undefined)
    .sort((a, b) => (b.sure?.all.value ?? 0) - (a.sure?.all.value ?? 0))[0];
  if (surest !== undefined && wanted !== null)
    return [
      ...lines,
      `No design that was drawn holds all criteria with ${formatShare(wanted)}. The surest: ${sayDesign(surest)}. ${sentence(sayGoals(surest, results))}.`,
      ...sureWords(surest),
      ...plainWords(results),
    ];
  const failing = best.find((d) => d.holds && d.driven !== undefined);
  if (failing !== undefined)
    return [
      ...lines,
      `No design that was driven holds. The best in balance, ${sayDesign(failing)}, ${missWords(failing.driven)} when driven.`,
      "More of the best can be driven: raise 'confirm' in 'run'.",
    ];
  return [...lines, ...emptyWords(results)];
}

/** Why no design holds: which criterion rules most of them out, and the one that misses least. */
function emptyWords({ rulesOut, leastViolated, tried, failed, failures, buy }: StudyResults): string[] {
  const [first] = rulesOut;
  const judged = tried - failed;
  const rules =
    first === undefined
      ? []
      : [
          `No design holds all criteria. “${first.asks}” rules out most: ${first.count.toLocaleString('en')} of ${judged.toLocaleString('en')}.`,
        ];
  const near =
    leastViolated === null ? [] : [`Nearest: ${sayDesign(leastViolated)}; it ${missWords(leastViolated)}.`];
  const why = failures[0];
  const broken =
    why === undefined || judged > 0
      ? []
      : [`No design could be judged. Most often: ${why.why} (${counted(why.count, 'design')}).`];
  return [...rules, ...near, ...broken, ...buy];
}

/** '96 % (94 % to 98 %)'. */
const sayProbability = ({ value, low, high }: Probability): string =>
  `${formatShare(value)} (${formatShare(low)} to ${formatShare(high)})`;

/** What it takes from stock, how sure it is, and what that hangs on. */
function sureWords({ sure, takes = [] }: ShownDesign): string[] {
  const used = takes.map(({ item, count }) => `${count} × ${item}`).join(', ');
  const stock = used === '' ? [] : [`From stock: ${used}.`];
  if (sure === undefined) return stock;
  const weakest = [...sure.criteria].sort((a, b) => a.value - b.value)[0];
  const weak =
    weakest === undefined || weakest.value === 1
      ? ''
      : `; “${weakest.asks}” holds for ${sayProbability(weakest)}`;
  const [first] = sure.matters;
  return [
    ...stock,
    `Of ${counted(sure.draws, 'drawn vehicle')}, all criteria hold for ${sayProbability(sure.all)}${weak}.`,
    ...(first === undefined
      ? []
      : [
          `What matters most to it: ${first.name}, ${formatShare(Math.max(0, first.total.value))} of the variance.`,
        ]),
  ];
}

/** The plain best beside a robust one. */
function plainWords(results: StudyResults): string[] {
  const { plain } = results;
  if (plain === null) return [];
  return [
    `As drawn, without chance, the best is ${sayDesign(plain)}: ${sayGoals(plain, results)}; ${holdsWords(plain)}.`,
  ];
}

/** 'front bar 2.2 mm, rear bar 2.0 mm'. */
export const sayDesign = ({ numbers }: ShownDesign): string =>
  numbers.map((number) => `${number.name} ${sayNumber(number)}`).join(', ');

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** 'all criteria hold', or what is missed. */
export function holdsWords(design: DrivenDesign): string {
  return design.holds ? 'all criteria hold' : missWords(design);
}

function missWords(design: DrivenDesign | undefined): string {
  const { misses = [], why = null } = design ?? {};
  const list = misses.map(({ asks }) => `“${asks}”`).join(', ');
  if (list === '') return why === null ? 'has nothing to measure' : `fails: ${why}`;
  return `misses ${list}${why === null ? '' : ` (${why})`}`;
}

function drivenWords({ driven }: ShownDesign): string[] {
  if (driven === undefined) return [];
  return [
    driven.holds ? 'Driven with inertia it holds too.' : `Driven with inertia it ${missWords(driven)}.`,
  ];
}

/** A cell of a Markdown table: no line breaks, no bars. */
const md = (text: string): string =>
  text.replace(/[\r\n]+/g, ' ').replace(/[\\`*_{}[\]<>|#]/g, (mark) => `\\${mark}`);

const tableOf = (heads: readonly string[], rows: readonly (readonly string[])[]): string[] => [
  `| ${heads.map(md).join(' | ')} |`,
  `| ${heads.map(() => '---').join(' | ')} |`,
  ...rows.map((row) => `| ${row.map(md).join(' | ')} |`),
];

/** The whole study as a page of Markdown. */
export function summaryOf(results: StudyResults): string {
  const { title, scenario, vehicle, method, seed, by, dials, goals, grounds } = results;
  const wants = goals.map(({ title: t, want }) => `${want} ${t.toLowerCase()}`).join(', ');
  const how = by === 'crawl' ? 'crossings in balance' : 'driven crossings';
  return `${[
    `# ${md(title)}`,
    '',
    md(
      `${vehicle}, ${scenario}. Wanted: ${wants}. Method ${method}, seed ${seed}, ${how} of ${grounds.map((g) => g.name).join(', ')}.`,
    ),
    '',
    ...answerOf(results).flatMap((line) => [md(line), '']),
    '## Numbers',
    '',
    ...tableOf(
      ['number', 'today', 'tried'],
      dials.map((dial) => [
        dial.name,
        dial.now === null ? '' : sayNumber({ value: dial.now, unit: dial.unit }),
        triedWords(dial),
      ]),
    ),
    '',
    ...section('Best designs', results.best, results),
    ...section('Front', results.front, results),
    ...rulesLines(results),
  ].join('\n')}\n`;
}

function triedWords({ from, to, values, unit }: StudyResults['dials'][number]): string {
  const words = (value: number | string) => sayNumber({ value, unit });
  if (values === null) return `${words(from ?? 0)} to ${words(to ?? 0)}`;
  const [first = '', last = ''] = [values[0], values.at(-1)];
  return values.length <= 8
    ? values.map(words).join(', ')
    : `${words(first)} to ${words(last)}, ${values.length} values`;
}

function section(title: string, designs: readonly ShownDesign[], results: StudyResults): string[] {
  if (designs.length === 0) return [];
  const heads = [
    ...results.dials.map(({ name }) => name),
    ...results.goals.map(({ title: t }) => t),
    'criteria',
    'driven',
  ];
  const rows = designs.map((design) => [
    ...design.numbers.map(sayNumber),
    ...results.goals.map(({ unit }, g) => {
      const value = design.goals[g] ?? null;
      return value === null ? '' : say(value, unit);
    }),
    holdsWords(design),
    design.driven === undefined ? '' : holdsWords(design.driven),
  ]);
  return [`## ${title}`, '', ...tableOf(heads, rows), ''];
}

function rulesLines({ rulesOut, failures }: StudyResults): string[] {
  const rules = rulesOut.map(({ asks, count }) => [asks, count.toLocaleString('en')]);
  const fails = failures.map(({ why, count }) => [why, count.toLocaleString('en')]);
  return [
    ...(rules.length === 0
      ? []
      : ['## What rules designs out', '', ...tableOf(['criterion', 'designs'], rules), '']),
    ...(fails.length === 0
      ? []
      : ['## What could not be judged', '', ...tableOf(['reason', 'designs'], fails), '']),
  ];
}
