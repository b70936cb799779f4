import { describe, expect, test } from 'vitest';
import type { Path } from '../../../shared/path.ts';
import { eitherAt } from '../../../shared/schema/describe.ts';
import { loadScenario } from '../../../sim/index.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { isObject, type Json, valueAt } from '../../../src/documents/json.ts';
import { addEntry } from '../../../src/edits/add.ts';
import { sayAs, titleOfWay, waysTaken } from '../../../src/edits/either.ts';
import { kindsFor } from '../../../src/edits/sample.ts';
import { documents } from './shipped.ts';

/** A new entry of every kind that says something in one of several ways, in a truck of 55 mm wheels. */
function entries(): readonly { readonly title: string; readonly document: Json; readonly path: Path }[] {
  const [, truck] = documents.find(([name]) => name === '6x6') ?? ['', null];
  const lists: readonly Path[] = [
    ['vehicle', 'elements'],
    ['vehicle', 'driveline', 'parts'],
  ];
  return lists.flatMap((list) =>
    kindsFor(list).flatMap(({ kind }) => {
      const { document, select: path } = addEntry(truck, list, kind);
      return path !== undefined && eitherAt(scenarioDocument, document, path).length > 0
        ? [{ title: kind, document, path }]
        : [];
    }),
  );
}

/** Problems at an entry, besides that it turns nothing yet. */
const problemsAt = (document: Json, path: Path): readonly string[] => {
  const read = loadScenario(document);
  const place = path.reduce<string>(
    (all, step) => (typeof step === 'number' ? `${all}[${step}]` : all === '' ? step : `${all}.${step}`),
    '',
  );
  return read.problems
    .filter((p) => p.severity === 'error' && !p.message.includes('nothing turns') && p.path.startsWith(place))
    .map((p) => p.message);
};

describe('What is said in one of several ways', () => {
  test('is known of springs, bars, blocks and reductions', () => {
    expect(entries().map(({ title }) => title)).toEqual([
      'linear-spring',
      'leaf-spring',
      'rubber-block',
      'torsion-bar',
      'reduction',
      'hub-reduction',
    ]);
  });

  for (const { title, document, path } of entries())
    test(`can be said in each way, of a ${title}: figures are filled in, and nothing is wrong with it`, () => {
      for (const either of eitherAt(scenarioDocument, document, path))
        for (const from of either)
          for (const way of either) {
            const before = sayAs(document, path, either, from).document;
            const after = sayAs(before, path, either, way).document;
            expect(waysTaken(either, valueAt(after, path)).map(titleOfWay)).toEqual([titleOfWay(way)]);
            expect(problemsAt(after, path)).toEqual([]);
          }
    });

  test('is filled in where none or more than one was given, and keeps what was typed', () => {
    const bar = entries().find(({ title }) => title === 'torsion-bar');
    if (bar === undefined) throw new Error('no torsion bar');
    const [either] = eitherAt(scenarioDocument, bar.document, bar.path);
    if (either === undefined) throw new Error('nothing to choose');
    const [rate, section] = either;
    if (rate === undefined || section === undefined) throw new Error('no ways');
    const both = sayAs(bar.document, bar.path, either, section).document;
    const value = valueAt(both, bar.path);
    const twice = { ...(isObject(value) ? value : {}), rate: '7 N m/rad' };
    const put = (json: Json, at: Path, to: Json): Json => {
      const [step, ...rest] = at;
      if (step === undefined) return to;
      if (Array.isArray(json)) return json.map((each, i) => (i === step ? put(each, rest, to) : each));
      const object = json as { readonly [key: string]: Json };
      return { ...object, [step]: put(object[step] ?? null, rest, to) };
    };
    const doubled = put(both, bar.path, twice);
    expect(waysTaken(either, valueAt(doubled, bar.path))).toHaveLength(2);
    const kept = valueAt(sayAs(doubled, bar.path, either, rate).document, bar.path);
    expect(kept).toMatchObject({ rate: '7 N m/rad' });
    expect(kept).not.toHaveProperty('bar');
  });
});
