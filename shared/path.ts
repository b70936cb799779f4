/** A place in a document: keys of objects and indices of lists from the root down. */
export type Path = readonly (string | number)[];

/** One step of a written path: a key, an index, or the name of a list's entry ('[front]'). */
export type Step = { readonly key: string } | { readonly index: number } | { readonly name: string };

/** A path as people read it: 'vehicle.wheels[2].radius'; empty for the document itself. */
export function pathText(path: Path): string {
  return path
    .map((step, i) => {
      if (typeof step === 'number') return `[${step}]`;
      if (!/^[\p{L}_$][\p{L}\p{N}_$-]*$/u.test(step)) return `[${JSON.stringify(step)}]`;
      return i === 0 ? step : `.${step}`;
    })
    .join('');
}

const key = /[\p{L}_$][\p{L}\p{N}_$-]*/uy;
const index = /\[\s*(\d{1,9})\s*\]/y;
const quotedName = /\[\s*("(?:[^"\\]|\\.)*")\s*\]/y;
const plainName = /\[([^\]"]+)\]/y;

function match(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function unquoted(text: string): string | undefined {
  try {
    return JSON.parse(text) as string;
  } catch {
    return undefined;
  }
}

/** The step that is written at `at`, and where it ends. */
function stepAt(text: string, at: number): { step: Step; end: number } | undefined {
  const dot = at > 0 && text[at] === '.' ? 1 : 0;
  if (at === 0 || dot === 1) {
    const word = match(key, text, at + dot)?.[0];
    if (word !== undefined) return { step: { key: word }, end: at + dot + word.length };
    if (dot === 1) return undefined;
  }
  const number = match(index, text, at);
  if (number !== null) return { step: { index: Number(number[1]) }, end: at + number[0].length };
  const named = match(quotedName, text, at) ?? match(plainName, text, at);
  if (named === null) return undefined;
  const name = named[1]?.startsWith('"') ? unquoted(named[1]) : named[1]?.trim();
  return name === undefined ? undefined : { step: { name }, end: at + named[0].length };
}

/**
 * Reads the beginning of a text as a path: keys joined by dots, entries of lists as [2], [front] or ["front left"].
 * @returns its steps, and where the path ends in the text (its length, when all of it is a path)
 */
export function readPath(text: string): { readonly steps: readonly Step[]; readonly end: number } {
  const steps: Step[] = [];
  let end = 0;
  for (let next = stepAt(text, 0); next !== undefined; next = stepAt(text, end)) {
    steps.push(next.step);
    end = next.end;
  }
  return { steps, end };
}
