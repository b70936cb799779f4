import { expect, it } from 'vitest';
import { damper } from '../../../sim/elements/damper.ts';
import { lawFrom } from './read.ts';

it('a damper of 12 N·s/m in bump and 20 in rebound brakes 0.5 m/s with 6 N and 10 N', () => {
  const law = lawFrom(damper, { bump: 12, rebound: '20 N s/m' });
  expect(law.loss(0, 0.5)).toBeCloseTo(-6, 12);
  expect(law.loss(0, -0.5)).toBeCloseTo(10, 12);
  expect(law.damping).toBe(20);
});

it('a damper with one rate has it both ways', () => {
  expect(lawFrom(damper, { bump: 12 }).loss(0, -0.5)).toBeCloseTo(6, 12);
});
