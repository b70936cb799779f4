/*
 * Derivatives of a crossing's worst station against differences between whole crossings.
 *
 * Seen red: the standing load held fast; the adjoint of the tangent instead of its transpose; stations too far
 * apart; the own change of the figure left out.
 */
import { describe, expect, it } from 'vitest';
import { settingsFor } from '../../../sim/studies/knob.ts';
import { influencesOf } from '../../../sim/studies/matters.ts';
import { Study } from '../../../sim/studies/study.ts';
import { worstOf } from '../../../sim/studies/worst.ts';
import { shipped } from './shipped.ts';

const ask = { scenario: shipped('corrie-6x6'), stations: 120 };

describe.each([
  'leastLoadShare',
  'wheelGreatestLoadShare[front]',
  'leastClearance',
  'wheelTyreDepth[middle]',
  'pitchUp',
])('what matters to %s', (measure) => {
  const exact = influencesOf({ ...ask, measure });

  it('is told by derivatives, the largest first', () => {
    expect(exact.by).toBe('derivative');
    const sizes = exact.list.map(({ change }) => Math.abs(change));
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    expect(exact.list.length).toBeGreaterThan(20);
    expect(exact.untried).toEqual([]);
  });

  it('agrees with differences between whole crossings', () => {
    // Crossings 0.05 turns apart to both sides: what they differ by beyond the slope grows with the square of that, some
    // 10⁻⁴ of the largest; each worst station is found to 10⁻⁴ of the way between two, which counts squared.
    const study = new Study({ ...ask, measure });
    const largest = Math.abs(exact.list[0]?.change ?? 0);
    for (const { knob, step, change } of exact.list.slice(0, 24)) {
      const at = (turns: number) =>
        worstOf(study, settingsFor([{ knob, to: knob.now + turns * step }]))?.value ?? Number.NaN;
      const difference = (at(0.05) - at(-0.05)) / 0.1;
      expect(Math.abs(difference - change), knob.name).toBeLessThan(1e-3 * largest);
    }
  });
});

describe('what matters', () => {
  it('finds a dip of the load that lies between two stations', () => {
    const coarse = worstOf(new Study({ ...ask, stations: 60 }));
    const fine = new Study({ ...ask, stations: 4000 }).at().value ?? Number.NaN;
    // stations of the fine crossing are 0.4 mm apart, on a dip some 5 mm wide: 1 % of its depth at most
    expect(coarse?.value).toBeLessThan(fine);
    expect(coarse?.value).toBeGreaterThan(0.98 * fine);
  });

  it('is told by crossings where a wheel lets go of the lower ground just there, and says so', () => {
    const kinked = influencesOf({ ...ask, stations: 40, measure: 'memberBumpUsed[middle-arm]' });
    expect(kinked.by).toBe('crossings');
    expect(kinked.why).toMatch(/kink/);
  });

  it('is told by crossings where dry friction remembers the way, and says so', () => {
    const full = influencesOf({ scenario: shipped('drumlin-6x6-full'), stations: 20 });
    expect(full.by).toBe('crossings');
    expect(full.why).toMatch(/friction/);
    expect(full.list.length).toBeGreaterThan(10);
    expect(full.list.some(({ knob }) => knob.name === 'elements[bogie pivot friction].torque')).toBe(true);
  });

  it('is the same by derivatives and by crossings when those are asked for', () => {
    const by = influencesOf({ ...ask, by: 'crossings', turns: 0.05 });
    const exact = influencesOf(ask);
    const of = new Map(exact.list.map(({ knob, change }) => [knob.name, change]));
    const [first] = by.list;
    expect(by.why).toBeUndefined();
    expect(first?.change).toBeCloseTo(of.get(first?.knob.name ?? '') ?? Number.NaN, 4);
    expect(by.idle).toBe(exact.idle);
  });

  it('tells how far it is', () => {
    const shares: number[] = [];
    influencesOf({ ...ask, stations: 30, progress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });
});
