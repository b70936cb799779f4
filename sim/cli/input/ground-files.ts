import { realpathSync } from 'node:fs';
import { isAbsolute, join, relative, sep } from 'node:path';
import type { Problem } from '../../../shared/problem.ts';
import { limits } from '../../../shared/schema/scenario.ts';
import type { GroundSource } from '../../ground/ground.ts';
import { readBytes, textOf } from './read.ts';

/**
 * Files that a scenario names, looked up in the scenario's own folder and below it, never elsewhere: a scenario from a
 * stranger must not be able to read what lies beside it. What is refused is told to `refused`, once for each name.
 * @param folder the scenario's folder
 */
export function groundFiles(folder: string, refused: (problem: Problem) => void): GroundSource {
  const known = new Map<string, string | undefined>();
  const look = (name: string): string | undefined => {
    const found = read(folder, name);
    if ('why' in found)
      refused({
        path: `ground file '${name}'`,
        message: found.why,
        severity: 'error',
        ...(found.hint === undefined ? {} : { hint: found.hint }),
      });
    return 'why' in found ? undefined : found.text;
  };
  return {
    file(name) {
      if (!known.has(name)) known.set(name, look(name));
      return known.get(name);
    },
  };
}

type Found = { readonly text: string } | { readonly why: string; readonly hint?: string };

const outside: Found = {
  why: "lies outside of the scenario's folder, so it is not read",
  hint: 'put the file beside the scenario, or in a folder below it, and name it from there',
};

function read(folder: string, name: string): Found {
  if (name === '' || name.includes('\0')) return { why: 'is not a file name' };
  const bytes = leadsElsewhere(folder, name) ? outside : readBytes(join(folder, name), limits.bytes);
  if (!('ok' in bytes)) return bytes;
  if (!bytes.ok)
    return { why: bytes.why, ...(bytes.code === 'ENOENT' ? { hint: `looked for it in ${folder}` } : {}) };
  const text = textOf(bytes.bytes);
  return text === undefined
    ? { why: 'is not UTF-8 text', hint: 'save it as CSV with UTF-8 characters' }
    : { text };
}

/** Whether a name, seen from a folder, means something that does not lie in it or below it. */
export const leadsElsewhere = (folder: string, name: string): boolean =>
  isAbsolute(name) ||
  /^[a-z]:|^\\/i.test(name) ||
  name.split(/[\\/]/).includes('..') ||
  leadsOut(folder, join(folder, name));

/** Whether a path inside the folder leads out of it by links. A path that is not there leads nowhere. */
function leadsOut(folder: string, path: string): boolean {
  try {
    const way = relative(realpathSync(folder), realpathSync(path));
    return way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way);
  } catch {
    return false;
  }
}
