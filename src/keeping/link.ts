import { limits } from '../../shared/schema/scenario.ts';
import type { Json } from '../documents/json.ts';

/**
 * Longest link that is made, characters. All browsers take far longer ones, but letters and chats cut them off; a
 * scenario without a picture takes one to four thousand.
 */
export const MOST_LINK = 16_000;

const HEAD = '#scenario=';

/** A scenario that came with a link, or why there is none. */
export type Linked =
  | { readonly ok: true; readonly name: string; readonly text: string }
  | { readonly ok: false; readonly says: string };

/** Whether an address's fragment is meant to carry a scenario. */
export const isLink = (fragment: string): boolean => fragment.startsWith(HEAD);

function toBase64url(bytes: Uint8Array): string {
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function fromBase64url(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
}

/** All bytes that come through a stream. @throws RangeError as soon as there are more than `most` */
async function collect(stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array<ArrayBuffer>> {
  const parts: Uint8Array[] = [];
  let size = 0;
  const reader = stream.getReader();
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    size += next.value.length;
    if (size > most) {
      await reader.cancel();
      throw new RangeError('too large');
    }
    parts.push(next.value);
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function through(bytes: Uint8Array<ArrayBuffer>, stream: GenericTransformStream): ReadableStream<Uint8Array> {
  return new Blob([bytes]).stream().pipeThrough(stream as ReadableWritablePair<Uint8Array, Uint8Array>);
}

/**
 * The fragment of an address that carries a whole scenario: deflated (RFC 1951) and written in base64url (RFC 4648).
 * Browsers do not send fragments to servers.
 * @returns the fragment with its '#', and whether it is short enough to be sent around
 */
export async function fragmentOf(name: string, document: Json): Promise<{ fragment: string; fits: boolean }> {
  const plain = new TextEncoder().encode(JSON.stringify({ name, document }));
  const packed = await collect(
    through(plain, new CompressionStream('deflate-raw')),
    Number.POSITIVE_INFINITY,
  );
  const fragment = `${HEAD}${toBase64url(packed)}`;
  return { fragment, fits: fragment.length <= MOST_LINK };
}

/** A name out of a link as the name of a file: no folders, no characters that systems refuse, not too long. */
function fileName(given: unknown): string {
  const plain = typeof given === 'string' ? given : '';
  const safe = plain.replace(/\.json$/i, '').replace(/[^\p{L}\p{N} ._()×-]/gu, ' ');
  return `${
    safe
      .replace(/^[. ]+/, '')
      .trim()
      .slice(0, 80) || 'linked'
  }.json`;
}

const BROKEN =
  'The link is broken: part of it is missing or was changed on its way. Ask for it again, or for the file.';

/**
 * The scenario that a fragment carries, as the text of a file. The scenario itself is not checked here.
 * @param fragment with its '#'; anything at all
 */
export async function linkedIn(fragment: string): Promise<Linked> {
  try {
    const packed = fromBase64url(fragment.slice(HEAD.length));
    const plain = await collect(through(packed, new DecompressionStream('deflate-raw')), limits.bytes);
    const text = new TextDecoder('utf-8', { fatal: true }).decode(plain);
    const { name, document } = JSON.parse(text) as { name?: unknown; document?: Json };
    if (document === undefined) return { ok: false, says: BROKEN };
    return { ok: true, name: fileName(name), text: `${JSON.stringify(document, null, 2)}\n` };
  } catch (error) {
    const large = error instanceof RangeError;
    const says = large
      ? `The link holds more than ${limits.bytes / 1e6} MB, which no scenario may have.`
      : BROKEN;
    return { ok: false, says };
  }
}
