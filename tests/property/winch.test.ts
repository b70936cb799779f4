/*
 * What must hold for any haul.
 *
 * Seen red: the slope's sine taken as its cosine; layers that grow inwards; an unknown limit counted as held.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Hauling } from '../../sim/winch/haul.ts';
import { studyWinch } from '../../sim/winch/study.ts';
import { g } from '../rigs/vehicle.ts';
import { task, truck, winched } from '../rigs/winched.ts';

const seeded = { seed: 1959, numRuns: 40, endOnFailure: true };

const pullOn = (slope: number, rolling: number): number => {
  // low enough that it tips on no slope
  const { mechanism, winch } = winched({ ...truck, cg: { x: 1.8, z: 0.4 } });
  const haul = new Hauling(mechanism, winch, task({ slope, rolling })).needed();
  return haul.kind === 'hauled' ? haul.force : Number.NaN;
};

describe('the pull along a slope', () => {
  it('grows with the slope up to where tan θ = 1/f, and falls beyond', () => {
    // d/dθ (sin + f·cos) = 0 at tan θ = 1/f; slopes up to 75° only, so f of 0.5 to 1 puts it at 63° to 45°
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (f, s) => {
          const top = Math.atan(1 / f);
          const below = s * top;
          expect(pullOn(below, f)).toBeGreaterThan(pullOn(below - 0.04, f));
          expect(pullOn(top + 0.12, f)).toBeLessThan(pullOn(top + 0.02, f));
        },
      ),
      { ...seeded, numRuns: 15 },
    );
  });

  it('is never more than the weight times 1 + f, and grows with the rolling resistance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1.2, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (slope, f) => {
          const force = pullOn(slope, f);
          expect(force).toBeLessThanOrEqual(truck.mass * g * (1 + f));
          expect(pullOn(slope, f + 0.05)).toBeGreaterThan(force);
        },
      ),
      seeded,
    );
  });
});

describe('a winch', () => {
  it('pulls less and faster from each further layer, and with more lines takes less from its rope', () => {
    const { mechanism, winch } = winched();
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.4, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        (slope, lines) => {
          const study = studyWinch(mechanism, winch, task({ slope, lines }));
          study.layers.slice(1).forEach((layer, i) => {
            expect(layer.pull).toBeLessThan(study.layers[i]?.pull as number);
          });
          const more = studyWinch(mechanism, winch, task({ slope, lines: lines + 1 }));
          expect(more.tension).toBeLessThan(study.tension);
          expect(more.anchor).toBeCloseTo(study.anchor, 3);
          // loads across the ground sum to W·cos: the rope runs along the slope
          const sum = study.wheels.reduce((all, { load }) => all + load, 0);
          expect(sum / (truck.mass * g * Math.cos(slope))).toBeCloseTo(1, 6);
        },
      ),
      { ...seeded, numRuns: 8 },
    );
  });

  it('never calls what is not known held: every limit that is missing leaves its use unknown', () => {
    const parts = { rope: 'strength', brake: '', reduction: 'rating', motor: '' } as const;
    const { winch: whole, mechanism } = winched();
    const bare = {
      ...whole,
      rope: { ...whole.rope, strength: undefined },
      brake: undefined,
      reduction: { ...whole.reduction, rating: undefined },
      motor: undefined,
    };
    const { uses } = studyWinch(mechanism, bare, task({ slope: 0.3 }));
    expect(uses.length).toBe(Object.keys(parts).length + 1);
    for (const use of uses)
      expect({ of: use.of, use: use.use, limit: use.limit }).toEqual({ of: use.of, use: null, limit: null });
  });
});
