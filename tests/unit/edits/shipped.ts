import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Json } from '../../../src/documents/json.ts';
import { startingLayouts } from '../../../src/edits/layouts/registry.ts';

const folder = join(import.meta.dirname, '../../../scenarios');

/** A shipped scenario as its file has it. */
export const shipped = (name: string): Json =>
  JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as Json;

/** Every shipped scenario and every starting layout, by name. */
export const documents: readonly (readonly [string, Json])[] = [
  ...readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => [file, shipped(file.replace(/\.json$/, ''))] as const),
  ...startingLayouts.map((layout) => [layout.id, layout.make(layout.usual)] as const),
];
