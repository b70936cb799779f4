import { pathText } from '../../shared/path.ts';
import { type Checked, Problems } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';

/** What is wrong with the form of a JSON text, and the character where it shows. */
interface Fault {
  readonly at: number;
  readonly message: string;
  readonly hint?: string;
}

/** A list or an object that is still open. */
interface Open {
  readonly bracket: '{' | '[';
  readonly at: number;
  readonly keys: Set<string>;
  /** Key or index of the value that is being read. */
  step: string | number;
}

/** What may come next. */
type Next = 'value' | 'value or ]' | 'key' | 'key or }' | 'colon' | 'comma or end' | 'nothing';

/** Keys standing twice that are told one by one. */
const mostTwice = 1000;

interface Scan {
  readonly text: string;
  at: number;
  next: Next;
  readonly open: Open[];
  readonly twice: { readonly path: string; readonly key: string }[];
}

/** Line and column, both from 1, of a character of a text. */
function placeOf(text: string, at: number): string {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  return `line ${line}, column ${at - before.lastIndexOf('\n')}`;
}

const isSpace = (code: number) => code === 32 || code === 10 || code === 13 || code === 9;

function skipSpace(scan: Scan): void {
  while (scan.at < scan.text.length && isSpace(scan.text.charCodeAt(scan.at))) scan.at += 1;
}

/** The word or sign at the cursor, for a message. */
function wordAt(scan: Scan): string {
  const word = /^[^\s,:[\]{}"]{1,20}/.exec(scan.text.slice(scan.at, scan.at + 40))?.[0];
  return word ?? scan.text.slice(scan.at, scan.at + 1);
}

/** Reads a string from its opening quote on; loops by hand, since a string may be megabytes long. */
function skipString(scan: Scan): Fault | undefined {
  const from = scan.at;
  for (let i = from + 1; i < scan.text.length; i++) {
    const code = scan.text.charCodeAt(i);
    if (code === 34) {
      scan.at = i + 1;
      return undefined;
    }
    if (code < 32) {
      const message =
        code === 10 || code === 13
          ? 'a text goes on past the end of its line'
          : 'a text has a control character in it';
      return { at: i, message, hint: 'close the text with a double quote; write a line break as \\n' };
    }
    if (code === 92) {
      const rest = scan.text.slice(i + 1, i + 6);
      const escaped = /^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(rest)?.[0];
      if (escaped === undefined && !/^(?:u[0-9a-fA-F]{0,3})?$/.test(rest)) {
        return {
          at: i,
          message: 'a text has a backslash that means nothing',
          hint: 'write a backslash as \\\\',
        };
      }
      i += escaped?.length ?? 1;
    }
  }
  return {
    at: scan.text.length,
    message: `the file ends inside a text that begins at ${placeOf(scan.text, from)}`,
    hint: 'the file looks cut off',
  };
}

const slips: Readonly<Record<string, string>> = {
  "'": 'JSON has double quotes only',
  '/': 'JSON has no comments; use the field "notes"',
  '#': 'JSON has no comments; use the field "notes"',
  '+': 'a number in JSON has no plus sign',
  '.': 'a number in JSON has a digit before its point',
};

/** What to do about a sign that cannot stand here. */
function hintFor(scan: Scan): string | undefined {
  const word = wordAt(scan);
  if (/^-?(nan|inf)/i.test(word)) return 'JSON has only finite numbers';
  if (/^(true|false|null)$/i.test(word)) return `write ${word.toLowerCase()}`;
  const sign = slips[word.slice(0, 1)];
  if (sign !== undefined) return sign;
  if (/^\d/.test(word))
    return 'a number in JSON is written like 0.5 or 1e-3; one with a unit is a text: "45 mm"';
  return /^[\p{L}_$]/u.test(word) ? `texts stand in double quotes: "${word}"` : undefined;
}

function unexpected(scan: Scan, wanted: string): Fault {
  if (scan.at >= scan.text.length) return cutOff(scan);
  const hint = hintFor(scan);
  return {
    at: scan.at,
    message: `'${wordAt(scan)}' stands where ${wanted} was wanted`,
    ...(hint === undefined ? {} : { hint }),
  };
}

function cutOff(scan: Scan): Fault {
  const last = scan.open.at(-1);
  const unclosed =
    last === undefined ? '' : `: the ${last.bracket} of ${placeOf(scan.text, last.at)} is never closed`;
  return {
    at: scan.text.length,
    message: `the file ends too early${unclosed}`,
    hint: 'the file looks cut off',
  };
}

function opened(scan: Scan, bracket: '{' | '['): Fault | undefined {
  if (scan.open.length >= limits.depth) {
    return {
      at: scan.at,
      message: `is nested deeper than ${limits.depth} levels`,
      hint: 'no scenario needs that; the file looks damaged',
    };
  }
  scan.open.push({ bracket, at: scan.at, keys: new Set(), step: bracket === '[' ? 0 : '' });
  scan.at += 1;
  scan.next = bracket === '[' ? 'value or ]' : 'key or }';
  return undefined;
}

function closed(scan: Scan): undefined {
  scan.open.pop();
  scan.at += 1;
  scan.next = scan.open.length === 0 ? 'nothing' : 'comma or end';
}

const plain = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\p{L}\p{N}_.+-])/uy;

