import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { drive, loadScenario } from '../../../sim/index.ts';

it('a vehicle whose driven wheels have no grip is stuck, and not only out of time', () => {
  const corrie = new URL('../../../scenarios/corrie-6x6.json', import.meta.url);
  const read = loadScenario(readFileSync(corrie, 'utf8').replaceAll('"grip": 0.8', '"grip": 0'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { end } = drive(read.value);
  expect(end).toMatchObject({ kind: 'stuck', cause: 'no driven wheel has any grip' });
  // Told after one look back, 20 √(size / gravity) = 1.5 s, not after the half minute that the run may last.
  expect(end.time).toBeLessThan(10);
});
