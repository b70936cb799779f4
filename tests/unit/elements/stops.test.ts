import { describe, expect, it } from 'vitest';
import { bumpStop } from '../../../sim/elements/bump-stop.ts';
import { droopStop } from '../../../sim/elements/droop-stop.ts';
import { makeStop } from '../../../sim/elements/stop.ts';
import { lawFrom, none } from './read.ts';

describe('a bump stop 15 mm away, 40 N/mm and 100 N·s/m', () => {
  const law = lawFrom(bumpStop, { clearance: '15 mm', rate: '40 N/mm', damping: 100 });

  it('does nothing up to its face', () => {
    expect(Math.abs(law.spring(0.0149, none))).toBe(0);
    expect(Math.abs(law.loss(0.0149, 1))).toBe(0);
    expect(law.stiffness(0.0149, none)).toBe(0);
  });

  it('pushes down with 80 N when pressed by 2 mm, and holds 0.08 J', () => {
    expect(law.spring(0.017, none)).toBeCloseTo(-80, 9);
    expect(law.energy(0.017, none)).toBeCloseTo(0.08, 12);
  });

  it('brakes 0.5 m/s with 50 N there, but 2 m/s with no more than its own 80 N', () => {
    expect(law.loss(0.017, 0.5)).toBeCloseTo(-50, 9);
    expect(law.loss(0.017, 2)).toBeCloseTo(-80, 9);
  });

  it('never pulls: let go at 5 m/s it pushes with nothing at all', () => {
    expect(law.spring(0.017, none) + law.loss(0.017, -5)).toBeCloseTo(0, 9);
  });
});

it('a droop stop is a bump stop the other way round', () => {
  const up = lawFrom(bumpStop, { clearance: 0.01, rate: 5e4, damping: 20 });
  const down = lawFrom(droopStop, { clearance: 0.01, rate: 5e4, damping: 20 });
  for (const x of [-0.02, 0.005, 0.012, 0.03]) {
    expect(down.spring(-x, none)).toBeCloseTo(-up.spring(x, none), 12);
    expect(down.energy(-x, none)).toBeCloseTo(up.energy(x, none), 12);
    expect(down.loss(-x, -0.3)).toBeCloseTo(-up.loss(x, 0.3), 12);
  }
  expect(down.corners).toEqual([-0.01]);
});

it('a member builds its own stops from the same law, in radians as well', () => {
  expect(makeStop('droop', 0.2, 300, 0).spring(-0.25, none)).toBeCloseTo(15, 10);
});
