import { isList, isObject, type Json } from './json.ts';

/** One replacement in a text: characters from `from` up to `to` give way to `by`. */
interface Replacement {
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

/** From the first letter up to, not including, the one behind the last. */
interface Place {
  readonly from: number;
  readonly to: number;
}

/** Where a value stands in the text, with the places of what it holds. `begins`: with its key, if it has one. */
interface Span extends Place {
  readonly begins: number;
  readonly children: ReadonlyMap<string | number, Span>;
}

/** Spacing and punctuation between two values. */
function skipSpace(text: string, at: number): number {
  let i = at;
  while (i < text.length && ' \t\r\n'.includes(text[i] as string)) i += 1;
  return i;
}

/** End of the text literal that begins at `at` with a quotation mark. */
function endOfString(text: string, at: number): number {
  let i = at + 1;
  while (i < text.length && text[i] !== '"') i += text[i] === '\\' ? 2 : 1;
  return i + 1;
}

function readScalar(text: string, at: number): Span {
  if (text[at] === '"') return { begins: at, from: at, to: endOfString(text, at), children: new Map() };
  let i = at;
  while (i < text.length && !',]} \t\r\n'.includes(text[i] as string)) i += 1;
  return { begins: at, from: at, to: i, children: new Map() };
}

/** Places of all values in a text that is known to be JSON. */
function readSpan(text: string, start: number): Span {
  const from = skipSpace(text, start);
  const open = text[from];
  if (open !== '{' && open !== '[') return readScalar(text, from);
  const children = new Map<string | number, Span>();
  let i = skipSpace(text, from + 1);
  while (i < text.length && text[i] !== '}' && text[i] !== ']') {
    const begins = i;
    let key: string | number = children.size;
    if (open === '{') {
      const end = endOfString(text, i);
      key = JSON.parse(text.slice(i, end)) as string;
      i = skipSpace(text, end) + 1;
    }
    const child = readSpan(text, i);
    children.set(key, { ...child, begins });
    i = skipSpace(text, child.to);
    if (text[i] === ',') i = skipSpace(text, i + 1);
  }
  return { begins: from, from, to: i + 1, children };
}

/** A value as text in the manner of the shipped files: on one line, with spaces inside of brackets. */
function written(value: Json): string {
  if (isList(value)) return value.length === 0 ? '[]' : `[ ${value.map(written).join(', ')} ]`;
  if (!isObject(value)) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, each]) => `${JSON.stringify(key)}: ${written(each)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** Where the entries of an object or a list stand, keys included, in their order. */
const entriesOf = (span: Span): readonly Place[] =>
  [...span.children.values()].map(({ begins, to }) => ({ from: begins, to }));

/** What stands between two entries: as the author has it, for the first one judged by the line break before it. */
function between(text: string, span: Span, entries: readonly Place[]): string {
  const [first, second] = entries;
  if (first === undefined) return ', ';
  if (second !== undefined) return text.slice(first.to, second.from);
  const lineBreak = /\n[ \t]*$/.exec(text.slice(span.from, first.from))?.[0];
  return lineBreak === undefined ? ', ' : `,${lineBreak}`;
}

/** Puts new entries behind the first `after` ones, in the manner in which the others stand. */
function insertion(text: string, span: Span, after: number, added: readonly string[]): Replacement {
  const entries = entriesOf(span);
  const comma = between(text, span, entries);
  const last = entries[after - 1];
  const [first] = entries;
  if (last !== undefined)
    return { from: last.to, to: last.to, by: added.map((entry) => comma + entry).join('') };
  if (first !== undefined)
    return { from: first.from, to: first.from, by: added.map((entry) => entry + comma).join('') };
  const [open, close] = text[span.from] === '[' ? '[]' : '{}';
  return { from: span.from, to: span.to, by: `${open} ${added.join(', ')} ${close}` };
}

/** Takes entries out, from the one numbered `first` up to, not including, the one numbered `end`. */
function removal(text: string, span: Span, first: number, end: number): Replacement {
  const entries = entriesOf(span);
  const next = entries[end];
  const before = entries[first - 1];
  const gone = entries.slice(first, end);
  if (next !== undefined) return { from: gone[0]?.from ?? next.from, to: next.from, by: '' };
  if (before !== undefined) return { from: before.to, to: gone.at(-1)?.to ?? before.to, by: '' };
  const [open, close] = text[span.from] === '[' ? '[]' : '{}';
  return { from: span.from, to: span.to, by: `${open}${close}` };
}

/** Whether two values are the same; quick where they share what did not change. */
function same(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (isList(a)) return isList(b) && a.length === b.length && a.every((each, i) => same(each, b[i]));
  if (!isObject(a) || !isObject(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => same(a[key], b[key]));
}

/** A list whose entries may have come and gone: what stands the same at its beginning and its end stays untouched. */
function listReplacements(
  text: string,
  span: Span,
  before: readonly Json[],
  after: readonly Json[],
): Replacement[] {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && same(before[head], after[head])) head += 1;
  let tail = 0;
  while (tail < shorter - head && same(before.at(-1 - tail), after.at(-1 - tail))) tail += 1;
  const paired = shorter - head - tail;
  const inside = Array.from({ length: paired }, (_, i) => head + i).flatMap((i) =>
    within(text, span, i, before[i], after[i] as Json),
  );
  const from = head + paired;
  if (before.length > after.length) return [...inside, removal(text, span, from, before.length - tail)];
  if (after.length === before.length) return inside;
  return [...inside, insertion(text, span, from, after.slice(from, after.length - tail).map(written))];
}

/** An object whose keys may have come and gone. */
function objectReplacements(
  text: string,
  span: Span,
  before: { readonly [key: string]: Json },
  after: { readonly [key: string]: Json },
): Replacement[] {
  const keys = [...span.children.keys()];
  const kept = keys.filter((key) => Object.hasOwn(after, key));
  const added = Object.keys(after).filter((key) => !Object.hasOwn(before, key));
  const entry = (key: string): string => `${JSON.stringify(key)}: ${written(after[key] as Json)}`;
  // nothing stays: written anew, as there is no entry left to stand behind
  if (kept.length === 0)
    return [
      { from: span.from, to: span.to, by: added.length === 0 ? '{}' : `{ ${added.map(entry).join(', ')} }` },
    ];
  const inside = kept.flatMap((key) => within(text, span, key, before[key], after[key as string] as Json));
  const gone = runsOf(keys.map((key) => !Object.hasOwn(after, key))).map(([first, end]) =>
    removal(text, span, first, end),
  );
  if (added.length === 0) return [...inside, ...gone];
  const last = keys.lastIndexOf(kept.at(-1) as string) + 1;
  return [...inside, ...gone, insertion(text, span, last, added.map(entry))];
}

/** Runs of true in a row of flags: first and end of each. */
function runsOf(flags: readonly boolean[]): (readonly [first: number, end: number])[] {
  const runs: (readonly [number, number])[] = [];
  let first = -1;
  for (let i = 0; i <= flags.length; i++) {
    if (flags[i] === true && first < 0) first = i;
    if (flags[i] !== true && first >= 0) {
      runs.push([first, i]);
      first = -1;
    }
  }
  return runs;
}

/** Replacements that turn `before`, which stands at `span`, into `after`. */
function replacements(text: string, span: Span, before: Json, after: Json): readonly Replacement[] {
  if (before === after) return [];
  // a key written twice, or a name that JSON gives a meaning of its own: no telling what belongs to what
  const sound = isObject(before) && span.children.size === Object.keys(before).length;
  if (isList(before) && isList(after)) return listReplacements(text, span, before, after);
  if (sound && isObject(after)) return objectReplacements(text, span, before, after);
  return same(before, after) ? [] : [{ from: span.from, to: span.to, by: written(after) }];
}

function within(
  text: string,
  span: Span,
  key: string | number,
  before: Json | undefined,
  after: Json,
): readonly Replacement[] {
  const child = span.children.get(key);
  return child === undefined || before === undefined ? [] : replacements(text, child, before, after);
}

/**
 * Writes a changed document back into the text it came from: only the figures that changed are touched, every space,
 * line break and key order of the author stays. Without a change the text comes back as it was, byte for byte.
 * @param text the text that `before` was parsed from
 * @param before the parsed document
 * @param after the changed document, sharing with `before` whatever did not change
 */
export function patchText(text: string, before: Json, after: Json): string {
  const changes = [...replacements(text, readSpan(text, text.startsWith('\uFEFF') ? 1 : 0), before, after)];
  return changes
    .sort((a, b) => b.from - a.from)
    .reduce((written, { from, to, by }) => written.slice(0, from) + by + written.slice(to), text);
}