function readValue(scan: Scan): Fault | undefined {
  const sign = scan.text[scan.at];
  if (sign === '{' || sign === '[') return opened(scan, sign);
  if (sign === ']' && scan.next === 'value or ]') return closed(scan);
  if (sign === '"') {
    const fault = skipString(scan);
    if (fault !== undefined) return fault;
  } else {
    plain.lastIndex = scan.at;
    const found = plain.exec(scan.text)?.[0];
    if (found === undefined)
      return sign === ']' && scan.open.at(-1)?.bracket === '['
        ? trailingComma(scan)
        : unexpected(scan, 'a value');
    scan.at += found.length;
  }
  scan.next = scan.open.length === 0 ? 'nothing' : 'comma or end';
  return undefined;
}

const trailingComma = (scan: Scan): Fault => ({
  at: scan.at,
  message: `'${wordAt(scan)}' stands behind a comma`,
  hint: 'leave out the comma behind the last entry',
});

function readKey(scan: Scan): Fault | undefined {
  if (scan.text[scan.at] === '}') return scan.next === 'key or }' ? closed(scan) : trailingComma(scan);
  if (scan.text[scan.at] !== '"') return unexpected(scan, 'the name of a field');
  const from = scan.at;
  const fault = skipString(scan);
  if (fault !== undefined) return fault;
  const key = JSON.parse(scan.text.slice(from, scan.at)) as string;
  const object = scan.open.at(-1);
  if (object !== undefined) {
    object.step = key;
    if (object.keys.has(key) && scan.twice.length < mostTwice)
      scan.twice.push({ path: pathText(scan.open.map((o) => o.step)), key });
    object.keys.add(key);
  }
  scan.next = 'colon';
  return undefined;
}

function readComma(scan: Scan): Fault | undefined {
  const last = scan.open.at(-1);
  const end = last?.bracket === '[' ? ']' : '}';
  const sign = scan.text[scan.at];
  if (sign === end) return closed(scan);
  if (sign !== ',' || last === undefined) {
    const fault = unexpected(scan, `a comma or ${end}`);
    if (/["\d-]/.test(sign ?? '')) return { ...fault, hint: 'a comma is missing before it' };
    const afterNumber = /\d\s*$/.test(scan.text.slice(Math.max(0, scan.at - 5), scan.at));
    return afterNumber && /[\p{L}%°]/u.test(sign ?? '')
      ? { ...fault, hint: 'a figure with a unit stands in double quotes: "45 mm"' }
      : fault;
  }
  scan.at += 1;
  if (typeof last.step === 'number') last.step += 1;
  scan.next = last.bracket === '[' ? 'value' : 'key';
  return undefined;
}

function advance(scan: Scan): Fault | undefined {
  if (scan.next === 'nothing') return unexpected(scan, 'the end of the file');
  if (scan.next === 'comma or end') return readComma(scan);
  if (scan.next === 'key' || scan.next === 'key or }') return readKey(scan);
  if (scan.next !== 'colon') return readValue(scan);
  if (scan.text[scan.at] !== ':')
    return {
      ...unexpected(scan, 'a colon'),
      hint: 'a colon stands between the name of a field and its value',
    };
  scan.at += 1;
  scan.next = 'value';
  return undefined;
}

/** Bytes of a text in UTF-8, counted no further than `most`. */
function bytesOf(text: string, most: number): number {
  if (text.length * 3 <= most) return text.length;
  let bytes = 0;
  for (let i = 0; i < text.length && bytes <= most; i++) {
    const code = text.charCodeAt(i);
    // Each half of a surrogate pair counts two of the four bytes.
    bytes += code < 0x80 ? 1 : code < 0x800 || (code >= 0xd800 && code < 0xe000) ? 2 : 3;
  }
  return bytes;
}

/**
 * Reads a JSON text. Too large, empty, cut off, nested too deep or ill-formed texts give one problem with line and
 * column; keys that stand twice in one object give one each. The text is scanned by a loop, not by recursion, before
 * anything is built from it, so that five megabytes of brackets are as harmless as any other slip.
 */
export function readJson(written: string): Checked<unknown> {
  const problems = new Problems();
  const text = written.replace(/^\uFEFF/, '');
  if (bytesOf(text, limits.bytes) > limits.bytes) {
    problems.error(
      '',
      `is larger than ${limits.bytes / 1e6} MB`,
      'put long tables of ground points into a CSV file, or thin them out',
    );
    return { ok: false, problems: problems.list };
  }
  const scan: Scan = { text, at: 0, next: 'value', open: [], twice: [] };
  skipSpace(scan);
  if (scan.at === text.length) {
    problems.error(
      '',
      'is empty',
      'a scenario begins with { "format": "axlewright-scenario", "version": 1, …',
    );
    return { ok: false, problems: problems.list };
  }
  for (; scan.next !== 'nothing' || scan.at < text.length; skipSpace(scan)) {
    const fault = scan.at < text.length ? advance(scan) : cutOff(scan);
    if (fault === undefined) continue;
    problems.error(placeOf(text, fault.at), fault.message, fault.hint);
    return { ok: false, problems: problems.list };
  }
  for (const { path, key } of scan.twice)
    problems.error(path, `"${key.slice(0, 60)}" stands twice in one object`, 'keep one of them');
  return problems.failed
    ? { ok: false, problems: problems.list }
    : { ok: true, value: JSON.parse(text), problems: [] };
}
