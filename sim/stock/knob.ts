import { type Path, pathText } from '../../shared/path.ts';
import { type Checked, Problems } from '../../shared/problem.ts';
import { childOf } from '../../shared/schema/describe.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Choice, Place, StockItem, StockKind, StockPut } from './kind.ts';
import { countAt, entryWords } from './place.ts';
import { type StockList, stockKinds } from './registry.ts';
import { itemsIn, type Stock, writtenText } from './stock.ts';

/** A value for a place, with the text that it was written as where that may carry a spread. */
export interface TakenPut {
  readonly path: Path;
  readonly value: unknown;
  readonly written?: string;
}

/** One thing that a knob from stock may be turned to. Plain data. */
export interface StockOption {
  readonly label: string;
  readonly puts: readonly TakenPut[];
  /** What it takes from stock, all places together. */
  readonly takes: readonly { readonly item: string; readonly count: number }[];
  readonly figures: Readonly<Record<string, number>>;
  readonly notes: readonly string[];
}

/** A place, or several alike, that is filled from stock. Plain data. */
export interface StockKnob {
  readonly list: StockList;
  readonly places: readonly Path[];
  readonly options: readonly StockOption[];
  /** A figure of each option, by which they are near each other. */
  readonly along: readonly number[];
  /** Today's: index of the option that the scenario has already; null when it has none of them. */
  readonly now: number | null;
}

/** The kind of a list, with its types laid aside: items come from its own list only. */
export const stockKind = (list: StockList): StockKind =>
  stockKinds.find((kind) => kind.list === list) as unknown as StockKind;

/**
 * The knob that fills places from a list of the stock: every way to do so for which there are enough parts.
 * Problems: a place that takes no such part, an empty list, too few of each.
 * @param places entries of the scenario, such as ['vehicle', 'elements', 2]; all are filled alike
 */
export function stockKnob(
  stock: Stock,
  list: StockList,
  places: readonly Path[],
  scenario: Scenario,
): Checked<StockKnob> {
  const problems = new Problems();
  const kind = stockKind(list);
  const items = itemsIn(stock, list);
  const filled = places.map((path): Place => ({ scenario, path }));
  for (const place of filled) {
    const refusal = kind.refuses(place);
    if (refusal !== undefined) problems.error(pathText(place.path), refusal);
  }
  if (items.length === 0)
    problems.error('', `the stock has no ${list}`, 'add some to the list, or let the number vary freely');
  if (problems.failed) return { ok: false, problems: problems.list };
  const all = optionsFor(stock, list, filled);
  const enough = all.filter((option) => shortOf(option.takes, items).length === 0);
  if (enough.length === 0) tellTooFew(kind, filled, all, items, problems);
  const first = kind.figures[0]?.key ?? '';
  return problems.check({
    list,
    places,
    options: enough,
    along: enough.map(({ figures }) => figures[first] ?? 0),
    now: todaysOf(enough, scenario),
  });
}

function optionsFor(stock: Stock, list: StockList, places: readonly Place[]): StockOption[] {
  const kind = stockKind(list);
  const items = itemsIn(stock, list) as never;
  const [first, ...others] = places.map((place) => ({ place, choices: kind.choices(items, place) }));
  if (first === undefined) return [];
  return first.choices.flatMap((choice) => {
    // The same choice at every place: one that does not fit one of them is none.
    const alike = others.map(({ place, choices }) => ({
      place,
      choice: choices.find(({ label }) => label === choice.label),
    }));
    const whole = [{ place: first.place, choice }, ...alike];
    if (whole.some((one) => one.choice === undefined)) return [];
    return [joined(stock, list, whole as { place: Place; choice: Choice }[])];
  });
}

function joined(
  stock: Stock,
  list: StockList,
  whole: readonly { readonly place: Place; readonly choice: Choice }[],
): StockOption {
  const takes = new Map<string, number>();
  for (const { place, choice } of whole)
    for (const item of choice.items) takes.set(item, (takes.get(item) ?? 0) + countAt(place));
  const { label, figures } = (whole[0] as { readonly choice: Choice }).choice;
  return {
    label,
    figures,
    takes: [...takes].map(([item, count]) => ({ item, count })),
    puts: whole.flatMap(({ choice }) => choice.puts.map((put) => takenPut(stock, list, choice, put))),
    notes: [...new Set(whole.flatMap(({ choice }) => choice.notes))],
  };
}

function takenPut(
  stock: Stock,
  list: StockList,
  { items }: Choice,
  { path, value, field }: StockPut,
): TakenPut {
  const [only, ...more] = items;
  const written =
    field === undefined || only === undefined || more.length > 0
      ? undefined
      : writtenText(stock, list, only, field);
  return { path, value, ...(written === undefined || typeof value !== 'number' ? {} : { written }) };
}

/** Parts of which more are taken than there are. */
export interface Shortage {
  readonly item: string;
  readonly wanted: number;
  readonly there: number;
}

function shortOf(
  takes: readonly { readonly item: string; readonly count: number }[],
  items: readonly StockItem[],
): Shortage[] {
  const wanted = new Map<string, number>();
  for (const { item, count } of takes) wanted.set(item, (wanted.get(item) ?? 0) + count);
  return [...wanted].flatMap(([item, count]) => {
    const there = items.find(({ name }) => name === item)?.count ?? 0;
    return count > there ? [{ item, wanted: count, there }] : [];
  });
}

/**
 * Parts of which a design takes more than there are, over all its knobs from stock together. Empty: it can be built.
 * @param picks index of the option of each knob
 */
export function shortages(
  stock: Stock,
  knobs: readonly Pick<StockKnob, 'list' | 'options'>[],
  picks: readonly number[],
): readonly Shortage[] {
  const lists = [...new Set(knobs.map(({ list }) => list))];
  return lists.flatMap((list) => {
    const takes = knobs.flatMap((knob, k) =>
      knob.list === list ? (knob.options[picks[k] as number]?.takes ?? []) : [],
    );
    return shortOf(takes, itemsIn(stock, list));
  });
}

/** 'takes 4 of "blue", of which there are 2'. */
export const shortageWords = ({ item, wanted, there }: Shortage): string =>
  `takes ${wanted} of '${item}', of which there ${there === 1 ? 'is 1' : `are ${there}`}`;

function tellTooFew(
  { one, list }: StockKind,
  places: readonly Place[],
  all: readonly StockOption[],
  items: readonly StockItem[],
  problems: Problems,
): void {
  const where = places.map(entryWords).join(' and ');
  const nearly = all.map((option) => shortOf(option.takes, items)).sort((a, b) => missing(a) - missing(b))[0];
  problems.error(
    '',
    all.length === 0
      ? `none of the ${list} in stock fits ${where}`
      : `there are not enough of any ${one} for ${where}: it ${nearly?.map(shortageWords).join(' and ') ?? ''}`,
    all.length === 0 ? 'add one that does, or let the number vary freely' : 'correct the counts, or get more',
  );
}

const missing = (shorts: readonly Shortage[]): number =>
  shorts.reduce((sum, { wanted, there }) => sum + wanted - there, 0);

/** The option whose values all stand in the scenario already. */
function todaysOf(options: readonly StockOption[], scenario: Scenario): number | null {
  const index = options.findIndex(({ puts }) =>
    puts.every(({ path, value }) => {
      const now = path.reduce<unknown>(childOf, scenario);
      return JSON.stringify(now) === JSON.stringify(value);
    }),
  );
  return index < 0 ? null : index;
}
