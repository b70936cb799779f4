import type { Path } from '../../shared/path.ts';
import { formatQuantity, formatShare } from '../../shared/units.ts';
import type { Scenario } from '../scenario/schema.ts';
import type { Choice, Place, StockFigure } from './kind.ts';
import { stockKind } from './knob.ts';
import { countAt, entryWords } from './place.ts';
import type { StockList } from './registry.ts';
import { itemsIn, type Stock } from './stock.ts';

/** A figure of a place that a search may choose freely, when nothing in stock does it. Plain data. */
export interface FreeFigure {
  readonly key: string;
  readonly says: string;
  /** Ends, SI: half the least in stock to twice the greatest. */
  readonly from: number;
  readonly to: number;
  /** Where it stands, once for each place, and what must be taken out beside it. */
  readonly paths: readonly Path[];
  readonly without: readonly Path[];
}

/**
 * Figures that stand for 'any part that could be bought or made' at the places of a knob from stock, with ranges about
 * what is in stock. Figures that no item has are left out.
 */
export function freeFigures(
  stock: Stock,
  list: StockList,
  places: readonly Path[],
  scenario: Scenario,
): readonly FreeFigure[] {
  const kind = stockKind(list);
  const choices = choicesAt(stock, list, places, scenario);
  return kind.figures.flatMap(({ key, says, at, instead }) => {
    const values = choices.flatMap(({ figures }) => figures[key] ?? []).filter((value) => value > 0);
    if (values.length === 0) return [];
    const without = places.flatMap((path) => instead.map((keys) => [...path, ...keys]));
    const paths = places.map((path) => [...path, ...at]);
    return [{ key, says, from: Math.min(...values) / 2, to: Math.max(...values) * 2, paths, without }];
  });
}

/** How far a way to fill a place is from what is wanted. */
export interface Near {
  readonly label: string;
  /** What it has and what is wanted, SI, figure by figure, with the difference as a share of what is wanted. */
  readonly figures: readonly {
    readonly says: string;
    readonly has: number;
    readonly wanted: number;
    readonly off: number;
  }[];
  /** Whether there are enough of it. */
  readonly enough: boolean;
}

/** What is nearest to figures that are wanted, and how to come by them. */
export interface Nearest {
  /** Nearest first, at most three; empty for an empty list. */
  readonly near: readonly Near[];
  /** What could be made or bought. */
  readonly make: readonly string[];
  /** All of it in words. */
  readonly says: string;
}

const firstOf = (places: readonly Path[], scenario: Scenario): Place | undefined => {
  const [path] = places;
  return path === undefined ? undefined : { scenario, path };
};

function choicesAt(
  stock: Stock,
  list: StockList,
  places: readonly Path[],
  scenario: Scenario,
): readonly Choice[] {
  const place = firstOf(places, scenario);
  return place === undefined ? [] : stockKind(list).choices(itemsIn(stock, list) as never, place);
}

/**
 * What in stock comes nearest to the figures that a free search found best for these places, and what to buy or make.
 * Figures are compared by their ratio: twice as much is as far off as half.
 * @param wanted SI figures by the keys of `freeFigures`
 */
export function nearestInStock(
  stock: Stock,
  list: StockList,
  { places, scenario }: { readonly places: readonly Path[]; readonly scenario: Scenario },
  wanted: Readonly<Record<string, number>>,
): Nearest {
  const kind = stockKind(list);
  const place = firstOf(places, scenario);
  const compared = kind.figures.filter(({ key }) => wanted[key] !== undefined);
  const need = places.reduce((sum, path) => sum + countAt({ scenario, path }), 0);
  const near = choicesAt(stock, list, places, scenario)
    .filter(({ figures }) => compared.every(({ key }) => figures[key] !== undefined))
    .map((choice) => ({
      near: nearOf(choice, compared, wanted, stock, list, need),
      off: offOf(choice, compared, wanted),
    }))
    .sort((a, b) => a.off - b.off)
    .slice(0, 3);
  const make = place === undefined ? [] : (kind.make?.(wanted, itemsIn(stock, list) as never, place) ?? []);
  const found = near.map((one) => one.near);
  return { near: found, make, says: wordsOf(kind.one, place, compared, wanted, need, found, make) };
}

function offOf(
  { figures }: Choice,
  compared: readonly StockFigure[],
  wanted: Readonly<Record<string, number>>,
): number {
  return Math.hypot(
    ...compared.map(({ key }) => Math.log((figures[key] as number) / (wanted[key] as number))),
  );
}

function nearOf(
  { label, items, figures }: Choice,
  compared: readonly StockFigure[],
  wanted: Readonly<Record<string, number>>,
  stock: Stock,
  list: StockList,
  need: number,
): Near {
  const uses = new Map<string, number>();
  for (const item of items) uses.set(item, (uses.get(item) ?? 0) + need);
  const enough = [...uses].every(
    ([item, count]) => (itemsIn(stock, list).find(({ name }) => name === item)?.count ?? 0) >= count,
  );
  return {
    label,
    enough,
    figures: compared.map(({ key, says }) => {
      const [has, want] = [figures[key] as number, wanted[key] as number];
      return { says, has, wanted: want, off: has / want - 1 };
    }),
  };
}

/** 'Nothing in stock does it: wanted is … The nearest is … To make: …' */
function wordsOf(
  one: string,
  place: Place | undefined,
  compared: readonly StockFigure[],
  wanted: Readonly<Record<string, number>>,
  need: number,
  near: readonly Near[],
  make: readonly string[],
): string {
  const shown = (figure: StockFigure, value: number) => formatQuantity(value, figure.dimension);
  const want = compared
    .map((figure) => `${figure.says} ${shown(figure, wanted[figure.key] as number)}`)
    .join(', ');
  const where = place === undefined ? '' : ` for ${entryWords(place)}`;
  const [best] = near;
  const has = (n: Near) =>
    n.figures
      .map(({ has: value, off }, i) => {
        const figure = compared[i] as StockFigure;
        const by = off === 0 ? 'as wanted' : `${formatShare(Math.abs(off), 2)} ${off > 0 ? 'more' : 'less'}`;
        return `${figure.says} ${shown(figure, value)}, ${by}`;
      })
      .join('; ');
  const lacks = best !== undefined && !best.enough ? ', but there are not enough of it' : '';
  const nearest =
    best === undefined ? 'none is near' : `the nearest is '${best.label}' (${has(best)})${lacks}`;
  const buy = `Buy or make a ${one} with ${want}${need === 1 ? '' : `, ${need} of them`}`;
  return [`Nothing in stock does it${where}; ${nearest}.`, `${[buy, ...make].join('; or ')}.`].join(' ');
}
