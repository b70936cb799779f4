import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { loadScenario } from '../../../sim/index.ts';

const shipped = new URL('../../../scenarios/fell-4x4.json', import.meta.url);

/** Problems of a shipped scenario whose first element, a linear spring, was given more fields. */
function problemsWith(more: object): string[] {
  const document = JSON.parse(readFileSync(shipped, 'utf8'));
  Object.assign(document.vehicle.elements[0], more);
  return loadScenario(document).problems.map((p) => `${p.path}: ${p.message}`);
}

it('a scenario takes a spring with another rate', () => {
  expect(problemsWith({ rate: '0.3 N/mm' })).toEqual([]);
});

it('a scenario refuses what the fields of an element refuse together: a rate and a wire', () => {
  const wire = { diameter: '1 mm', coilDiameter: '10 mm', activeCoils: 8, shearModulus: '80 GPa' };
  expect(problemsWith({ wire })).toEqual([
    'vehicle.elements[0]: has `rate` and `wire`, which say the same thing',
  ]);
});
