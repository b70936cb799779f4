import { describe, expect, it } from 'vitest';
import { csv } from '../../../sim/ground/csv.ts';
import { inMm, shapeOf, told as toldBy } from './kinds.ts';

const mm = { stationUnit: 'mm', heightUnit: 'mm' };
const read = (text: string, more: Record<string, unknown> = {}) =>
  inMm(shapeOf(csv, { text, ...mm, ...more }).points);
const told = (text: string, more: Record<string, unknown> = {}) => toldBy(csv, { text, ...mm, ...more });

const path = [
  [0, 0],
  [100.5, 2.25],
  [200, 8],
];

describe('a CSV is read', () => {
  it.each<[how: string, text: string, more?: Record<string, unknown>]>([
    ['with commas and a header', 'station,height\n0,0\n100.5,2.25\n200,8\n'],
    ['without a header', '0,0\n100.5,2.25\n200,8\n'],
    ['without a line end at its end', '0,0\n100.5,2.25\n200,8'],
    ['with semicolons and decimal commas', 'Station;Höhe\n0;0\n100,5;2,25\n200;8\n'],
    ['with semicolons and decimal points', '0;0\n100.5;2.25\n200;8\n'],
    ['with tabs', 'x\tz\n0\t0\n100.5\t2.25\n200\t8\n'],
    ['with tabs and decimal commas', '0\t0\n100,5\t2,25\n200\t8\n'],
    ['with quotes around decimal commas', '"0","0"\n"100,5","2,25"\n"200","8"\n', { decimal: 'comma' }],
    ['with line ends of Windows', 'station,height\r\n0,0\r\n100.5,2.25\r\n200,8\r\n'],
    ['with line ends of old Macs', '0,0\r100.5,2.25\r200,8\r'],
    ['with a byte order mark', '\uFEFF0,0\n100.5,2.25\n200,8\n'],
    ['with spaces around figures', ' 0 , 0\n 100.5,  2.25\n 200 ,8 \n'],
    [
      'with remarks and blank lines at its ends',
      '\n# measured, on a Tuesday\n0,0\n100.5,2.25\n# more\n200,8\n\n\n',
    ],
    ['with exponents and signs', '+0,-0\n1.005e2,.225e1\n2E2,8.\n'],
  ])('%s', (_how, text, more = {}) => {
    expect(told(text, more)).toEqual([]);
    expect(read(text, more)).toEqual(path);
  });

  it('in the units that the document states', () => {
    expect(read('0,0\n1,25\n2,0\n', { stationUnit: 'm', heightUnit: 'mm' })).toEqual([
      [0, 0],
      [1000, 25],
      [2000, 0],
    ]);
    expect(read('0,0\n1,1\n', { stationUnit: 'ft', heightUnit: 'in' })).toEqual([
      [0, 0],
      [304.8, 25.4],
    ]);
  });

  it('only with units', () => {
    expect(csv.fields.safeParse({ text: '0,0\n1,1' }).success).toBe(false);
    expect(csv.fields.safeParse({ text: '0,0\n1,1', ...mm, heightUnit: 'cubit' }).success).toBe(false);
  });

  it('from columns by number or by name', () => {
    const text = 'time,height,note,station\n0,5,a,100\n1,6,b,200\n';
    expect(read(text, { stationColumn: 4, heightColumn: 2 })).toEqual([
      [0, 0],
      [100, 1],
    ]);
    expect(read(text, { stationColumn: 'Station', heightColumn: 'HEIGHT' })).toEqual([
      [0, 0],
      [100, 1],
    ]);
  });

  it('with its first point laid where the piece begins', () => {
    expect(read('500,20\n600,25\n')).toEqual([
      [0, 0],
      [100, 5],
    ]);
  });

  it('with two heights at one station as a vertical face', () => {
    expect(read('0,0\n100,0\n100,30\n200,30\n')).toEqual([
      [0, 0],
      [100, 0],
      [100, 30],
      [200, 30],
    ]);
  });

  it('from a file beside the document', () => {
    const source = { file: (name: string) => (name === 'lane.csv' ? '0,0\n100,5\n' : undefined) };
    expect(inMm(shapeOf(csv, { file: 'lane.csv', ...mm }, source).points)).toEqual([
      [0, 0],
      [100, 5],
    ]);
    expect(toldBy(csv, { file: 'lain.csv', ...mm }, source)[0]).toMatch(
      /^file: there is no file 'lain\.csv' here/,
    );
  });
});

