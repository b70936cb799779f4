/** One `--set path=value`. */
export interface Setting {
  readonly path: string;
  readonly value: unknown;
}

/**
 * Reads the text of a `--set`: a path in the document, `=`, and a value. The first `=` outside of brackets divides
 * them. The value is JSON where it reads as JSON (`4`, `true`, `["front"]`, `"45 mm"`), and text otherwise (`45 mm`).
 * @returns undefined when there is no `=`, or nothing before it
 */
export function parseSetting(text: string): Setting | undefined {
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    if (text[at] === '[') depth++;
    if (text[at] === ']') depth--;
    if (text[at] !== '=' || depth > 0) continue;
    const path = text.slice(0, at).trim();
    return path === '' ? undefined : { path, value: parseValue(text.slice(at + 1).trim()) };
  }
  return undefined;
}

function parseValue(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text;
  }
}
