import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boxInPoses,
  fitGround,
  fitVehicle,
  followTo,
  inWorld,
  keepInSight,
  onPicture,
  panBy,
  ROOM,
  viewOf,
  zoomBy,
} from '../../../src/canvas/camera.ts';
import { GUTTER, plotWidth, toPixel } from '../../../src/charts/layout.ts';

const size = { width: 1112, height: 400 };
const stature = { above: 0.3, below: 0.1 };
const reach = { least: 0.02, most: 50 };
const windows = fc
  .tuple(fc.double({ min: -100, max: 100, noNaN: true }), fc.double({ min: 0.05, max: 50, noNaN: true }))
  .map(([from, length]) => ({ from, to: from + length }));

describe('the view of a window', () => {
  it('puts a station on the same pixel as bands and strips do', () => {
    fc.assert(
      fc.property(windows, fc.double({ min: 0, max: 1, noNaN: true }), (window, t) => {
        const station = window.from + t * (window.to - window.from);
        const view = viewOf(window, size, stature, 0);
        expect(onPicture(view, { x: station, z: 0 }).x).toBeCloseTo(toPixel(station, window, size.width), 6);
      }),
    );
  });

  it('draws metres forward as long as metres up', () => {
    const view = viewOf({ from: 0, to: 2 }, size, stature, 0);
    const o = onPicture(view, { x: 0, z: 0 });
    const p = onPicture(view, { x: 0.1, z: 0.1 });
    expect(p.x - o.x).toBeCloseTo(o.y - p.y, 9);
    expect(p.x - o.x).toBeCloseTo((0.1 * plotWidth(size.width)) / 2, 9);
  });

  it('is undone by its inverse', () => {
    const view = viewOf({ from: 3, to: 7 }, size, stature, 0.4, 0.1);
    const back = onPicture(view, inWorld(view, 123, 77));
    expect(back.x).toBeCloseTo(123, 9);
    expect(back.y).toBeCloseTo(77, 9);
  });

  it('keeps ground and vehicle on the picture when they fit', () => {
    const view = viewOf({ from: 0, to: 2 }, size, stature, 0.7);
    const roof = onPicture(view, { x: 0, z: 0.7 + stature.above }).y;
    const arrows = onPicture(view, { x: 0, z: 0.7 - stature.below }).y;
    expect(roof).toBeGreaterThanOrEqual(ROOM.top);
    expect(arrows).toBeLessThanOrEqual(size.height - ROOM.foot);
  });
});

describe('keeping the vehicle in sight', () => {
  const window = { from: 0, to: 2 };
  const box = { xMin: 0.5, xMax: 1, zMin: 0, zMax: 0.3 };

  it('leaves a view alone that shows it', () => {
    const view = viewOf(window, size, stature, 0);
    expect(keepInSight(view, box)).toBe(view);
  });

  it('brings a roof down and a wheel up, and no farther', () => {
    const high = keepInSight(viewOf(window, size, stature, -0.4), box);
    expect(onPicture(high, { x: 0, z: box.zMax }).y).toBeCloseTo(ROOM.top, 9);
    const low = keepInSight(viewOf(window, size, stature, 0.4), box);
    expect(onPicture(low, { x: 0, z: box.zMin }).y).toBeCloseTo(size.height - ROOM.foot, 9);
  });
});

describe('fitting', () => {
  it('shows the whole ground', () => {
    const window = fitGround({ from: 0, to: 4, rise: 0.05 }, stature, size);
    expect(window.from).toBeCloseTo(0, 9);
    expect(window.to).toBeCloseTo(4, 9);
  });

  it('takes the height where that is what is short, and centres the ground', () => {
    const window = fitGround({ from: 0, to: 0.5, rise: 0.05 }, stature, size);
    expect((window.from + window.to) / 2).toBeCloseTo(0.25, 9);
    const scale = plotWidth(size.width) / (window.to - window.from);
    expect(scale * (0.3 + 0.1 + 0.05)).toBeCloseTo(size.height - ROOM.top - ROOM.foot, 6);
  });

  it('shows the vehicle whole, with arrows', () => {
    const box = { xMin: 1, xMax: 1.6, zMin: 0, zMax: 0.35 };
    const window = fitVehicle(box, stature, size);
    expect(window.from).toBeLessThan(1);
    expect(window.to).toBeGreaterThan(1.6);
    const scale = plotWidth(size.width) / (window.to - window.from);
    expect(scale * (0.35 + stature.below)).toBeLessThanOrEqual(size.height - ROOM.top - ROOM.foot + 1e-6);
  });
});

describe('zooming', () => {
  it('keeps the station under the pointer where it is', () => {
    fc.assert(
      fc.property(
        windows,
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        fc.integer({ min: GUTTER.left, max: 1000 }),
        (window, k, px) => {
          const at = window.from + ((px - GUTTER.left) / plotWidth(size.width)) * (window.to - window.from);
          const zoomed = zoomBy(window, k, at, reach);
          expect(toPixel(at, zoomed, size.width)).toBeCloseTo(px, 4);
        },
      ),
    );
  });

  it('stops at its limits without drifting', () => {
    const far = zoomBy({ from: 0, to: 40 }, 0.1, 10, reach);
    expect(far.to - far.from).toBeCloseTo(50, 9);
    expect(zoomBy(far, 0.1, 10, reach)).toEqual(far);
    const near = zoomBy({ from: 0, to: 0.03 }, 10, 0.01, reach);
    expect(near.to - near.from).toBeCloseTo(0.02, 12);
  });
});

describe('panning and following', () => {
  it('moves the window and never loses the ground', () => {
    const ground = { from: 0, to: 10 };
    expect(panBy({ from: 2, to: 4 }, 1, ground)).toEqual({ from: 3, to: 5 });
    const lost = panBy({ from: 2, to: 4 }, 1000, ground);
    expect(lost.from).toBeLessThan(10);
    expect(lost.to - lost.from).toBeCloseTo(2, 9);
    expect(panBy({ from: 2, to: 4 }, -1000, ground).to).toBeGreaterThan(0);
  });

  it('puts a station in the middle and keeps the scale', () => {
    const followed = followTo({ from: 2, to: 4 }, 7.3);
    expect((followed.from + followed.to) / 2).toBeCloseTo(7.3, 12);
    expect(followed.to - followed.from).toBeCloseTo(2, 12);
  });
});

it('finds the vehicle where its poses put it', () => {
  const wheel = { body: 1, hub: { x: 0, z: 0.05 }, radius: 0.05 };
  const mechanism = {
    outlines: [
      {
        body: 0,
        closed: true,
        points: [
          { x: -1, z: 0.1 },
          { x: 0, z: 0.3 },
        ],
      },
    ],
    wheels: [wheel],
    members: [],
  };
  const poses = [
    { x: 5, z: 1, angle: 0 },
    { x: 5, z: 0.5, angle: 0 },
  ];
  const box = boxInPoses(mechanism as unknown as Parameters<typeof boxInPoses>[0], poses);
  expect(box.xMin).toBeCloseTo(4, 12);
  expect(box.xMax).toBeCloseTo(5.05, 12);
  expect(box.zMin).toBeCloseTo(0.5, 12);
  expect(box.zMax).toBeCloseTo(1.3, 12);
});
