/*
 * sim/PHYSICS.md has a row for everything that is registered, with its title and source as the registry has them.
 * Seen red: a row taken out, a title changed, a source changed, a row for a kind that does not exist.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { partKinds } from '../../sim/driveline/registry.ts';
import { elementKinds } from '../../sim/elements/registry.ts';
import { groundKinds } from '../../sim/ground/registry.ts';
import { memberKinds } from '../../sim/members/registry.ts';
import { criterionKinds } from '../../sim/report/criteria/registry.ts';
import { materialNames, materialOf } from '../../sim/strength/material.ts';
import { strengthKinds } from '../../sim/strength/registry.ts';
import { materialSources } from '../../sim/strength/sources.ts';

interface Registered {
  readonly kind: string;
  readonly title: string;
  readonly source?: string;
}

const page = readFileSync(new URL('../../sim/PHYSICS.md', import.meta.url), 'utf8');

/** Rows of the first table of a chapter, without its head: cells without their margins. */
function rowsOf(chapter: string): string[][] {
  const lines = page.split(`\n## ${chapter}\n`)[1]?.split('\n## ')[0]?.split('\n') ?? [];
  const start = lines.findIndex((line) => line.startsWith('|'));
  const rest = lines.slice(start);
  const end = rest.findIndex((line) => !line.startsWith('|'));
  return rest.slice(2, end).map((line) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

describe.each([
  ['Force elements', elementKinds],
  ['Members', memberKinds],
  ['Ground', groundKinds],
  ['Criteria', criterionKinds],
  ['Drive line', partKinds],
  ['Strength of the running gear', strengthKinds],
] as const)('the chapter %s of the physics page', (chapter, registry) => {
  const kinds = registry as readonly Registered[];
  const rows = rowsOf(chapter);

  it('has one row for every registered kind, and no other', () => {
    expect(rows.map(([kind]) => kind).sort()).toEqual(kinds.map(({ kind }) => `\`${kind}\``).sort());
  });

  it.each(kinds.map((kind) => [kind.kind, kind] as const))(
    'gives %s its title and source, and leaves no cell empty',
    (_name, kind) => {
      const row = rows.find(([name]) => name === `\`${kind.kind}\``) ?? [];
      expect(row[1]).toBe(kind.title);
      if (kind.source !== undefined) expect(row.at(-1)).toBe(kind.source);
      expect(row.filter((cell) => cell === '')).toEqual([]);
    },
  );
});

it('the page names every measure that a stand or a run can give', () => {
  const files = import.meta.glob('../../sim/report/measures/*.ts', {
    query: '?raw',
    eager: true,
    import: 'default',
  });
  const names = Object.values(files as Record<string, string>).flatMap((text) =>
    [...text.matchAll(/MeasureHead = \{[^}]*?name: '(\w+)'/g)].map((found) => found[1]),
  );
  expect(names.length).toBeGreaterThan(15);
  expect(names.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
});

it.each(materialNames)('the page gives %s its figures and its source', (name) => {
  const row = page.split('\n').find((line) => line.startsWith(`| \`${name}\` |`)) ?? '';
  const cells = row.split('|').map((cell) => cell.trim());
  const { modulus, shearModulus, yield: yields, tensile, shearYield, density } = materialOf(name);
  const figures = [modulus / 1e9, shearModulus / 1e9, yields / 1e6, tensile / 1e6];
  expect(cells.slice(2, 6).map(Number)).toEqual(figures.map((figure) => Number(figure.toPrecision(4))));
  expect(Number(cells[6])).toBe(Math.round(shearYield / 1e6));
  expect(Number(cells[7])).toBe(density);
  expect(cells[8]).toBe(materialSources[name]);
});
