import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadScenario, type Scenario } from '../../../sim/index.ts';

const folder = new URL('../../../scenarios/', import.meta.url);

/** The text of a shipped scenario. */
export const textOf = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`${name}.json`, folder)), 'utf8');

/** A shipped scenario, read. */
export function shipped(name: string): Scenario {
  const read = loadScenario(textOf(name));
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return read.value;
}
