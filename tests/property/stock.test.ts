import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shortages, stockKnob } from '../../sim/stock/knob.ts';
import { readStock } from '../../sim/stock/read.ts';
import { readStockTable } from '../../sim/stock/table.ts';
import { stocked, truckFor } from '../unit/stock/drawer.ts';

const scenario = truckFor();

describe('parts from stock', () => {
  it('are short exactly where all knobs together take more than there are', () => {
    const counts = fc.array(fc.nat({ max: 6 }), { minLength: 4, maxLength: 4 });
    const picks = fc.tuple(fc.nat(), fc.nat());
    fc.assert(
      fc.property(counts, picks, (there, picked) => {
        const stock = stocked((s) =>
          there.forEach((count, i) => {
            s.springs[i].count = count;
          }),
        );
        const knobs = [0, 1].flatMap((i) => {
          const knob = stockKnob(stock, 'springs', [['vehicle', 'elements', i]], scenario);
          return knob.ok ? [knob.value] : [];
        });
        const chosen = knobs.map(({ options }, k) => (picked[k] as number) % options.length);
        const taken = new Map<string, number>();
        knobs.forEach(({ options }, k) => {
          for (const { item, count } of options[chosen[k] as number]?.takes ?? [])
            taken.set(item, (taken.get(item) ?? 0) + count);
        });
        const enough = stock.lists.springs.every(({ name, count }) => (taken.get(name) ?? 0) <= count);
        expect(shortages(stock, knobs, chosen).length === 0).toBe(enough);
        // No knob by itself offers what there is not.
        for (const { options } of knobs)
          for (const { takes } of options)
            for (const { item, count } of takes)
              expect(stock.lists.springs.find(({ name }) => name === item)?.count).toBeGreaterThanOrEqual(
                count,
              );
      }),
      { numRuns: 100 },
    );
  });
});

describe('reading a stock list', () => {
  it('never throws, whatever it is given', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => void readStock(value)),
      { numRuns: 200 },
    );
    const cell = fc.oneof(
      fc.constantFrom('name', 'rate [N/mm]', 'list', 'springs', '1.2 ± 5 %', '"', '-3', ''),
      fc.string(),
    );
    const sign = fc.constantFrom(',', ';', '\t', '\n');
    const text = fc.array(fc.tuple(cell, sign), { maxLength: 40 }).map((cells) => cells.flat().join(''));
    fc.assert(
      fc.property(text, (table) => void readStockTable(table)),
      { numRuns: 300 },
    );
  });

  it('gives the same springs from a table as from a document', () => {
    const spring = fc.record({
      count: fc.integer({ min: 0, max: 99 }),
      rate: fc.integer({ min: 1, max: 9999 }),
      free: fc.integer({ min: 50, max: 99 }),
    });
    fc.assert(
      fc.property(fc.array(spring, { minLength: 1, maxLength: 8 }), (springs) => {
        const table = springs.map(({ count, rate, free }, i) => `s${i};${count};${rate / 1000};${free}`);
        const read = readStockTable(
          `name;count;rate [N/mm];free length [mm]\n${table.join('\n')}`,
          'springs',
        );
        const document = readStock({
          format: 'axlewright-stock',
          version: 1,
          springs: springs.map(({ count, rate, free }, i) => ({
            name: `s${i}`,
            count,
            rate: `${rate / 1000} N/mm`,
            freeLength: `${free} mm`,
          })),
        });
        expect(read.ok && read.value.lists).toEqual(document.ok && document.value.lists);
      }),
      { numRuns: 100 },
    );
  });
});
