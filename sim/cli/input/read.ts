import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/** Bytes of a file, or why they cannot be had, as the end of a sentence: 'is a folder'. */
export type Bytes =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly code: string; readonly why: string };

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'is not there',
  ENOTDIR: 'is not there',
  EACCES: 'may not be read: no permission',
  EPERM: 'may not be read: no permission',
  EISDIR: 'is a folder, not a file',
  ENAMETOOLONG: 'is too long a name',
  ELOOP: 'is a link that leads in a circle',
};

/** `5 MB`, for messages. */
export const megabytes = (bytes: number): string => `${bytes / 1e6} MB`;

/**
 * Reads a file up to a limit; a file that is longer, or a stream that does not end, is refused without being read to
 * its end. Never throws for anything that is wrong with the file.
 */
export function readBytes(path: string, most: number): Bytes {
  try {
    const file = openSync(path, 'r');
    try {
      if (fstatSync(file).isDirectory()) return { ok: false, code: 'EISDIR', why: reasons.EISDIR ?? '' };
      return readWhole(file, most);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    return { ok: false, code, why: reasons[code] ?? `cannot be read: ${message}` };
  }
}

function readWhole(file: number, most: number): Bytes {
  const pieces: Buffer[] = [];
  let length = 0;
  for (;;) {
    const piece = Buffer.alloc(65_536);
    const read = readSync(file, piece);
    if (read === 0) return { ok: true, bytes: Buffer.concat(pieces) };
    length += read;
    if (length > most) return { ok: false, code: 'E2BIG', why: `is larger than ${megabytes(most)}` };
    pieces.push(piece.subarray(0, read));
  }
}

/**
 * Bytes as text, which must be UTF-8; a mark at the beginning is dropped.
 * @returns undefined when the bytes are something else
 */
export function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
