import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { pathText } from '../../../shared/path.ts';
import { distanceTo, entryAt, pointShapes, shapesOf } from '../../../src/build/shapes.ts';
import { prepare } from '../../../src/documents/admit.ts';
import type { Json } from '../../../src/documents/json.ts';
import { handlesOf } from '../../../src/edits/handles.ts';

const document = corrie as unknown as Json;
const prepared = prepare(document);
if (!prepared.ok) throw new Error('the flagship cannot be read');
const handles = handlesOf(document);
const shapes = shapesOf(document, prepared.value, handles);
const found = (x: number, z: number, reach = 0.005): string =>
  pathText(entryAt(shapes, { x, z }, reach) ?? []);

describe('what lies at a place of the drawing', () => {
  it('is the wheel on its tyre', () => {
    expect(found(0, 0.005)).toBe('vehicle.wheels[0]');
  });

  it('is the arm over the wheel behind it', () => {
    // Halfway between pivot and end of the middle arm, within its wheel.
    expect(found(-0.2975, 0.066, 0.002)).not.toBe('vehicle.wheels[1]');
    expect(found(-0.285, 0.0618, 0.002)).toBe('vehicle.members[1]');
  });

  it('is a mass at its point, though nothing of it is drawn', () => {
    expect(found(-0.12, 0.085)).toBe('vehicle.masses[3]');
  });

  it('is the outline on its line, and nothing beside all things', () => {
    expect(found(-0.47, 0.15)).toBe('vehicle.bodywork.outlines[1]');
    expect(found(0.5, 0.5)).toBe('');
  });

  it('has one shape per entry, each in the document', () => {
    const paths = shapes.map(({ entry }) => pathText(entry));
    expect(new Set(paths).size).toBe(paths.length);
    expect(paths.length).toBeGreaterThan(20);
  });
});

describe('a vehicle that cannot be compiled', () => {
  it('is known by the points of its entries', () => {
    const sketch = shapesOf(document, undefined, handles);
    const arm = sketch.find(({ entry }) => pathText(entry) === 'vehicle.members[1]');
    expect(arm?.lines).toEqual([
      [
        { x: -0.33, z: 0.077 },
        { x: -0.265, z: 0.055 },
      ],
    ]);
  });

  it('has no lines for angles, nor for entries of a single point', () => {
    const [mass] = pointShapes(handles.filter(({ entry }) => pathText(entry) === 'vehicle.masses[0]'));
    expect(mass?.lines).toEqual([]);
    expect(mass?.spots).toHaveLength(1);
    expect(pointShapes(handles.filter(({ kind }) => kind === 'angle'))).toEqual([]);
  });
});

describe('the distance to a shape', () => {
  it('is nought within a disc, and that to the nearest of lines and spots otherwise', () => {
    const shape = {
      entry: [],
      rank: 0,
      lines: [
        [
          { x: 0, z: 0 },
          { x: 1, z: 0 },
        ],
      ],
      discs: [{ at: { x: 0, z: 2 }, radius: 0.5 }],
      spots: [],
    };
    expect(distanceTo(shape, { x: 0.2, z: 2.1 })).toBe(0);
    expect(distanceTo(shape, { x: 0.5, z: -0.25 })).toBeCloseTo(0.25, 12);
    expect(distanceTo(shape, { x: 2, z: 0 })).toBeCloseTo(1, 12);
    expect(distanceTo({ ...shape, lines: [], discs: [] }, { x: 0, z: 0 })).toBe(Number.POSITIVE_INFINITY);
  });
});
