import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { keysAt, kindsOf, optionsOf, shapeOf } from '../../../shared/schema/describe.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { beginning, itemOf, nextItem, schemaOf, wayOf, waysOf } from '../../../src/build/fieldShape.ts';
import { addables } from '../../../src/build/kinds.ts';
import { namesFor } from '../../../src/build/names.ts';
import { pitchOf } from '../../../src/build/pitch.ts';
import { whyBroken } from '../../../src/build/useBroken.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { entryLists } from '../../../src/edits/lists.ts';

const document = corrie as unknown as Json;
const bar = ['vehicle', 'elements', 2];
const names = (path: readonly (string | number)[]) => namesFor(document, path);

describe('a place that may be filled in several ways', () => {
  it('is told apart by what its ways need', () => {
    const schema = schemaOf(document, [...bar, 'on']);
    const ways = schema === undefined ? undefined : waysOf(schema);
    expect(ways?.map(({ title }) => title)).toEqual(['member', 'from and to']);
    expect(schema && ways && wayOf(ways, schema, { member: 'middle-arm' })).toBe(0);
  });

  it('is none where there are kinds, figures or plain values', () => {
    for (const path of [
      [...bar, 'preload'],
      [...bar, 'bar', 'section'],
      ['vehicle', 'wheels', 0, 'count'],
    ]) {
      const schema = schemaOf(document, path);
      expect(schema).toBeDefined();
      expect(schema && waysOf(schema)).toBeUndefined();
    }
  });
});

describe('what a place begins with', () => {
  it('is what the schema takes, for every field that can be left out of any entry of the flagship', () => {
    const entries = [
      ...['members', 'elements', 'wheels', 'masses'].flatMap((list) =>
        ((valueAt(document, ['vehicle', list]) as readonly Json[]) ?? []).map((_, i) => ['vehicle', list, i]),
      ),
      ['vehicle'],
      ['vehicle', 'drive'],
      ['run'],
    ];
    const refused = entries.flatMap((entry) =>
      keysAt(scenarioDocument, document, entry).flatMap((key) => {
        const path = [...entry, key];
        const schema = schemaOf(document, path);
        if (schema === undefined || valueAt(document, path) !== undefined) return [];
        const begun = beginning(schema, path, names);
        const read = schema.safeParse(begun);
        return read.success
          ? []
          : [`${path.join('.')}: ${JSON.stringify(begun)} ${read.error.issues[0]?.message}`];
      }),
    );
    expect(refused).toEqual([]);
  });

  it('is what the schema takes, for every section of a bar', () => {
    const section = schemaOf(document, [...bar, 'bar', 'section']);
    const options = section === undefined ? [] : optionsOf(section);
    expect(options.length).toBeGreaterThan(3);
    const shapes = options.map((option) => beginning(option, [...bar, 'bar', 'section'], names));
    expect(shapes.map((shape) => (shape as { shape?: string }).shape)).toContain('tube');
    for (const shape of shapes) expect(Object.keys(shape as object).length).toBeGreaterThan(1);
  });

  it('has two lines where a table needs them', () => {
    const item = itemOf(document, ['vehicle', 'elements']);
    const spring = item && optionsOf(item).find((each) => shapeOf(each)?.table !== undefined);
    const begun = spring && beginning(spring, ['vehicle', 'elements', 0], names);
    expect((begun as { table: readonly unknown[] }).table).toHaveLength(2);
  });

  it('of a list of points is a point beside the last one', () => {
    const outline = ['vehicle', 'bodywork', 'outlines', 0, 'points'];
    expect(Object.keys(shapeOf(itemOf(document, outline) ?? scenarioDocument) ?? {})).toEqual(['x', 'z']);
    expect(nextItem(document, outline, names)).toEqual({ x: '-455 mm', z: '116 mm' });
  });
});

describe('names to choose from', () => {
  it('are those that exist, with the chassis where a body may be named', () => {
    expect(namesFor(document, [...bar, 'on', 'member'])).not.toContain('chassis');
    expect(namesFor(document, [...bar, 'on', 'member'])).toContain('middle-arm');
    expect(namesFor(document, ['vehicle', 'wheels', 0, 'on'])?.slice(0, 2)).toEqual([
      'chassis',
      'front-axle',
    ]);
    expect(namesFor(document, ['vehicle', 'drive', 'driven', 0])).toEqual(['front', 'middle', 'rear']);
  });

  it('leave a member itself out', () => {
    expect(namesFor(document, ['vehicle', 'members', 1, 'on'])).not.toContain('middle-arm');
  });

  it('are none where any text may stand', () => {
    expect(namesFor(document, ['vehicle', 'members', 1, 'name'])).toBeUndefined();
    expect(namesFor(document, ['title'])).toBeUndefined();
  });
});

describe('what can be added', () => {
  const groups = addables(document);

  it('is every kind of every list, with its title', () => {
    for (const { path } of entryLists) {
      const item = itemOf(document, path);
      const kinds = item === undefined ? undefined : kindsOf(item)?.names;
      const items = groups.flatMap((group) => group.items).filter(({ list }) => list?.join() === path.join());
      expect(items).toHaveLength(kinds?.length ?? 1);
    }
    expect(groups.flatMap(({ items }) => items).every(({ title }) => title !== '')).toBe(true);
  });

  it('begins with whole axles', () => {
    expect(groups[0]?.items.map(({ title }) => title)).toContain('Bogie with two axles');
  });
});

describe('a pitch', () => {
  it('is a length that is typed, in millimetres without a unit; nothing for none', () => {
    expect(pitchOf('8')).toBeCloseTo(0.008, 12);
    expect(pitchOf('1/2 in')).toBeCloseTo(0.0127, 12);
    for (const text of ['', ' ', '0', '-3', '5 kg', '90 km']) expect(pitchOf(text)).toBeUndefined();
  });
});

describe('why a vehicle is broken', () => {
  const idle = { kind: 'idle' } as const;
  const problem = (path: string, message: string, severity: 'error' | 'warning' = 'error') => ({
    path,
    message,
    severity,
  });

  it('is told first of the entry in hand', () => {
    const problems = [problem('vehicle.wheels[0]', 'far'), problem('vehicle.members[1].end', 'near')];
    expect(whyBroken({ problems, phase: idle }, ['vehicle', 'members', 1])).toBe('near');
    expect(whyBroken({ problems, phase: idle }, undefined)).toBe('far');
  });

  it('is told of the solver where the document is in order, and not of warnings', () => {
    const problems = [problem('vehicle', 'doubtful', 'warning')];
    expect(whyBroken({ problems, phase: idle }, undefined)).toBeUndefined();
    expect(whyBroken({ problems, phase: { kind: 'failed', message: 'tips over' } }, undefined)).toBe(
      'tips over',
    );
  });
});
