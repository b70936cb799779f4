import { childOf } from '../../shared/schema/describe.ts';
import type { StockItem } from './kind.ts';
import { type StockList, type StockLists, stockLists } from './registry.ts';

/** A stock list that was read. Plain data. */
export interface Stock {
  readonly title?: string;
  readonly lists: StockLists;
  /** The document as it was written: figures with their units and spreads. */
  readonly written: unknown;
}

/** The items of a list, whatever their kind. */
export const itemsIn = (stock: Stock, list: StockList): readonly StockItem[] => stock.lists[list];

/** How many items there are of each, in all lists. */
export const sizeOfStock = (stock: Stock): number =>
  stockLists.reduce((sum, list) => sum + itemsIn(stock, list).length, 0);

/**
 * The text of a figure of an item as it was written, where it is text: "1.2 N/mm ± 5 %". Undefined for plain numbers and
 * for figures that are not there.
 */
export function writtenText(
  stock: Stock,
  list: StockList,
  item: string,
  field: readonly string[],
): string | undefined {
  const index = itemsIn(stock, list).findIndex(({ name }) => name === item);
  const value = [list, index, ...field].reduce<unknown>(childOf, stock.written);
  return typeof value === 'string' ? value : undefined;
}
