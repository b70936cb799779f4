import { describe, expect, it } from 'vitest';
import { problemLine } from '../../../shared/problem.ts';
import { writtenText } from '../../../sim/stock/stock.ts';
import { readStockTable } from '../../../sim/stock/table.ts';

const springs = `# measured on the kitchen scale
name,count,rate [N/mm],free length [mm],solid length [mm],note
blue,4,1.2 ± 5 %,62,31,from the box
red,2,0.9 .. 1.1,58 mm,,
green,1,1500 N/m,6 cm,30,"long, thin"
`;

/** What is wrong with a table. */
const wrong = (text: string, list?: 'springs'): string[] =>
  readStockTable(text, list).problems.map(problemLine);

describe('a table of springs', () => {
  const read = readStockTable(springs, 'springs');

  it('is read with the units in its head, and with those in cells', () => {
    expect(read.problems).toEqual([]);
    expect(read.ok && read.value.lists.springs.map(({ rate }) => rate)).toEqual([1200, 1000, 1500]);
    expect(read.ok && read.value.lists.springs.map(({ freeLength }) => freeLength)).toEqual([
      0.062, 0.058, 0.06,
    ]);
    expect(read.ok && read.value.lists.springs[2]?.note).toBe('long, thin');
  });

  it('keeps spreads', () => {
    expect(read.ok && writtenText(read.value, 'springs', 'blue', ['rate'])).toBe('1.2 N/mm ± 5 %');
    expect(read.ok && writtenText(read.value, 'springs', 'red', ['rate'])).toBe('0.9 .. 1.1 N/mm');
  });

  it('may have semicolons and decimal commas', () => {
    const german = springs.replaceAll(',', ';').replaceAll('1.2', '1,2').replace('"long; thin"', 'long');
    const other = readStockTable(german, 'springs');
    expect(other.ok && other.value.lists.springs[0]?.rate).toBe(1200);
  });

  it('tells a missing column with the line of the head', () => {
    expect(wrong('name,count\nblue,4\n', 'springs')[0]).toMatch(/^line 2: needs `rate` or `wire`/);
    expect(wrong('count,rate [N/mm]\n4,1\n', 'springs')).toEqual([
      expect.stringMatching(/^line 1: there is no column 'name'/),
    ]);
  });

  it('tells problems by line and column', () => {
    const told = wrong(
      'name,count,rate [N/mm],free length\nblue,-4,1,62 mm\nblue,2,1,62 kg\ngreen,two,x,62 mm\nred,1,1,62\n',
      'springs',
    );
    expect(told.map((line) => line.replace(/: .*/, '')).sort()).toEqual([
      'line 2, count',
      'line 3, free length',
      'line 3, name',
      'line 4, count',
      'line 4, rate',
      'line 5, free length',
    ]);
    expect(told.find((line) => line.startsWith('line 3, name'))).toMatch(
      /'blue', which line 2 is called already/,
    );
  });

  it('tells unknown columns with what may be meant, and columns that stand twice', () => {
    expect(wrong('name,rte [N/mm]\nblue,1\n', 'springs')[0]).toMatch(
      /^line 1: nobody knows what the column 'rte' is.*"rate"/,
    );
    expect(wrong('name,rate,rate\nblue,1 N/m,1 N/m\n', 'springs')[0]).toMatch(
      /^line 1: has two columns 'rate'/,
    );
  });

  it('tells lines with too many cells: decimal commas among commas', () => {
    expect(wrong('name,rate [N/mm]\nblue,1,2\n', 'springs')[0]).toMatch(/^line 2: has 3 cells.*point/);
  });

  it('tells an empty table and a quote without its end', () => {
    expect(wrong('\n\n', 'springs')[0]).toMatch(/is empty/);
    expect(wrong('name,rate [N/mm]\n', 'springs')[0]).toMatch(/is empty/);
    expect(wrong('name,rate [N/mm]\n"blue,1\nred,2\n', 'springs')[0]).toMatch(/^line 2: a quote/);
  });
});

describe('a table of several lists', () => {
  it('is told apart by a column', () => {
    const read = readStockTable(
      'list;name;count;teeth;diameter [mm];shape;material;length [mm];rating\n' +
        'gear;g12;3;12;;;;;0.3 N m\n' +
        'torsion bar;rod;4;;2;round;spring-steel;80|96;\n',
    );
    expect(read.problems).toEqual([]);
    expect(read.ok && read.value.lists.gears[0]).toMatchObject({ teeth: 12, rating: 0.3 });
    expect(read.ok && read.value.lists.bars[0]).toMatchObject({
      section: { shape: 'round', diameter: 0.002 },
      lengths: [0.08, 0.096],
    });
  });

  it('needs that column where no list is given, and known words in it', () => {
    expect(wrong('name,rate\nblue,1 N/m\n')[0]).toMatch(/^line 1: has no column 'list'/);
    expect(wrong('list,name,rate\nsprngs,blue,1 N/m\n')[0]).toMatch(
      /^line 2: 'sprngs' is no list of parts.*springs/,
    );
  });
});
