import { dirname, resolve } from 'node:path';
import { didYouMean } from '../../../shared/near.ts';
import type { Problem } from '../../../shared/problem.ts';
import { limits } from '../../../shared/schema/scenario.ts';
import type { Surroundings } from '../verb.ts';
import { demoNames, demoPath } from './demos.ts';
import { megabytes, readBytes, textOf } from './read.ts';

/** A scenario's text, and where it comes from. */
export interface SourceText {
  readonly text: string;
  /** Folder in which files named by the scenario are looked for. */
  readonly folder: string;
}

export type ReadText =
  | ({ readonly ok: true } & SourceText)
  | { readonly ok: false; readonly problem: Problem };

const refuse = (message: string, hint?: string): ReadText => ({
  ok: false,
  problem: { path: '', message, severity: 'error', ...(hint === undefined ? {} : { hint }) },
});

/** Name of a document for people: `standard input` for `-`. */
export const sayName = (file: string): string => (file === '-' ? 'standard input' : file);

/**
 * Reads a scenario's text: a file, standard input for `-`, or the demo of that name when there is no such file.
 */
export async function readDocument(
  file: string,
  { stdin, cwd, demoFolder }: Pick<Surroundings, 'stdin' | 'cwd' | 'demoFolder'>,
): Promise<ReadText> {
  if (file === '-') return readStream(stdin, cwd);
  const path = resolve(cwd, file);
  const found = readBytes(path, limits.bytes);
  if (found.ok) return decode(found.bytes, dirname(path));
  // A folder of that name, such as one with a demo's results, is no scenario either.
  if (['ENOENT', 'EISDIR'].includes(found.code) && demoNames(demoFolder).includes(file)) {
    const demo = readBytes(demoPath(demoFolder, file), limits.bytes);
    return demo.ok ? decode(demo.bytes, demoFolder) : refuse(demo.why);
  }
  return refuse(found.why, found.code === 'ENOENT' ? hintFor(file, demoNames(demoFolder)) : undefined);
}

function hintFor(file: string, demos: readonly string[]): string | undefined {
  if (/[\\/.]/.test(file)) return undefined;
  return didYouMean(file, demos) ?? 'axlewright demos lists the scenarios that come with it';
}

async function readStream(stream: AsyncIterable<Uint8Array>, folder: string): Promise<ReadText> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of stream) {
    length += piece.length;
    if (length > limits.bytes) return refuse(`is larger than ${megabytes(limits.bytes)}`);
    pieces.push(piece);
  }
  return decode(Buffer.concat(pieces), folder);
}

function decode(bytes: Uint8Array, folder: string): ReadText {
  const text = textOf(bytes);
  return text === undefined
    ? refuse('is not UTF-8 text', 'save it as JSON with UTF-8 characters')
    : { ok: true, text, folder };
}
