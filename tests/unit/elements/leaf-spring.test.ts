import { describe, expect, it } from 'vitest';
import { leafSpring } from '../../../sim/elements/leaf-spring.ts';
import { lawFrom, refusals } from './read.ts';

/** Leads a law through coordinates in one go each and adds up what it loses. */
function led(law: ReturnType<typeof lawFrom>, memory: Float64Array, path: readonly number[]): number {
  return path.reduce((lost, to, i) => lost + (law.advance?.(path[i - 1] ?? 0, to, memory) ?? 0), 0);
}

describe('a leaf spring of 2 N/mm with 3 N of friction', () => {
  const law = lawFrom(leafSpring, { rate: '2 N/mm', preload: '10 N', friction: '3 N' });

  it('pushes with 33 N on the way up to 10 mm and with 27 N on the way back: 10 + 20 ± 3', () => {
    const memory = new Float64Array(law.memory);
    led(law, memory, [0.01]);
    expect(law.spring(0.01, memory)).toBeCloseTo(-33, 10);
    led(law, memory, [0.01, 0.02, 0.01]);
    expect(law.spring(0.01, memory)).toBeCloseTo(-27, 10);
  });

  it('turns its friction round over 0.3 mm: twice the elastic travel of a tenth of 3/2000 m', () => {
    const memory = new Float64Array(law.memory);
    led(law, memory, [0.01]);
    // Half way back through it, only the straight spring is left: 10 + 2·(10 − 0.15).
    expect(law.spring(0.01 - 0.00015, memory)).toBeCloseTo(-29.7, 10);
  });

  it('loses 0.0591 J on a way of 10 mm and back: 3 N along twice 10 mm, less 0.15 mm and 0.3 mm to turn it round', () => {
    const memory = new Float64Array(law.memory);
    expect(led(law, memory, [0.01, 0])).toBeCloseTo(3 * (0.01 - 0.00015 + 0.01 - 0.0003), 12);
  });
});

it('a leaf spring without friction is a straight spring', () => {
  const law = lawFrom(leafSpring, { rate: 2000 });
  const memory = new Float64Array(law.memory);
  expect(law.advance?.(0, 0.01, memory)).toBe(0);
  expect(law.spring(0.01, memory)).toBeCloseTo(-20, 12);
});

it('a leaf spring asks for a rate or for its leaves', () => {
  expect(refusals(leafSpring, { friction: 1 })).toEqual([': needs `rate` or `leaves`, and has neither']);
});
