import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { crawl, loadScenario } from '../../../sim/index.ts';

it('motors that may draw no current at all move nothing, and the crawl says that they are short', () => {
  const document = JSON.parse(
    readFileSync(new URL('../../../scenarios/cairn-6x6-shafts.json', import.meta.url), 'utf8'),
  );
  for (const part of document.vehicle.driveline.parts) if (part.kind === 'motor') part.currentLimit = 0;
  const read = loadScenario(document);
  if (!read.ok) throw new Error('no scenario');
  const { end } = crawl(read.value);
  expect(end).toMatchObject({ kind: 'stuck', by: 'torque' });
  expect(end.kind === 'stuck' && end.cause).toMatch(/^motors needs .* and has 0/);
});
