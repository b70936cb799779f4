import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchema, jsonSchemaText } from '../schema/json-schema.ts';

const file = new URL('../../shared/schema/scenario.schema.json', import.meta.url);

interface Property {
  readonly path: string;
  readonly schema: Record<string, unknown>;
}

/** Every property of every object in the schema, with the way to it. */
function propertiesOf(schema: unknown, path = ''): Property[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const node = schema as Record<string, unknown>;
  const own = Object.entries((node.properties ?? {}) as Record<string, Record<string, unknown>>);
  const options = ['oneOf', 'anyOf', 'allOf'].flatMap((key) => (node[key] as unknown[] | undefined) ?? []);
  return [
    ...own.flatMap(([name, inner]) => [
      { path: `${path}.${name}`, schema: inner },
      ...propertiesOf(inner, `${path}.${name}`),
    ]),
    ...propertiesOf(node.items, `${path}[]`),
    ...options.flatMap((option, i) => propertiesOf(option, `${path}<${i}>`)),
    ...Object.entries((node.$defs ?? {}) as object).flatMap(([name, inner]) =>
      propertiesOf(inner, `#${name}`),
    ),
  ];
}

const takesNumbers = ({ schema }: Property) =>
  ['number', 'integer'].some((type) => [schema.type].flat().includes(type));

describe('the JSON Schema of scenarios', () => {
  const properties = propertiesOf(jsonSchema());

  it('is committed as it is made now (if not: npm run schema)', () => {
    expect(readFileSync(file, 'utf8')).toBe(jsonSchemaText());
  });

  it('is of draft 2020-12, takes no unknown keys, and asks only for what has no standard value', () => {
    const schema = jsonSchema();
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.additionalProperties).toBe(false);
    expect(schema.required).toEqual(['format', 'version', 'title', 'vehicle', 'ground']);
  });

  it('is walked whole: a wheel, a member, an element, a ground and a criterion are all found', () => {
    // A floor, not a count: a walk that misses a branch must fail, a new kind must not.
    expect(properties.length).toBeGreaterThan(200);
    const paths = properties.map(({ path }) => path);
    expect(paths).toContain('.vehicle.wheels[].tyre.grip');
    for (const list of ['.vehicle.members[]<', '.vehicle.elements[]<', '.ground[]<', '.criteria[]<']) {
      expect(paths.filter((path) => path.startsWith(list)).length, list).toBeGreaterThan(5);
    }
  });

  it('explains every field', () => {
    const silent = properties.filter(
      ({ schema }) => typeof schema.description !== 'string' || schema.description.length < 3,
    );
    expect(silent.map(({ path }) => path)).toEqual([]);
  });

  it('gives the unit of every figure', () => {
    const bare = properties.filter(
      (p) => takesNumbers(p) && p.schema.unit === undefined && p.path !== '.version',
    );
    expect(bare.map(({ path }) => path)).toEqual([]);
  });

  it('shows limits, an example and the standard value of a figure', () => {
    const grip = properties.find(({ path }) => path === '.vehicle.wheels[].tyre.grip')?.schema;
    expect(grip).toMatchObject({
      unit: '1',
      minimum: 0,
      maximum: 3,
      default: 0.8,
      type: ['number', 'string'],
      examples: ['20 %', '0.2 ± 0.02', '19 .. 21 %', '19.6; 20.2; 20.4 %'],
    });
    const radius = properties.find(({ path }) => path === '.vehicle.wheels[].radius')?.schema;
    expect(radius).toMatchObject({
      unit: 'm',
      exclusiveMinimum: 0,
      examples: expect.arrayContaining(['45 mm', '45 mm ± 5 %']),
    });
  });
});
