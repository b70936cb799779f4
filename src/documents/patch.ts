import { isList, isObject, type Json } from './json.ts';

/** One replacement in a text: characters from `from` up to `to` give way to `by`. */
interface Replacement {
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

/** Where a value stands in the text, with the places of what it holds. */
interface Span {
  readonly from: number;
  readonly to: number;
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
  if (text[at] === '"') return { from: at, to: endOfString(text, at), children: new Map() };
  let i = at;
  while (i < text.length && !',]} \t\r\n'.includes(text[i] as string)) i += 1;
  return { from: at, to: i, children: new Map() };
}

/** Places of all values in a text that is known to be JSON. */
function readSpan(text: string, start: number): Span {
  const from = skipSpace(text, start);
  const open = text[from];
  if (open !== '{' && open !== '[') return readScalar(text, from);
  const children = new Map<string | number, Span>();
  let i = skipSpace(text, from + 1);
  while (i < text.length && text[i] !== '}' && text[i] !== ']') {
    let key: string | number = children.size;
    if (open === '{') {
      const end = endOfString(text, i);
      key = JSON.parse(text.slice(i, end)) as string;
      i = skipSpace(text, end) + 1;
    }
    const child = readSpan(text, i);
    children.set(key, child);
    i = skipSpace(text, child.to);
    if (text[i] === ',') i = skipSpace(text, i + 1);
  }
  return { from, to: i + 1, children };
}

/** Adds keys behind the last one of an object, in the manner in which that one stands. */
function addition(text: string, span: Span, added: readonly (readonly [string, Json])[]): Replacement {
  const written = added.map(([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)}`);
  const last = [...span.children.values()].at(-1);
  if (last === undefined) return { from: span.from, to: span.to, by: `{ ${written.join(', ')} }` };
  const lineBreak = /\n[ \t]*$/.exec(text.slice(span.from, firstKeyOf(text, span)))?.[0];
  const between = lineBreak === undefined ? ', ' : `,${lineBreak}`;
  return { from: last.to, to: last.to, by: written.map((entry) => between + entry).join('') };
}

function firstKeyOf(text: string, span: Span): number {
  return skipSpace(text, span.from + 1);
}

/** Replacements that turn `before`, which stands at `span`, into `after`. */
function replacements(text: string, span: Span, before: Json, after: Json): readonly Replacement[] {
  if (before === after) return [];
  if (isList(before) && isList(after) && before.length === after.length) {
    return after.flatMap((value, index) => within(text, span, index, before[index], value));
  }
  if (isObject(before) && isObject(after) && Object.keys(before).every((key) => Object.hasOwn(after, key))) {
    const entries = Object.entries(after);
    const added = entries.filter(([key]) => !Object.hasOwn(before, key));
    const inside = entries.flatMap(([key, value]) => within(text, span, key, before[key], value));
    return added.length === 0 ? inside : [...inside, addition(text, span, added)];
  }
  return [{ from: span.from, to: span.to, by: JSON.stringify(after) }];
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
