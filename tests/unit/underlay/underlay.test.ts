import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { loadScenario } from '../../../sim/index.ts';
import { forFiles } from '../../../src/documents/carried.ts';
import type { Json } from '../../../src/documents/json.ts';
import { patchText } from '../../../src/documents/patch.ts';
import {
  layPicture,
  levelledBy,
  removePicture,
  scaledBy,
  setPicture,
  type Underlay,
  underlayOf,
} from '../../../src/underlay/underlay.ts';

const text = readFileSync(new URL('../../../scenarios/corrie-6x6.json', import.meta.url), 'utf8');
const truck = JSON.parse(text) as Json;
/** The smallest PNG there is: one pixel. Made for this test. */
const pixel =
  'data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==';
const laid = layPicture(truck, pixel, { x: 0.1, z: 0.08 }, 0.7).document;
const picture = (): Underlay => underlayOf(laid) as Underlay;

/** Where a spot of the picture, counted from its middle in shares of its width, lies in the drawing. */
function placed(u: Pick<Underlay, 'at' | 'angle' | 'width'>, { x, z }: Vec2): Vec2 {
  const [c, s] = [Math.cos(u.angle), Math.sin(u.angle)];
  return { x: u.at.x + u.width * (c * x - s * z), z: u.at.z + u.width * (s * x + c * z) };
}

describe('a picture under the drawing', () => {
  it('is kept in a document that can be read, and changes nothing that is computed', () => {
    const read = loadScenario(laid);
    expect(read.problems).toEqual([]);
    const { underlay: _, ...rest } = read.ok ? read.value : ({} as never);
    const plain = loadScenario(truck);
    expect(rest).toEqual(plain.ok ? plain.value : undefined);
    expect(picture()).toMatchObject({ at: { x: 0.1, z: 0.08 }, width: 0.7, angle: 0, locked: false });
  });

  it('gives the very document back when it is removed', () => {
    expect(removePicture(laid).document).toEqual(truck);
    expect(removePicture(truck).document).toBe(truck);
    expect(setPicture(truck, 'turn the picture', { angle: 1 }).document).toBe(truck);
  });

  it('scaled by two points keeps both on their spots, as far apart as was said', () => {
    const turned = { ...picture(), angle: 0.3 };
    const spots = [
      { x: -0.2, z: 0.1 },
      { x: 0.35, z: -0.05 },
    ] as const;
    const [a, b] = spots.map((spot) => placed(turned, spot)) as [Vec2, Vec2];
    const after = { ...turned, ...scaledBy(turned, a, b, 0.265) };
    const [a2, b2] = spots.map((spot) => placed(after, spot)) as [Vec2, Vec2];
    expect(a2.x).toBeCloseTo(a.x, 12);
    expect(a2.z).toBeCloseTo(a.z, 12);
    expect(Math.hypot(b2.x - a2.x, b2.z - a2.z)).toBeCloseTo(0.265, 12);
    expect(Math.atan2(b2.z - a2.z, b2.x - a2.x)).toBeCloseTo(Math.atan2(b.z - a.z, b.x - a.x), 12);
  });

  it('levelled by two points brings them to one height, whichever was clicked first, and never upside down', () => {
    const turned = { ...picture(), angle: 0.12 };
    const spots = [
      { x: -0.2, z: -0.1 },
      { x: 0.3, z: -0.1 },
    ] as const;
    for (const pair of [spots, [spots[1], spots[0]] as const]) {
      const [a, b] = pair.map((spot) => placed(turned, spot)) as [Vec2, Vec2];
      const after = { ...turned, ...levelledBy(turned, a, b) };
      const [a2, b2] = pair.map((spot) => placed(after, spot)) as [Vec2, Vec2];
      expect(a2.z).toBeCloseTo(b2.z, 12);
      expect(a2.x).toBeCloseTo(a.x, 12);
      expect(after.angle).toBeCloseTo(0, 12);
    }
  });

  it('cannot be scaled by two points in one place, or to no distance', () => {
    const at = { x: 0.1, z: 0.1 };
    expect(scaledBy(picture(), at, at, 0.2)).toBeUndefined();
    expect(scaledBy(picture(), at, { x: 0.2, z: 0.1 }, 0)).toBeUndefined();
    expect(scaledBy(picture(), at, { x: 0.2, z: 0.1 }, Number.NaN)).toBeUndefined();
    expect(levelledBy(picture(), at, at)).toBeUndefined();
  });

  it('stays out of files unless it is wanted there', () => {
    expect(patchText(text, forFiles(truck), forFiles(laid))).toBe(text);
    const wanted = setPicture(laid, 'keep the picture in files', { inFiles: true }).document;
    const written = patchText(text, forFiles(truck), forFiles(wanted));
    expect(JSON.parse(written)).toEqual(wanted);
  });

  it.each([
    ['data:image/svg+xml;base64,AAAA', /no picture/],
    ['https://example.org/truck.png', /no picture/],
    ['data:image/png;base64,"><script>', /no picture/],
    [`data:image/png;base64,${'A'.repeat(2_100_000)}`, /./],
  ])('is refused when it is something else or too large (%#)', (wrong, says) => {
    const document = { ...(laid as object), underlay: { ...picture(), picture: wrong } };
    const read = loadScenario(document);
    expect(read.ok).toBe(false);
    expect(read.problems.map(({ path, message }) => `${path} ${message}`).join()).toMatch(says);
    expect(read.problems.every(({ path }) => path === 'underlay.picture')).toBe(true);
  });
});
