import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { type Loose, smallTruck } from './small-truck.ts';

const noFiles = { file: () => undefined };

function read(input: unknown): Scenario {
  const result = readScenario(input, noFiles);
  expect(result.problems).toEqual([]);
  if (!result.ok) throw new Error('the small truck ought to read');
  return result.value;
}

describe('reading a scenario', () => {
  it('gives SI figures, whatever units were written', () => {
    const { vehicle, ground } = read(smallTruck());
    expect(vehicle.wheels[0]?.radius).toBe(0.05);
    expect(vehicle.wheels[0]?.massPerWheel).toBe(0.1);
    expect(vehicle.wheels[0]?.tyre.stiffnessPerWheel).toBe(5000);
    expect(vehicle.elements[0]).toMatchObject({ rate: 1000, preload: 5 });
    expect(ground[1]).toEqual({ kind: 'step', height: 0.02, length: 1 });
  });

  it('fills in every standard value', () => {
    const { gravity, vehicle, run } = read(smallTruck());
    expect(gravity).toBe(9.80665);
    expect(vehicle.scale).toBe(1);
    expect(vehicle.reference).toEqual({ x: 0, z: 0 });
    expect(vehicle.masses[0]).toMatchObject({ on: 'chassis', count: 1 });
    expect(vehicle.members[0]).toMatchObject({ on: 'chassis', lean: 0 });
    expect(vehicle.wheels[0]).toMatchObject({ count: 2, tyre: { damping: 0.5, grip: 0.8, rolling: 0.015 } });
    expect(vehicle.drive).toMatchObject({ driven: 'all', acceleration: 0.5 });
    expect(vehicle.bodywork).toEqual({ outlines: [], belly: [] });
    expect(run).toEqual({ frames: 240, pulls: [] });
  });

  it('takes text and a parsed value alike, and leaves the value as it was', () => {
    const value = smallTruck();
    const before = JSON.stringify(value);
    expect(read(value)).toEqual(read(before));
    expect(JSON.stringify(value)).toBe(before);
  });

  it('takes numbers in SI and texts with units for the same scenario', () => {
    const inSi = smallTruck();
    for (const wheel of inSi.vehicle.wheels) Object.assign(wheel, { radius: 0.05, massPerWheel: 0.1 });
    expect(read(inSi)).toEqual(read(smallTruck()));
  });

  it('reads its own output again as the same scenario', () => {
    const once = read(smallTruck());
    expect(read(once)).toEqual(once);
  });

  it('lays a CSV ground from the source that it is given', () => {
    const truck = smallTruck();
    truck.ground.push({ kind: 'csv', file: 'yard.csv', stationUnit: 'mm', heightUnit: 'mm' });
    const asked: string[] = [];
    const source = {
      file: (name: string) => {
        asked.push(name);
        return 's;h\n0;0\n500;20\n';
      },
    };
    expect(readScenario(truck, source).ok).toBe(true);
    expect(new Set(asked)).toEqual(new Set(['yard.csv']));
  });

  it('takes a steep slope, a plateau and a trench under the vehicle: only faces by the wheels are refused', () => {
    const start = (ground: Loose[], at: string) => {
      const truck = smallTruck();
      truck.ground = [...ground, { kind: 'flat', length: '2 m' }];
      truck.run = { start: at };
      return readScenario(truck, noFiles).problems.map((p) => `${p.path}: ${p.message}`);
    };
    const table = (...points: [number, number][]) => [
      { kind: 'table', points: points.map(([station, height]) => ({ station, height })) },
    ];
    expect(start(table([0, 0], [2, 1]), '1 m')).toEqual([]);
    expect(start(table([0, 0], [0, 3], [1, 3]), '500 mm')).toEqual([]);
    expect(start(table([0, 0], [0.6, 0], [0.6, -0.3], [0.7, -0.3], [0.7, 0], [1, 0]), '740 mm')).toEqual([]);
    // The same hole under a wheel holds its wheel between two faces higher than its axle.
    expect(start(table([0, 0], [0.6, 0], [0.6, -0.3], [0.7, -0.3], [0.7, 0], [1, 0]), '650 mm')).not.toEqual(
      [],
    );
  });

  it('takes as many bodies and axle lines as the limits say', () => {
    const truck = smallTruck();
    for (let i = 0; i < 61; i++) {
      truck.vehicle.members.push({ name: `h${i}`, kind: 'housing', pivot: { x: 0, z: 0.1 } });
      truck.vehicle.masses.push({ name: `m${i}`, on: `h${i}`, mass: 0.01, at: { x: -0.1, z: 0.1 } });
    }
    for (let i = 0; i < 13; i++) truck.vehicle.wheels.push({ ...truck.vehicle.wheels[0], name: `w${i}` });
    const { vehicle } = read(truck);
    expect(vehicle.wheels).toHaveLength(16);
    expect(vehicle.members).toHaveLength(63);
  });
});

