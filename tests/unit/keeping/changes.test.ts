import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Json } from '../../../src/documents/json.ts';
import { changesBetween, sharing, withChanges } from '../../../src/keeping/changes.ts';

const documents = fc.jsonValue({ maxDepth: 4 }) as fc.Arbitrary<Json>;
const text = (document: Json) => JSON.stringify(document);

describe('the changes between two documents', () => {
  it('make either out of the other, down to the order of keys', () => {
    fc.assert(
      fc.property(documents, documents, (a, b) => {
        expect(text(withChanges(a, changesBetween(a, b)))).toBe(text(b));
        expect(text(withChanges(b, changesBetween(b, a)))).toBe(text(a));
      }),
    );
  });

  it('are none between equal documents that share nothing, once one is made to share', () => {
    fc.assert(
      fc.property(documents, (a) => {
        const copy = JSON.parse(text(a)) as Json;
        expect(sharing(a, copy) === a).toBe(true);
      }),
    );
  });

  it('put a key back where it stood', () => {
    const before = { a: 1, b: 2, c: 3 };
    const after = { a: 1, c: 3 };
    expect(text(withChanges(after, changesBetween(after, before)))).toBe('{"a":1,"b":2,"c":3}');
  });

  it('carry one entry, not the whole list, when one is put into a long list', () => {
    const points = Array.from({ length: 2000 }, (_, x) => ({ x }));
    const more = [...points.slice(0, 700), { x: 0.5 }, ...points.slice(700)];
    expect(changesBetween({ points }, { points: more })).toEqual([
      ['splice', ['points'], 700, 0, [{ x: 0.5 }]],
    ]);
  });

  it('are refused by a document that they do not belong to', () => {
    const changes = changesBetween({ a: [{ b: 1 }] }, { a: [{ b: 2 }] });
    expect(() => withChanges({ a: [] }, changes)).toThrow(/does not fit/);
    expect(() => withChanges({}, changes)).toThrow(/does not fit/);
  });

  it('treat keys that objects inherit as any other', () => {
    const odd = JSON.parse('{"__proto__": {"polluted": 1}, "constructor": 2}') as Json;
    const next = withChanges({}, changesBetween({}, odd));
    expect(text(next)).toBe(text(odd));
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });
});
