import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** A scenario that comes with the program. */
export interface Demo {
  readonly name: string;
  readonly path: string;
  readonly title: string;
}

/** The folder of the scenarios that ship: beside the first package.json above this file, in a checkout and a package. */
export function demoFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json')) && dirname(folder) !== folder) folder = dirname(folder);
  return join(folder, 'scenarios');
}

/** Names of the demos in alphabetical order, by which `axlewright drive NAME` finds them. */
export function demoNames(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => basename(file, '.json'))
    .sort();
}

/** Path of the demo with this name. */
export function demoPath(folder: string, name: string): string {
  return join(folder, `${name}.json`);
}

/** The demos with their titles. */
export function demosIn(folder: string): Demo[] {
  return demoNames(folder).map((name) => {
    const path = demoPath(folder, name);
    const { title } = JSON.parse(readFileSync(path, 'utf8')) as { title?: string };
    return { name, path, title: title ?? '' };
  });
}