/** Paths of all values inside a document, the document itself left out. */
function pathsIn(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const here = [...path, Array.isArray(value) ? Number(key) : key];
    return [here, ...pathsIn(inner, here)];
  });
}

describe('reading anything at all', () => {
  const json = fc.jsonValue({ maxDepth: 6 });

  /** Reading may refuse, but must answer: with a value, or with at least one error that says something. */
  function answers(input: unknown): void {
    const result = readScenario(input, noFiles);
    if (result.ok) return;
    expect(result.problems.some((p) => p.severity === 'error')).toBe(true);
    for (const { message } of result.problems) expect(message.length).toBeGreaterThan(3);
  }

  it('never throws on arbitrary values', () => {
    fc.assert(fc.property(fc.anything(), answers), { numRuns: 500 });
  });

  it('never throws on arbitrary text, nor on a text that is nearly JSON', () => {
    const jsonLike = fc.string({
      unit: fc.constantFrom(
        '{',
        '}',
        '[',
        ']',
        ',',
        ':',
        '"',
        '\\',
        'u',
        'a',
        '1',
        '-',
        '.',
        'e',
        ' ',
        '\n',
        'true',
        'null',
      ),
    });
    fc.assert(fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' }), jsonLike), answers), {
      numRuns: 3000,
    });
  });

  it('agrees with JSON.parse on what is JSON: what it takes for ill-formed, JSON.parse refuses as well', () => {
    const cut = fc.tuple(
      json,
      fc.nat(),
      fc.nat({ max: 3 }),
      fc.constantFrom('', ',', '}', '"', '0', ' ', '\\'),
    );
    fc.assert(
      fc.property(cut, ([value, at, drop, put]) => {
        const text = JSON.stringify(value);
        const spoilt =
          text.slice(0, at % (text.length + 1)) + put + text.slice((at % (text.length + 1)) + drop);
        let parses = true;
        try {
          JSON.parse(spoilt);
        } catch {
          parses = false;
        }
        const problems = readScenario(spoilt, noFiles).problems;
        const illFormed = problems.some((p) => p.path.startsWith('line ') || p.message === 'is empty');
        // Keys that stand twice are a problem of ours alone, told at their paths.
        expect(illFormed).toBe(!parses);
      }),
      { numRuns: 3000 },
    );
  });

  it('never throws on a scenario with any value in any place', () => {
    const places = pathsIn(smallTruck());
    fc.assert(
      fc.property(
        fc.constantFrom(...places),
        fc.oneof(json, fc.constantFrom('', 'chassis', 'front', '1e308 m', '-5 mm', -1, 0, 1e300)),
        (path, value) => {
          const truck = smallTruck();
          const parent = path.slice(0, -1).reduce((node: Loose, step) => node[step], truck);
          parent[path.at(-1) ?? ''] = value;
          answers(truck);
        },
      ),
      { numRuns: 1500 },
    );
  });
});
