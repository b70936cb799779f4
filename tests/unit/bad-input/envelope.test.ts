import { describe, expect, it } from 'vitest';
import { type Loose, smallTruck } from '../small-truck.ts';
import { spoilt, told } from './told.ts';

describe('a value that is no scenario', () => {
  it.each<[unknown, string]>([
    ['[]', 'error: is a list, an object was wanted'],
    ['null', 'error: is null, an object was wanted'],
    ['"truck"', 'error: is text, an object was wanted'],
    [5, 'error: is a number, an object was wanted'],
    [undefined, 'error: is nothing that JSON knows, an object was wanted'],
  ])('%j', (input, says) => {
    expect(told(input)[0]).toContain(says);
  });

  it('that hangs in itself is too deep', () => {
    const circle: Loose = smallTruck();
    circle.vehicle.self = circle;
    expect(told(circle)).toEqual(['error: is nested deeper than 40 levels, or is too large']);
  });

  it('of another format is told by its format alone', () => {
    expect(
      spoilt((t) => {
        t.format = 'something else';
      }),
    ).toEqual([
      'error: format: is "something else", not "axlewright-scenario" (this is no scenario of this program)',
    ]);
  });

  it('of a newer version is refused in one line, whatever else it holds', () => {
    expect(
      spoilt((t) => {
        t.version = 2;
        t.vehicle = { hover: true };
      }),
    ).toEqual([
      'error: version: is 2, newer than this program, which reads up to version 1 (update the program, or save the scenario in the older version)',
    ]);
  });

  it.each<[string, unknown, string]>([
    ['text', '1', 'error: version: is "1", must be 1'],
    ['a fraction', 0.5, 'error: version: is 0.5, must be 1'],
    ['below all', -1, 'error: version: is -1, must be 1'],
    ['absent', undefined, 'error: version: is missing'],
  ])('with a version that is %s', (_, version, says) => {
    expect(
      spoilt((t) => {
        t.version = version;
      }),
    ).toEqual([says]);
  });
});
