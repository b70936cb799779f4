import { describe, expect, it } from 'vitest';
import type { Path } from '../../../shared/path.ts';
import type { Scenario } from '../../../sim/scenario/schema.ts';
import { freeFigures, nearestInStock } from '../../../sim/stock/nearest.ts';
import { stocked, truckFor } from './drawer.ts';

const scenario = truckFor();
const stock = stocked();
const element = (name: string): Path => [
  'vehicle',
  'elements',
  scenario.vehicle.elements.findIndex((e) => e.name === name),
];
const at = (...places: Path[]): { places: Path[]; scenario: Scenario } => ({ places, scenario });
const stage: Path = ['vehicle', 'driveline', 'parts', 1];

describe('when nothing in stock does it', () => {
  it('figures may be searched freely, from half the least to twice the greatest in stock', () => {
    const [rate] = freeFigures(stock, 'springs', [element('strut')], scenario);
    expect(rate).toMatchObject({ key: 'rate', to: 2000, paths: [[...element('strut'), 'rate']] });
    // The wire spring: 80e9 · 0.001⁴ / (8 · 0.01³ · 12) = 833 N/m; the softest is 800 N/m.
    expect(rate?.from).toBe(400);
    expect(rate?.without).toEqual([[...element('strut'), 'wire']]);
    expect(freeFigures(stock, 'gears', [stage], scenario)[0]?.without).toEqual([
      [...stage, 'teeth'],
      [...stage, 'friction'],
    ]);
  });

  it('the nearest is told by its ratio, with what is off', () => {
    const { near, says } = nearestInStock(stock, 'springs', at(element('strut')), { rate: 900 });
    expect(near[0]?.label).toBe('long wire');
    expect(near[0]?.figures[0]?.off).toBeCloseTo(833.33 / 900 - 1, 4);
    expect(says).toMatch(
      /^Nothing in stock does it for the linear-spring 'strut'; the nearest is 'long wire'/,
    );
    expect(says).toMatch(/Buy or make a spring with rate 0.9 N\/mm/);
  });

  it('says when there are not enough of the nearest', () => {
    const both = at(element('front springs'), element('strut'));
    const { near, says } = nearestInStock(stock, 'springs', both, { rate: 1000 });
    expect(near[0]).toMatchObject({ label: 'middle', enough: false });
    expect(says).toMatch(/there are not enough of it.*3 of them/);
  });

  it('a spring with more coils can be cut: rate and active coils are inverse', () => {
    const { make } = nearestInStock(stock, 'springs', at(element('strut')), { rate: 1000 });
    // 12 coils · 833.3 / 1000 = 10 coils
    expect(make).toEqual([
      expect.stringMatching(/'long wire' cut from 12 to 10.0 active coils.*eye protection/),
    ]);
    expect(nearestInStock(stock, 'springs', at(element('strut')), { rate: 500 }).make).toEqual([]);
  });

  it('a bar has any rate at some length', () => {
    const { make } = nearestInStock(stock, 'bars', at(element('tail bars')), { rate: 1 });
    // L = G·π·d⁴/32 / c = 78.5e9 · π · 0.002⁴ / 32 / 1 = 123.3 mm
    expect(make).toEqual([expect.stringMatching(/'rod 2' has that rate with 123 mm/)]);
  });

  it('one more gear makes the ratio beside one that is there', () => {
    const { near, make } = nearestInStock(stock, 'gears', at(stage), { ratio: 2.5 });
    expect(near[0]?.label).toBe('g12 driving g36');
    // 12 · 2.5 = 30 teeth exactly; so do 20 · 2.5 = 50 and 20/2.5 = 8: the fewest teeth win.
    expect(make).toEqual(["a gear of 8 teeth driving 'g20' gives 1 : 2.500"]);
  });

  it('several figures count together', () => {
    const { near } = nearestInStock(stock, 'wheels', at(['vehicle', 'wheels', 0]), { radius: 0.05 });
    expect(near.map(({ label }) => label)).toEqual(['balloon', 'bare']);
    const withMass = nearestInStock(stock, 'wheels', at(['vehicle', 'wheels', 0]), {
      radius: 0.04,
      mass: 0.1,
    });
    // Items of which a wanted figure is not known cannot be compared.
    expect(withMass.near.map(({ label }) => label)).toEqual(['balloon']);
  });
});
