/*
 * The use of a limit is straight in the load, in 1/count and in the safety factor, whatever the part.
 * Rounding only: a few parts in 10¹².
 * Seen red: pressure of a guide with its moment squared; the safety factor added to the stress.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Recording } from '../../shared/recording.ts';
import { strengthLines } from '../../sim/index.ts';
import { crossWith, mechanismWith } from '../unit/strength/vehicles.ts';

const section = { shape: 'round', diameter: '4 mm' };
const pin = { kind: 'pin', diameter: '3 mm', lug: '4 mm' };
const parts = (material: string, count: number, safety: number) =>
  [
    { ...pin, member: 'middle-arm' },
    { ...pin, member: 'rear-rod' },
    { kind: 'guide', member: 'front-axle', engaged: '20 mm', width: '6 mm' },
    { kind: 'rod', member: 'middle-rod', section },
    { kind: 'beam', member: 'rear-arm', section, hole: '1 mm' },
  ].map((entry) => ({ ...entry, material, count, safety }));

const known = (lines: ReturnType<typeof strengthLines>) =>
  lines.flatMap(({ use, how, sort }) => (use === null || how === undefined || sort === 'stop' ? [] : [use]));

const forces = new Set(['pinX', 'pinZ', 'pinMoment', 'rodTension', 'axial', 'shear', 'bending']);

/** The recording with all forces in pins, rods and members times `k`. */
function scaled(recording: Recording, k: number): Recording {
  const block = recording.block.slice();
  recording.columns.forEach(({ channel }, c) => {
    if (!forces.has(channel)) return;
    for (let f = 0; f < recording.frames; f++) {
      const at = c * recording.frames + f;
      block[at] = (block[at] as number) * k;
    }
  });
  return { ...recording, block };
}

it('the use of every part grows with the load as it does, and falls with count and safety', () => {
  const base = crossWith('corrie', parts('pom', 1, 1));
  const uses = known(base.lines);
  expect(uses).toHaveLength(5);
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 100, noNaN: true }),
      fc.integer({ min: 1, max: 4 }),
      fc.double({ min: 1, max: 5, noNaN: true }),
      (k, count, safety) => {
        const mechanism = mechanismWith('corrie', parts('pom', count, safety));
        const found = known(strengthLines(mechanism, scaled(base.recording, k)));
        found.forEach((use, i) => {
          expect(use / (((uses[i] as number) * k * safety) / count)).toBeCloseTo(1, 11);
        });
      },
    ),
    { numRuns: 25 },
  );
});
