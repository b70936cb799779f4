import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { groundKinds } from '../../../sim/ground/registry.ts';
import { shapeOf } from './kinds.ts';

describe.each(groundKinds.map((kind) => [kind.kind, kind] as const))('%s', (_name, kind) => {
  const { points, problems } = shapeOf(kind, kind.sample);

  it('reads its own sample without a problem', () => {
    expect(problems).toEqual([]);
    expect(points.length).toBeGreaterThan(1);
  });

  it('begins at the origin and never goes back', () => {
    expect(points[0]?.x === 0 && points[0].z === 0).toBe(true);
    points.forEach((p, i) => {
      expect(Number.isFinite(p.x) && Number.isFinite(p.z)).toBe(true);
      expect(p.x).toBeGreaterThanOrEqual(points[i - 1]?.x ?? 0);
    });
  });

  it('makes the same points twice', () => {
    expect(shapeOf(kind, kind.sample).points).toEqual(points);
  });

  it('describes every field, with its unit', () => {
    const schema = z.toJSONSchema(kind.fields, { io: 'input' }) as {
      properties: Record<string, Record<string, unknown>>;
    };
    for (const [name, field] of Object.entries(schema.properties)) {
      expect(field.description, name).toMatch(/^[A-Z].*\.$/);
      const figure = ['number', 'integer'].includes(String(field.type));
      if (figure) expect(field.unit, name).toBeDefined();
    }
  });

  it('refuses a field it does not know', () => {
    expect(kind.fields.safeParse({ ...kind.sample, colour: 'brown' }).success).toBe(false);
  });
});

describe('the registry', () => {
  it('has every name once', () => {
    const names = groundKinds.map((kind) => kind.kind);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
});

describe('kinds with free figures', () => {
  const mm = (least: number, most: number) =>
    fc.double({ min: least, max: most, noNaN: true }).map((x) => x / 1000);
  const kindOf = (name: string) => groundKinds.find((kind) => kind.kind === name);
  const figures = {
    step: fc.record({ height: mm(-500, 500), length: mm(1e-3, 5000) }),
    ramp: fc.record({ length: mm(0, 5000), height: mm(-500, 500) }),
    trench: fc.record({ width: mm(1e-3, 500), depth: mm(1e-3, 500) }),
    'v-ditch': fc.record({ width: mm(1e-3, 500), depth: mm(1e-3, 500) }),
    'cosine-bump': fc.record({ length: mm(1e-3, 5000), height: mm(-500, 500) }),
    washboard: fc.record({
      wavelength: mm(1, 500),
      height: mm(1e-3, 100),
      count: fc.integer({ min: 1, max: 30 }),
    }),
    bumps: fc
      .record({
        radius: mm(1, 100),
        wider: fc.double({ min: 1, max: 4, noNaN: true }),
        count: fc.integer({ min: 1, max: 20 }),
        stagger: fc.boolean(),
      })
      .map(({ radius, wider, ...rest }) => ({ ...rest, radius, spacing: 2 * radius * wider })),
    logs: fc
      .record({
        diameter: mm(1, 100),
        wider: fc.double({ min: 1, max: 4, noNaN: true }),
        count: fc.integer({ min: 1, max: 20 }),
        sunk: fc.double({ min: 0, max: 0.95, noNaN: true }),
      })
      .map(({ diameter, wider, ...rest }) => ({ ...rest, diameter, spacing: diameter * wider })),
    rough: fc.record({
      length: mm(500, 20_000),
      roughness: fc.constantFrom(16e-6, 1e-3),
      seed: fc.integer({ min: 0, max: 2 ** 32 - 1 }),
      scale: fc.constantFrom(1, 4, 16),
    }),
  } as const;

  it.each(Object.entries(figures))('%s never goes back and stays finite', (name, arbitrary) => {
    fc.assert(
      fc.property(arbitrary as fc.Arbitrary<Record<string, unknown>>, (written) => {
        const { points, problems } = shapeOf(kindOf(name), written);
        expect(problems).toEqual([]);
        expect(points[0]?.x === 0 && points[0].z === 0).toBe(true);
        points.forEach((p, i) => {
          const last = points[i - 1] ?? p;
          if (!(p.x >= last.x && Number.isFinite(p.x) && Number.isFinite(p.z))) {
            throw new Error(
              `point ${i} of ${points.length}: ${JSON.stringify(last)} then ${JSON.stringify(p)}`,
            );
          }
        });
      }),
      { numRuns: name === 'rough' ? 20 : 100 },
    );
  });
});
