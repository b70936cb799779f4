/*
 * What holds of every ledger, whatever the ratings and loads.
 * Seen red: a rating multiplied instead of divided by; lines left unsorted; the greatest mass of a weaker part above that
 * of a stronger one.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile, layGround, loadScenario } from '../../sim/index.ts';
import { crossRegardless } from '../../sim/ledger/crossing.ts';
import { firstToGive, ledgerOf } from '../../sim/ledger/ledger.ts';
import { greatestMass } from '../../sim/ledger/mass.ts';
import { partIn, shafts, shipped } from '../unit/ledger/truck.ts';

const { scenario, ground } = shafts();
const { recording } = crossRegardless(scenario, ground, 120);
const names = [
  'transfer gears',
  'rear shaft',
  'front final drive',
  'rear joint at the beam',
  'middle final drive',
];
const name = fc.constantFrom(...names);
const rating = fc.double({ min: 0.02, max: 20, noNaN: true });

/** Ledger of the same crossing with other ratings: they change no force. */
function rated(ratings: Readonly<Record<string, number>>) {
  const document = shipped('cairn-6x6-shafts');
  for (const [part, torque] of Object.entries(ratings)) partIn(document, part).rating = torque;
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return ledgerOf(compile(read.value), recording);
}
const partUsed = (ledger: ReturnType<typeof rated>, of: string) =>
  ledger.lines.find((line) => line.of === of && line.quantity === 'torque')?.use ?? Number.NaN;

describe('every ledger', () => {
  it('has the use of a part in inverse proportion to its rating, and that of others as it was', () => {
    fc.assert(
      fc.property(
        name,
        name,
        rating,
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (one, other, torque, factor) => {
          const before = rated({ [one]: torque });
          const after = rated({ [one]: factor * torque });
          // a quotient of the same torque: rounding only
          expect(partUsed(after, one) * factor).toBeCloseTo(partUsed(before, one), 9);
          if (other !== one) expect(partUsed(after, other)).toBe(partUsed(before, other));
        },
      ),
      { numRuns: 40 },
    );
  });

  it('comes sorted, unknown last, with finite figures, and its first to give among what gives', () => {
    fc.assert(
      fc.property(fc.dictionary(name, rating), (ratings) => {
        const { lines } = rated(ratings);
        const uses = lines.map(({ use }) => use ?? Number.NEGATIVE_INFINITY);
        expect(uses).toEqual([...uses].sort((a, b) => b - a));
        for (const { carries, limit, use } of lines)
          for (const figure of [carries, limit ?? 0, use ?? 0]) expect(Number.isFinite(figure)).toBe(true);
        const first = firstToGive(lines);
        expect(first === undefined).toBe(!lines.some(({ gives }) => gives));
        for (const { gives } of lines)
          if (gives) expect(first?.gives?.frame).toBeLessThanOrEqual(gives.frame);
      }),
      { numRuns: 40 },
    );
  });
});

describe('the greatest mass', () => {
  it('rises with the rating of the part that sets it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.25, max: 0.5, noNaN: true }),
        fc.double({ min: 1.03, max: 1.3, noNaN: true }),
        (torque, factor) => {
          const massFor = (stronger: number) => {
            const document = shipped('cairn-6x6-shafts');
            for (const part of document.vehicle.driveline.parts)
              if (part.rating) part.rating = part.kind === 'universal-joint' ? stronger : 20;
            const read = loadScenario(document);
            if (!read.ok) throw new Error(JSON.stringify(read.problems));
            return greatestMass(read.value, layGround(read.value), { stations: 80 }).mass ?? 0;
          };
          expect(massFor(factor * torque)).toBeGreaterThan(massFor(torque));
        },
      ),
      { numRuns: 4 },
    );
  });
});
