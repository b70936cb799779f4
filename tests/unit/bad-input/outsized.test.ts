/*
 * Files of nonsense within the size that is read: they end, and soon. All but the criteria once filled the stack or
 * compared every name with every other (no end within ten minutes): seen red before the bounds.
 */
import { describe, expect, it } from 'vitest';
import { type Loose, smallTruck } from '../small-truck.ts';
import { spoilt, told } from './told.ts';

const many = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));

describe('a file of nonsense', () => {
  it('with one key written 600,000 times', () => {
    const problems = told(`{${'"a":1,'.repeat(600_000)}"b":1}`);
    expect(problems[0]).toBe('error: a: "a" stands twice in one object (keep one of them)');
    expect(problems.length).toBeLessThanOrEqual(1000);
  });

  it('with 300,000 unknown keys', () => {
    const problems = told(`{${many(300_000, (i) => `"k${i}":1`).join(',')}}`);
    expect(problems).toContain('error: has 299000 more fields that are not known here');
    expect(problems).toContain('error: vehicle: is missing');
  });

  it('with 100,000 members that hang on nothing', () => {
    const problems = spoilt((t) => {
      t.vehicle.members = many(100_000, (i) => ({ name: `m${i}`, kind: 'arm', on: `x${i}` }));
    });
    expect(problems).toContain('error: vehicle.members: has 100,000 entries, must have at most 200');
    expect(problems.length).toBeLessThan(5000);
  });

  it('with 140,000 points that are none', () => {
    const problems = spoilt((t) => {
      t.ground = [{ kind: 'table', points: many(140_000, () => 0) }];
    });
    expect(problems[0]).toContain('has too many mistakes to tell all');
    expect(problems[1]).toMatch(/^error: ground\[0\]\.points\[0\]: is a number, an object was wanted/);
  });

  it('with 100,000 criteria', () => {
    const truck: Loose = smallTruck();
    truck.criteria = many(100_000, () => ({ kind: 'reaches', to: 'x' }));
    expect(told(truck)).toContain('error: criteria: has 100,000 entries, must have at most 100');
  });
});

describe('keys that objects of JavaScript have anyway', () => {
  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    '%s is as unknown as any other',
    (key) => {
      const text = JSON.stringify(smallTruck()).replace(
        '"vehicle":{',
        `"vehicle":{${JSON.stringify(key)}:{"name":1},`,
      );
      expect(told(text)).toEqual([
        expect.stringContaining(`error: vehicle.${key}: is no field that is known here`),
      ]);
      expect(Object.hasOwn(Object.prototype, 'name')).toBe(false);
    },
  );

  it.each(['__proto__', 'constructor', 'toString'])('%s is no kind, unit or body', (word) => {
    expect(spoilt((t) => (t.ground[0].kind = word))[0]).toContain('no kind that is known here');
    expect(spoilt((t) => (t.gravity = `9 ${word}`))[0]).toContain('error: gravity: ');
    expect(spoilt((t) => (t.vehicle.wheels[0].on = word))[0]).toContain(`no member called '${word}'`);
  });
});
