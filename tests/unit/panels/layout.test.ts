import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { pathText } from '../../../shared/path.ts';
import { type Json, withValue } from '../../../src/documents/json.ts';
import { formOf, found, type Group, sameForm } from '../../../src/panels/fields/layout.ts';

const FOLDER = fileURLToPath(new URL('../../../scenarios', import.meta.url));
const scenario = (name: string) => JSON.parse(readFileSync(join(FOLDER, name), 'utf8')) as Json;
const names = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));

const pathsOf = (groups: readonly Group[]) =>
  groups.flatMap(({ blocks }) =>
    blocks.flatMap(({ rows }) => rows.flatMap(({ fields }) => fields.map(({ path }) => pathText(path)))),
  );

/** Every figure that stands in a part of the document, by its path. */
function figuresIn(value: unknown, path: string): string[] {
  if (typeof value === 'number') return [path];
  if (typeof value === 'string') return /^[-+]?[\d.]/.test(value) ? [path] : [];
  if (Array.isArray(value)) return value.flatMap((item, i) => figuresIn(item, `${path}[${i}]`));
  return Object.entries(value ?? {}).flatMap(([key, item]) => figuresIn(item, `${path}.${key}`));
}

describe('the form of figures', () => {
  it.each(names)(
    'of %s has every figure of members, elements, masses, axle lines and drive, once',
    (name) => {
      const document = scenario(name);
      const paths = pathsOf(formOf(document));
      expect(new Set(paths).size).toBe(paths.length);
      const { vehicle } = document as unknown as { vehicle: Record<string, unknown> };
      const wanted = ['members', 'elements', 'masses', 'wheels', 'winches', 'steering', 'drive'].flatMap(
        (part) => figuresIn(vehicle[part], `vehicle.${part}`),
      );
      // A count of wheels is a choice of the construction (1, 2 or 4), not a figure to tune.
      const tunable = wanted.filter((path) => !/wheels\[\d+\]\.count$/.test(path));
      expect(tunable.length).toBeGreaterThan(20);
      expect(tunable.filter((path) => !paths.includes(path))).toEqual([]);
    },
  );

  const form = formOf(scenario('corrie-6x6.json'));
  const group = (title: string) => form.find((each) => each.title === title);

  it('puts springs and masses with the member they are on, and both figures of a point on one line', () => {
    const blocks = group('middle-arm')?.blocks ?? [];
    expect(blocks.map(({ title }) => title)).toEqual(['middle-arm', 'middle torsion bars', 'middle arms']);
    const pivot = blocks[0]?.rows.find(({ label }) => label === 'pivot');
    expect(pivot?.fields.map(({ part }) => part)).toEqual(['x', 'z']);
    expect(group('middle-housing')?.blocks.map(({ title }) => title)).toContain('middle');
  });

  it('has figures that were left out, with what is used instead', () => {
    const rows = group('Drive')?.blocks.flatMap(({ rows }) => rows) ?? [];
    expect(rows.map(({ label }) => label)).toContain('acceleration');
    const gravity = group('Chassis')
      ?.blocks.at(-1)
      ?.rows.find(({ label }) => label === 'gravity');
    expect(gravity?.fields[0]?.about.standard).toBeCloseTo(9.80665, 10);
  });

  it('is found by words, in any order', () => {
    const hits = found(form, 'pivot MIDDLE');
    expect(pathsOf(hits)).toContain('vehicle.members[1].pivot.x');
    expect(pathsOf(hits).every((path) => path.includes('pivot'))).toBe(true);
    expect(found(form, 'no such thing')).toEqual([]);
    expect(found(form, ' ')).toBe(form);
  });

  it('leaves long lists of points to the file', () => {
    const points = Array.from({ length: 500 }, (_, i) => ({ x: i, z: 0 }));
    const document = { ground: [{ kind: 'table', points }] } as unknown as Json;
    expect(pathsOf(formOf(document)).filter((path) => path.startsWith('ground'))).toEqual([]);
  });

  it('is the same for documents that differ only in figures, and another one for a new part, kind or name', () => {
    const document = scenario('corrie-6x6.json');
    const path = ['vehicle', 'members', 1, 'pivot', 'x'];
    expect(sameForm(document, withValue(document, path, 0.3))).toBe(true);
    expect(sameForm(document, withValue(document, path, '-31 cm'))).toBe(true);
    expect(sameForm(document, withValue(document, ['vehicle', 'members', 1, 'name'], 'other'))).toBe(false);
    expect(sameForm(document, withValue(document, ['run', 'frames'], 120))).toBe(false);
    expect(sameForm(document, scenario('tarn-8x8.json'))).toBe(false);
  });
});
