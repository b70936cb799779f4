/*
 * Steering a standing wheel against published figures.
 *
 * Seen red: a quarter instead of a third of the side; jacking without the cosine; the width taken as a radius; the
 * linkage's gear turned over.
 */
import { describe, expect, it } from 'vitest';
import { depthUnder, foundationOf } from '../../sim/mechanism/tyres.ts';
import { linkageAt } from '../../sim/steering/linkage.ts';
import { contactLength, jackingOf, scrubOfRound, scrubOfSquare } from '../../sim/steering/scrub.ts';

const degree = Math.PI / 180;

describe('a standing wheel of 1200 kg (Automotive Chassis Engineering, example E2.1, page 82)', () => {
  // contact 250 mm square, offset 25 mm, friction 0.58, king-pin 12°; the source rounds: 594, 28, 42 N·m, 0.5 %
  const load = 1200 * 9.81;

  it('takes 594 N·m of scrub', () => {
    expect(scrubOfSquare(0.58, load, 0.025, 0.25)).toBeCloseTo(594.03256, 4);
  });

  it('is lifted by 28 N·m at 28° and 42 N·m at 45°', () => {
    expect(jackingOf(load, 0.025, 12 * degree, 28 * degree)).toBeCloseTo(28.098482, 5);
    expect(jackingOf(load, 0.025, 12 * degree, 45 * degree)).toBeCloseTo(42.321258, 5);
  });
});

describe('a round contact of 24 mm under 6 N with friction 0.9', () => {
  it('takes 62.97 N·mm with an offset of 8 mm (handbook formula, from memory)', () => {
    expect(scrubOfRound(0.9, 6, 0.008, 0.024) * 1e3).toBeCloseTo(62.97428, 5);
  });

  it('lies within 7 % of the integral over the circle, ⅔·μ·W·R, without an offset', () => {
    // √(1/8) against 1/3 of the width: 6.07 % more
    expect(scrubOfRound(0.9, 6, 0, 0.024) / ((2 / 3) * 0.9 * 6 * 0.012)).toBeCloseTo(3 * Math.sqrt(1 / 8), 9);
  });
});

describe('the contact of a tyre', () => {
  it('of 600 mm pressed in by 35 mm is 403.86 mm long (chord; S4 of the list of checks)', () => {
    expect(contactLength(0.6, 0.035) * 1e3).toBeCloseTo(403.85641, 4);
  });

  it('is pressed in by load over stiffness at the load at which the stiffness holds', () => {
    const foundation = foundationOf(0.6, 30e3 / 0.035, 30e3);
    expect(depthUnder(30e3, foundation, 0.6)).toBeCloseTo(0.035, 9);
  });
});

describe('a linkage', () => {
  it.each([
    ['lever', { kind: 'lever', lever: 0.015, arm: 0.02 }],
    ['four-bar', { kind: 'lever', lever: 0.015, arm: 0.02, link: 0.05 }],
    ['rack', { kind: 'rack', pinion: 0.006, arm: 0.02 }],
  ] as const)('does no work of its own: %s turns as fast as its gear says', (_, linkage) => {
    // virtual work: dδ/dφ against a central difference, 1e-6 rad; its error is of the order of 1e-9
    for (const angle of [-0.5, -0.2, 0, 0.3, 0.5]) {
      const at = (d: number) => linkageAt(linkage, angle + d)?.turn as number;
      const slope = (at(1e-6) - at(-1e-6)) / 2e-6;
      expect(linkageAt(linkage, angle)?.gear).toBeCloseTo(1 / slope, 6);
    }
  });

  it('with a link as long as one likes is the parallel one', () => {
    const long = linkageAt({ kind: 'lever', lever: 0.015, arm: 0.02, link: 1e4 }, 0.4);
    const parallel = linkageAt({ kind: 'lever', lever: 0.015, arm: 0.02 }, 0.4);
    expect(long?.turn).toBeCloseTo(parallel?.turn as number, 5);
    expect(long?.gear).toBeCloseTo(parallel?.gear as number, 5);
  });
});
