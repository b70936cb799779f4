import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Json, withoutValue, withValue } from '../../../src/documents/json.ts';
import { patchText } from '../../../src/documents/patch.ts';

const text = `{
  "title": "A \\"quoted\\" title, with [brackets] and {braces}",
  "wheels": [ { "name": "front", "radius": "55 mm" },
              { "name": "rear",  "radius": 0.055 } ],
  "run": {},
  "drive": {
    "speed": "0.2 m/s"
  }
}
`;
const before = JSON.parse(text) as Json;

describe('writing an edited document back into its text', () => {
  it('gives the very same text when nothing was edited', () => {
    expect(patchText(text, before, before)).toBe(text);
    const edited = withValue(before, ['drive', 'speed'], '1 m/s');
    expect(patchText(text, before, withValue(edited, ['drive', 'speed'], '0.2 m/s'))).toBe(text);
  });

  it('touches only the figure that changed', () => {
    const after = withValue(before, ['wheels', 1, 'radius'], '60 mm');
    expect(patchText(text, before, after)).toBe(text.replace('0.055', '"60 mm"'));
  });

  it('takes several edits at once, whatever their order', () => {
    const one = withValue(before, ['drive', 'speed'], '0.25 m/s');
    const after = withValue(one, ['wheels', 0, 'radius'], '5 mm');
    const wanted = text.replace('0.2 m/s', '0.25 m/s').replace('55 mm', '5 mm');
    expect(patchText(text, before, after)).toBe(wanted);
  });

  it('adds a key on a line of its own where the others have one, and beside them where they share one', () => {
    const own = withValue(before, ['drive', 'acceleration'], '0.3 m/s^2');
    expect(patchText(text, before, own)).toContain(
      '"speed": "0.2 m/s",\n    "acceleration": "0.3 m/s^2"\n  }',
    );
    const shared = withValue(before, ['wheels', 0, 'width'], '40 mm');
    expect(patchText(text, before, shared)).toContain('"radius": "55 mm", "width": "40 mm" },');
    const empty = withValue(before, ['run', 'frames'], 120);
    expect(patchText(text, before, empty)).toContain('"run": { "frames": 120 },');
  });

  it('leaves a key out', () => {
    const after = withoutValue(before, ['wheels', 0, 'radius']);
    expect(JSON.parse(patchText(text, before, after))).toEqual(after);
  });

  it('keeps a byte order mark and odd line ends', () => {
    const odd = `\uFEFF{\r\n\t"a" : 1 ,\r\n\t"b":[1,2]\r\n}`;
    const parsed = JSON.parse(odd.slice(1)) as Json;
    expect(patchText(odd, parsed, withValue(parsed, ['b', 1], 3))).toBe(odd.replace('[1,2]', '[1,3]'));
  });

  it('finds its way through any JSON', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.integer({ min: 0, max: 4 }), fc.integer(), (value, indent, figure) => {
        const document = { first: 1, value, last: 2 } as unknown as Json;
        const written = JSON.stringify(document, null, indent);
        const parsed = JSON.parse(written) as Json;
        const after = withValue(withValue(parsed, ['first'], figure), ['last'], `${figure} mm`);
        expect(JSON.parse(patchText(written, parsed, after))).toEqual(JSON.parse(JSON.stringify(after)));
      }),
    );
  });

  it('takes an entry out of a list and puts one in, and leaves the others as they stand', () => {
    const [front, rear] = (before as { wheels: Json[] }).wheels as [Json, Json];
    const first = withValue(before, ['wheels'], [front]);
    expect(patchText(text, before, first)).toContain('"wheels": [ { "name": "front", "radius": "55 mm" } ],');
    const last = withValue(before, ['wheels'], [rear]);
    expect(patchText(text, before, last)).toContain('"wheels": [ { "name": "rear",  "radius": 0.055 } ],');
    const none = withValue(before, ['wheels'], []);
    expect(patchText(text, before, none)).toContain('"wheels": [],');
    const middle = { name: 'middle', radius: '50 mm' };
    const three = withValue(before, ['wheels'], [front, middle, rear]);
    expect(patchText(text, before, three)).toBe(
      text.replace(
        '},\n              {',
        '},\n              { "name": "middle", "radius": "50 mm" },\n              {',
      ),
    );
    const front2 = withValue(before, ['wheels'], [middle, front, rear]);
    expect(patchText(text, before, front2)).toContain(
      '[ { "name": "middle", "radius": "50 mm" },\n              { "name": "front", "radius": "55 mm" },',
    );
  });

  it('turns any document into any other, however entries come and go', () => {
    // lists and objects of few different values, so that heads and tails often are the same
    const leaf = fc.constantFrom<Json>(1, 'a', null, true);
    const { json } = fc.letrec<{ json: Json }>((tie) => ({
      json: fc.oneof(
        { maxDepth: 4 },
        leaf,
        fc.array(tie('json'), { maxLength: 5 }),
        fc.dictionary(fc.constantFrom('x', 'y', 'z', '1', '__proto__'), tie('json'), {
          noNullPrototype: true,
        }),
      ),
    }));
    fc.assert(
      fc.property(json, json, fc.constantFrom(undefined, 1, '\t'), (from, to, indent) => {
        const whole = JSON.stringify(from, null, indent);
        const source = JSON.parse(whole) as Json;
        expect(JSON.stringify(sorted(JSON.parse(patchText(whole, source, to))))).toBe(
          JSON.stringify(sorted(to)),
        );
      }),
      { numRuns: 3000 },
    );
  });
});

/** With keys in order, as an object says the same in any. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, each]) => [key, sorted(each)]);
}
