import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ground } from '../../../sim/ground/ground.ts';
import { firstSegment, heightAt, lastSegment, profileBetween } from '../../../sim/ground/query.ts';

/** Ground from plain vertices, without level runs. */
const through = (...vertices: [number, number][]): Ground => ({
  x: Float64Array.from(vertices, ([x]) => x),
  z: Float64Array.from(vertices, ([, z]) => z),
  count: vertices.length,
  from: vertices[0]?.[0] ?? 0,
  to: vertices.at(-1)?.[0] ?? 0,
  pieces: [],
});

/** Level, a face of 0.2 up at 1 in two parts, level, a slope down from 2 to 3, a face down at 3, level to 4. */
const course = through([0, 0], [1, 0], [1, 0.1], [1, 0.2], [2, 0.2], [3, 0], [3, -0.1], [4, -0.1]);

describe('height at a station', () => {
  it('lies on the line between vertices', () => {
    expect(heightAt(course, 0.5)).toBe(0);
    expect(heightAt(course, 2.25)).toBeCloseTo(0.15, 12);
  });

  it('is the upper end of a face, up or down', () => {
    expect(heightAt(course, 1)).toBe(0.2);
    expect(heightAt(course, 3)).toBe(0);
  });

  it('goes on level beyond both ends', () => {
    expect(heightAt(course, -5)).toBe(0);
    expect(heightAt(course, 9)).toBe(-0.1);
  });
});

describe('segments between two stations', () => {
  it('span a place within one segment', () => {
    expect([firstSegment(course, 0.2), lastSegment(course, 0.8)]).toEqual([0, 0]);
  });

  it('take the faces at either end along', () => {
    expect([firstSegment(course, 1), lastSegment(course, 1.5)]).toEqual([0, 3]);
    expect([firstSegment(course, 0.5), lastSegment(course, 1)]).toEqual([0, 3]);
  });

  it('stay within the ground beyond its ends', () => {
    expect([firstSegment(course, -9), lastSegment(course, -8)]).toEqual([0, 0]);
    expect([firstSegment(course, 8), lastSegment(course, 9)]).toEqual([6, 6]);
  });

  it('are all those that have a point between the stations, found one by one', () => {
    const station = fc.double({ min: -1, max: 5, noNaN: true });
    const onVertex = fc.constantFrom(0, 1, 2, 3, 4);
    fc.assert(
      fc.property(fc.oneof(station, onVertex), fc.oneof(station, onVertex), (p, q) => {
        const [from, to] = [Math.min(p, q), Math.max(p, q)];
        const touching = Array.from({ length: course.count - 1 }, (_, i) => i).filter(
          (i) => (course.x[i + 1] as number) >= from && (course.x[i] as number) <= to,
        );
        if (touching.length === 0) return;
        expect([firstSegment(course, from), lastSegment(course, to)]).toEqual([touching[0], touching.at(-1)]);
      }),
      { numRuns: 500 },
    );
  });
});

describe('the line to draw', () => {
  it('has both ends and everything between, faces included', () => {
    expect(profileBetween(course, 0.5, 2.5)).toEqual([
      { x: 0.5, z: 0 },
      { x: 1, z: 0 },
      { x: 1, z: 0.1 },
      { x: 1, z: 0.2 },
      { x: 2, z: 0.2 },
      { x: 2.5, z: expect.closeTo(0.1, 12) },
    ]);
  });

  it('draws a face at its very end whole', () => {
    expect(profileBetween(course, 2, 3).slice(-2)).toEqual([
      { x: 3, z: 0 },
      { x: 3, z: -0.1 },
    ]);
  });

  it('goes on level beyond the ends', () => {
    expect(profileBetween(course, 3.5, 6)).toEqual([
      { x: 3.5, z: -0.1 },
      { x: 4, z: -0.1 },
      { x: 6, z: -0.1 },
    ]);
    expect(profileBetween(course, 5, 6)).toEqual([
      { x: 5, z: -0.1 },
      { x: 6, z: -0.1 },
    ]);
  });
});
