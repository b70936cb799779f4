import { describe, expect, it } from 'vitest';
import { problemLine } from '../../../shared/problem.ts';
import { readStock } from '../../../sim/stock/read.ts';
import { stockKinds } from '../../../sim/stock/registry.ts';
import { writtenText } from '../../../sim/stock/stock.ts';
import type { Loose } from '../small-truck.ts';
import { drawer, stocked } from './drawer.ts';

/** What is wrong with the drawer after a change. */
function wrong(change: (stock: Loose) => void): string[] {
  const document = drawer();
  change(document);
  return readStock(document).problems.map(problemLine);
}

describe('a stock list', () => {
  it('is read to SI with counts, and a spread to its middle', () => {
    const [soft] = stocked().lists.springs;
    expect(soft).toMatchObject({ name: 'soft', count: 4, rate: 800, freeLength: 0.06 });
  });

  it('keeps what was written, with its spread', () => {
    expect(writtenText(stocked(), 'springs', 'soft', ['rate'])).toBe('0.8 N/mm ± 5 %');
    expect(writtenText(stocked(), 'springs', 'soft', ['count'])).toBeUndefined();
  });

  it('is read from JSON text too, and text that is none is told with its place', () => {
    expect(readStock(JSON.stringify(drawer())).ok).toBe(true);
    expect(readStock('{ "format": ').problems[0]?.message).toMatch(/line 1/);
  });

  it.each(stockKinds.map((kind) => [kind.list, kind] as const))('takes the sample of %s', (list, kind) => {
    const document = { format: 'axlewright-stock', version: 1, [list]: [kind.sample] };
    expect(readStock(document).problems).toEqual([]);
  });

  it('is refused when nothing is in it', () => {
    expect(
      wrong((s) => {
        for (const { list } of stockKinds) delete s[list];
      })[0],
    ).toMatch(/^is empty/);
  });

  it('is doubtful when all counts are 0', () => {
    const read = readStock({
      format: 'axlewright-stock',
      version: 1,
      dampers: [{ name: 'a', count: 0, bump: 3 }],
    });
    expect(read.ok && read.problems[0]?.message).toMatch(/count of 0 for every part/);
  });

  it('refuses counts below zero and counts that are not whole', () => {
    expect(
      wrong((s) => {
        s.springs[1].count = -1;
      }),
    ).toEqual([expect.stringMatching(/^springs\[1\]\.count: /)]);
    expect(
      wrong((s) => {
        s.springs[1].count = 1.5;
      }),
    ).toEqual([expect.stringMatching(/^springs\[1\]\.count: /)]);
  });

  it('refuses a name that stands twice in a list, but not in two lists', () => {
    expect(
      wrong((s) => {
        s.springs[3].name = 'soft';
      }),
    ).toEqual([
      expect.stringMatching(/^springs\[3\]\.name: is 'soft', which springs\[0\] is called already/),
    ]);
    expect(
      wrong((s) => {
        s.dampers[0].name = 'soft';
      }),
    ).toEqual([]);
  });

  it('refuses a wrong dimension and says which was wanted', () => {
    expect(
      wrong((s) => {
        s.springs[0].rate = '12 N m/rad';
      })[0],
    ).toMatch(/springs\[0\]\.rate: .*a spring rate was wanted/);
  });

  it('tells all problems at once, misspelt fields with what was meant', () => {
    const told = wrong((s) => {
      s.springs[0].freeLenght = s.springs[0].freeLength;
      delete s.springs[0].freeLength;
      s.gears[0].teeth = 2;
      s.bars[0].section.diameter = '2 kg';
    });
    expect(told).toHaveLength(3);
    expect(told.join('\n')).toMatch(/freeLength/);
  });

  it('refuses a spring that is longer pressed than free, and one with rate and wire', () => {
    expect(
      wrong((s) => {
        s.springs[0].solidLength = '70 mm';
      })[0],
    ).toMatch(/solidLength: must be shorter/);
    expect(
      wrong((s) => {
        s.springs[3].rate = 5;
      })[0],
    ).toMatch(/`rate` and `wire`/);
  });

  it('refuses a bar by its section without material or length', () => {
    expect(
      wrong((s) => {
        delete s.bars[0].material;
        delete s.bars[0].lengths;
      }),
    ).toHaveLength(2);
  });

  it.each([
    [[], /is a list, an object was wanted/],
    [{ format: 'axlewright-scenario', version: 1 }, /no stock list/],
    [{ format: 'axlewright-stock', version: 2 }, /newer than this program/],
  ])('refuses %j', (document, message) => {
    expect(problemLine(readStock(document).problems[0] as never)).toMatch(message);
  });
});
