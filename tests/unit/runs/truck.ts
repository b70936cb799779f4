import { readFileSync } from 'node:fs';
import { readScenario } from '../../../sim/scenario/read.ts';
import type { Scenario } from '../../../sim/scenario/schema.ts';

/** The shipped six-wheeler, and the name of the pivot that its two arms share. */
export function smallTruck(): { readonly scenario: Scenario; readonly pivot: string } {
  const text = readFileSync(new URL('../../../scenarios/corrie-6x6.json', import.meta.url), 'utf8');
  const read = readScenario(JSON.parse(text), { file: () => undefined });
  if (!read.ok) throw new Error('the shipped scenario is no good');
  return { scenario: read.value, pivot: 'middle-arm and rear-arm' };
}
