import { type Checked, Problems } from '../../shared/problem.ts';
import { jsonKind } from '../../shared/schema/quantity.ts';
import { readJson } from '../scenario/json.ts';
import { tellIssues } from '../scenario/wording.ts';
import { type StockLists, stockDocument, stockFormat, stockLists, stockVersion } from './registry.ts';
import { itemsIn, type Stock, sizeOfStock } from './stock.ts';

/**
 * Reads a stock list from JSON text, or from a value that was parsed already. All problems come at once, each with its
 * path, what is wrong and a hint: unknown fields, wrong dimensions, counts below zero, names that stand twice, a stock
 * with nothing in it. For tables see `readStockTable`.
 */
export function readStock(input: unknown): Checked<Stock> {
  const json = typeof input === 'string' ? readJson(input) : undefined;
  if (json?.ok === false) return json;
  const document = json === undefined ? input : json.value;
  const problems = new Problems();
  tellForeign(document, problems);
  if (problems.failed) return { ok: false, problems: problems.list };
  const read = stockDocument.safeParse(document);
  if (!read.success) tellIssues(stockDocument, document, read.error.issues, problems);
  tellTwice(document, problems);
  if (!read.success) return { ok: false, problems: problems.list };
  const { title, ...rest } = read.data;
  const lists = Object.fromEntries(
    stockLists.map((list) => [list, (rest as Record<string, unknown>)[list]]),
  ) as unknown as StockLists;
  const stock: Stock = { lists, written: document, ...(title === undefined ? {} : { title }) };
  if (sizeOfStock(stock) === 0)
    problems.error('', 'is empty: no part stands in any of its lists', `its lists: ${stockLists.join(', ')}`);
  else if (stockLists.every((list) => itemsIn(stock, list).every(({ count }) => count === 0)))
    problems.warn('', 'has a count of 0 for every part, so nothing can be taken from it');
  return problems.check(stock);
}

/** Why it makes no sense to read on: no object, another format, a newer version. */
function tellForeign(document: unknown, problems: Problems): void {
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    problems.error(
      '',
      `is ${jsonKind(document)}, an object was wanted`,
      `a stock list begins with { "format": "${stockFormat}", "version": ${stockVersion}, …`,
    );
    return;
  }
  const { format, version } = document as { readonly format?: unknown; readonly version?: unknown };
  if (format !== undefined && format !== stockFormat)
    problems.error(
      'format',
      `is ${typeof format === 'string' ? `"${format.slice(0, 60)}"` : jsonKind(format)}, not "${stockFormat}"`,
      'this is no stock list of this program',
    );
  else if (typeof version === 'number' && version > stockVersion)
    problems.error(
      'version',
      `is ${version}, newer than this program, which reads up to version ${stockVersion}`,
      'update the program',
    );
}

/** Names that stand twice in one list: nobody could say which of the two a study used. */
function tellTwice(document: unknown, problems: Problems): void {
  for (const list of stockLists) {
    const items = (document as Record<string, unknown>)[list];
    if (!Array.isArray(items)) continue;
    const first = new Map<unknown, number>();
    items.forEach((item: unknown, i) => {
      const name = typeof item === 'object' && item !== null && 'name' in item ? item.name : undefined;
      if (typeof name !== 'string') return;
      const before = first.get(name);
      if (before === undefined) first.set(name, i);
      else
        problems.error(
          `${list}[${i}].name`,
          `is '${name}', which ${list}[${before}] is called already`,
          'give the two different names, or one entry with the sum of their counts',
        );
    });
  }
}
