import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadScenario, stand } from '../../sim/index.ts';

type Loose = Record<string, unknown> & { preload?: string };

/** The flagship without preloads, to be set by ride height. */
function unset(lift: string | number, setBy = ['front springs', 'middle torsion bars', 'rear torsion bars']) {
  const document = JSON.parse(
    readFileSync(new URL('../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
  );
  for (const element of document.vehicle.elements as Loose[]) delete element.preload;
  return { ...document, vehicle: { ...document.vehicle, rideHeight: { setBy, lift } } };
}

function standing(document: unknown) {
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return stand(read.value);
}

describe('a vehicle whose ride height sets its preloads', () => {
  // the preload and the standing are solved to 1e-9 of the weight each: 6e-8 N on 1.3 N/mm is far under 1e-8 m
  it.each([
    [0, 0],
    ['5 mm', -0.005],
    ['-3 mm', 0.003],
  ])('stands with its wheels where it should for a lift of %s', (lift, travel) => {
    for (const found of standing(unset(lift)).travels) expect(found).toBeCloseTo(travel, 8);
  });

  it('still carries its weight', () => {
    expect(standing(unset(0)).loads.reduce((sum, load) => sum + load, 0)).toBeCloseTo(6 * 9.80665, 6);
  });

  it.each([
    [['front springs', 'no such thing'], "no element is called 'no such thing'"],
    [['front dampers'], "'front dampers' has no preload that could be set"],
  ])('is refused with a reason when it names %s', (setBy, reason) => {
    const read = loadScenario(unset(0, setBy));
    expect(read.ok).toBe(false);
    expect(read.problems.map((p) => p.message).join()).toContain(reason);
  });

  it('is refused when a preload is given twice', () => {
    const document = unset(0);
    document.vehicle.elements[0].preload = '10 N';
    const read = loadScenario(document);
    expect(read.problems.map((p) => p.path)).toContain('vehicle.rideHeight.setBy[0]');
  });
});
