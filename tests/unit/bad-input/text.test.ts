import { describe, expect, it } from 'vitest';
import { smallTruck } from '../small-truck.ts';
import { told } from './told.ts';

describe('a text that is no JSON', () => {
  it.each<[string, string, RegExp]>([
    ['an empty file', '', /^error: is empty \(a scenario begins with/],
    ['a file of blanks', ' \n\t\n', /^error: is empty/],
    [
      'a truncated file',
      JSON.stringify(smallTruck(), null, 2).slice(0, 300),
      /^error: line \d+, column \d+: the file ends .* \(the file looks cut off\)$/,
    ],
    [
      'a file cut off in a text',
      '{\n  "format": "axlewr',
      /^error: line 2, column 20: the file ends inside a text that begins at line 2, column 13/,
    ],
    ['5 MB of brackets', '['.repeat(4_999_999), /^error: line 1, column 41: is nested deeper than 40 levels/],
    ['6 MB of brackets', '['.repeat(6_000_000), /^error: is larger than 5 MB/],
    ['2.6 million letters of two bytes', `"${'é'.repeat(2_600_000)}"`, /^error: is larger than 5 MB/],
    ['nested objects', `${'{"a":'.repeat(41)}1${'}'.repeat(41)}`, /nested deeper than 40 levels/],
    [
      'NaN',
      '{ "gravity": NaN }',
      /^error: line 1, column 14: 'NaN' stands where a value was wanted \(JSON has only finite numbers\)/,
    ],
    ['-Infinity', '[-Infinity]', /JSON has only finite numbers/],
    ['a trailing comma', '{ "a": 1, }', /^error: line 1, column 11: '}' stands behind a comma/],
    [
      'a missing comma',
      '{ "a": 1\n "b": 2 }',
      /^error: line 2, column 2: .* \(a comma is missing before it\)/,
    ],
    ['a missing colon', '{ "a" 1 }', /a colon was wanted/],
    ['single quotes', "{ 'a': 1 }", /JSON has double quotes only/],
    ['a bare key', '{ a: 1 }', /texts stand in double quotes: "a"/],
    [
      'a bare figure with a unit',
      '{ "radius": 45 mm }',
      /a figure with a unit stands in double quotes: "45 mm"/,
    ],
    ['a comment', '// truck\n{}', /JSON has no comments/],
    ['a word', 'truck', /texts stand in double quotes/],
    ['a second document', '{} {}', /the end of the file was wanted/],
    ['a line break in a text', '{ "title": "a\nb" }', /a text goes on past the end of its line/],
    ['a lone backslash', '{ "title": "a\\qb" }', /a backslash that means nothing/],
    ['a leading zero', '{ "gravity": 09 }', /a number in JSON is written like 0.5/],
    ['a stray bracket', ']', /']' stands where a value was wanted/],
  ])('%s gives one problem with its place', (_, text, says) => {
    const lines = told(text);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(says);
  });

  it('counts lines and columns from one', () => {
    expect(told('{\n  "a": 1,\n  "b": x\n}')[0]).toContain('line 3, column 8:');
  });

  it('tells of keys that stand twice, each at its path', () => {
    expect(
      told('{ "title": "a", "title": "b", "vehicle": { "wheels": [{ "name": "a", "name": "b" }] } }'),
    ).toEqual([
      'error: title: "title" stands twice in one object (keep one of them)',
      'error: vehicle.wheels[0].name: "name" stands twice in one object (keep one of them)',
    ]);
  });

  it('takes a byte order mark as nothing', () => {
    expect(told(`\uFEFF${JSON.stringify(smallTruck())}`)).toEqual(['reads']);
  });
});
