/** A figure that was read, or why it could not be. Messages are sentences without a path. */
export type Read<T> = { ok: true; value: T } | { ok: false; message: string; hint?: string };

/** A failed reading. */
export function unread(message: string, hint?: string): { ok: false; message: string; hint?: string } {
  return hint === undefined ? { ok: false, message } : { ok: false, message, hint };
}

/** A text to be read from left to right. */
export interface Cursor {
  readonly text: string;
  at: number;
}

/** Takes what `pattern` (sticky, flag y) matches at the cursor, or undefined and leaves the cursor. */
export function take(cursor: Cursor, pattern: RegExp): string | undefined {
  const sticky = new RegExp(pattern.source, 'uy');
  sticky.lastIndex = cursor.at;
  const found = sticky.exec(cursor.text)?.[0];
  if (found !== undefined) cursor.at += found.length;
  return found;
}

/** The start of a text in quotes, short enough for a message. */
export function quoted(text: string): string {
  return `"${text.length > 40 ? `${text.slice(0, 40)}…` : text}"`;
}

/** Figures beyond this are slips of the keyboard, in any unit of this project. */
export const greatest = 1e30;

/** Reads an unsigned number with a decimal point at the cursor; undefined when there is none. */
export function takeNumber(cursor: Cursor): Read<number> | undefined {
  const written = take(cursor, /(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+\-−]?\d+)?/);
  if (written === undefined) return undefined;
  const comma = /^,(\d+)/.exec(cursor.text.slice(cursor.at));
  if (comma !== null) {
    return unread(
      `${quoted(cursor.text)} has a comma in its number`,
      `write a decimal point: ${written}.${comma[1]}`,
    );
  }
  const value = Number(written.replace('−', '-'));
  if (!(value <= greatest)) return unread(`${quoted(cursor.text)} is too large to be a figure of a vehicle`);
  return { ok: true, value };
}