describe('what is wrong with a CSV is told by line', () => {
  it('stations that go back', () => {
    expect(told('station,height\n0,0\n10,0\n5,0\n20,0\n15,1\n')).toEqual([
      'text, line 4: the station goes back from 10 to 5 (put the lines in order of their stations)',
      'text, line 6: the station goes back from 20 to 15 (put the lines in order of their stations)',
    ]);
  });

  it('things that are not numbers', () => {
    expect(told('0,0\n10,abc\n20,NaN\n30,Infinity\n40,0x10\n')).toEqual([
      "text, line 2: 'abc' is not a number (height) (write a number)",
      "text, line 3: 'NaN' is not a number (height) (write a number)",
      "text, line 4: 'Infinity' is not a number (height) (write a number)",
      "text, line 5: '0x10' is not a number (height) (write a number)",
    ]);
  });

  it('units inside cells', () => {
    expect(told('0,0\n10,5 mm\n')[0]).toMatch(
      /^text, line 2: '5 mm' is not a number \(height\) \(write numbers alone/,
    );
  });

  it('the other decimal sign, and thousands signs', () => {
    expect(told('0;0\n1,5;2\n2.5;3\n')[0]).toMatch(
      /^text, line 3: '2\.5' is not a number .*the decimal sign here is a comma/,
    );
    expect(told('0;0\n1.000,5;2\n')[0]).toMatch(
      /^text, line 2: '1\.000,5' is not a number .* thousands signs aren't read/,
    );
  });

  it('empty cells and lines that are too short', () => {
    expect(told('0,0\n10,\n,5\n20\n')).toEqual([
      'text, line 2: the height is empty (fill it in, or take the line out)',
      'text, line 3: the station is empty (fill it in, or take the line out)',
      'text, line 4: has no column 2 (height) (it has 1)',
    ]);
  });

  it('blank lines between others, as a warning', () => {
    const { points, problems } = shapeOf(csv, { text: '0,0\n\n\n10,1\n', ...mm });
    expect(points).toHaveLength(2);
    expect(problems).toEqual([expect.objectContaining({ path: 'text, line 2', severity: 'warning' })]);
  });

  it('holes in an even spacing, as a warning', () => {
    const text = Array.from({ length: 40 }, (_, i) => `${i * 10},0`)
      .filter((_, i) => i < 20 || i > 22)
      .join('\n');
    const { points, problems } = shapeOf(csv, { text, ...mm });
    expect(points).toHaveLength(37);
    expect(problems).toEqual([
      expect.objectContaining({
        path: 'text, line 21',
        message: 'there is a gap before station 230: the other points are 10 apart',
        severity: 'warning',
      }),
    ]);
  });

  it('but no holes where points were picked by hand', () => {
    expect(told('0,0\n5,1\n50,2\n52,8\n300,0\n310,1\n315,2\n500,3\n501,4\n700,2\n900,0\n1000,0\n')).toEqual(
      [],
    );
  });

  it('a quote that is not closed on its line', () => {
    expect(told('0,0\n"10,5\n20,1\n')[0]).toMatch(/^text, line 2: a quote is opened here/);
  });

  it('columns that are not there', () => {
    expect(told('x,z\n0,0\n1,1\n', { heightColumn: 'height' })).toEqual([
      "heightColumn: there is no column 'height' (the first line has: x, z)",
    ]);
    expect(told('0,0\n1,1\n', { heightColumn: 3 })[0]).toBe(
      'text, line 1: has no column 3 (height) (it has 2)',
    );
  });

  it('decimal commas that may have been taken for separators, as a warning', () => {
    expect(told('0,0,0,0\n100,5,2,25\n')[0]).toMatch(
      /^text, line 1: has 4 columns; the first is read as station/,
    );
  });

  it('too few points', () => {
    expect(told('')).toEqual(['text: has no points; a profile needs two']);
    expect(told('station,height\n')).toEqual(['text: has no points; a profile needs two']);
    expect(told('1,2\n')).toEqual(['text: has one point; a profile needs two']);
  });

  it('too many points', () => {
    const text = Array.from({ length: 300_000 }, (_, i) => `${i},0`).join('\n');
    expect(told(text)).toEqual([
      'text: makes a ground of 300,000 points; at most 200,000 are allowed (thin it out or cut it into shorter pieces)',
    ]);
  });

  it('figures too large to be a ground', () => {
    expect(told('0,0\n1e308,0\n')[0]).toMatch(/^text, line 2: the station 1e308 is too large/);
    expect(told('0,0\n5000,0\n', { stationUnit: 'km' })[0]).toMatch(
      /^text: is 5000 km long, more than 1000 km \(check 'stationUnit'\)/,
    );
  });

  it('twenty at most, the rest counted', () => {
    const lines = told(
      Array.from({ length: 100 }, () => 'a,b')
        .join('\n')
        .replace('a,b', '0,0'),
    );
    expect(lines).toHaveLength(21);
    expect(lines[20]).toBe('text: has 178 more problems like these');
  });

  it('a file without a text, or both', () => {
    expect(toldBy(csv, mm)[0]).toMatch(/^has neither a file nor a text/);
    expect(toldBy(csv, { ...mm, file: 'a', text: 'b' })[0]).toMatch(/^text: stands beside a file/);
  });
});
