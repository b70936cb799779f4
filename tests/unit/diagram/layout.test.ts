import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Json } from '../../../src/documents/json.ts';
import { CELL, fittedName, layoutOf, leaderPath, planOf } from '../../../src/driveline/layout.ts';
import { drawnAt, placesOf } from '../../../src/driveline/places.ts';
import { rowsOf } from '../../../src/driveline/rows.ts';
import { spread } from '../../../src/driveline/spread.ts';
import { treeOf } from '../../../src/driveline/tree.ts';
import { fortyParts, withParts } from './documents.ts';

const shipped = (name: string): Json =>
  JSON.parse(
    readFileSync(fileURLToPath(new URL(`../../../scenarios/${name}.json`, import.meta.url)), 'utf8'),
  );

const shafts = treeOf(shipped('cairn-6x6-shafts'));
const nameOf = (index: number): string => shafts.parts[index]?.name ?? '';
const indexOf = (name: string): number => shafts.parts.findIndex((part) => part.name === name);

/** px per m and px of x = 0 of a picture in which the vehicle fills 260 px: closer together than words are wide. */
const picture = (scale: number) => (x: number) => 500 + scale * x;

function laid(tree: typeof shafts, scale: number, width: number) {
  const places = placesOf(tree);
  const plan = planOf(tree, places, width);
  const across = picture(scale);
  const parts = places.map(({ anchors }) => across(drawnAt(anchors).x));
  const wheels = tree.wheels.map(({ hub }) => across(hub.at.x));
  return { plan, parts, wheels, layout: layoutOf(plan, parts, wheels) };
}

describe('the place of a part', () => {
  const places = placesOf(shafts);
  const at = (name: string) => places[indexOf(name)];

  it('is what the document says: a point, or the middle of its ends on the bodies that hold them', () => {
    expect(drawnAt(at('motors')?.anchors ?? []).x).toBeCloseTo(-0.055, 12);
    const shaft = at('front shaft');
    expect(drawnAt(shaft?.anchors ?? []).x).toBeCloseTo((-0.097 - 0.024) / 2, 12);
    expect(shaft?.anchors.map(({ on }) => on)).toEqual(['chassis', 'front-arm']);
    expect(shaft?.told).toBe(true);
  });

  it('of a joint is the end of the shaft that it turns or that turns it', () => {
    expect(drawnAt(at('front joint at the transfer')?.anchors ?? []).x).toBeCloseTo(-0.097, 12);
    expect(drawnAt(at('rear joint at the beam')?.anchors ?? []).x).toBeCloseTo(-0.19, 12);
    expect(at('rear joint at the beam')?.told).toBe(false);
  });

  it('of a part without one is between its neighbours', () => {
    // Between the joint at -190 mm and the final drives at -215 and -335 mm.
    expect(drawnAt(at('beam shaft')?.anchors ?? []).x).toBeCloseTo((-0.19 + (-0.215 - 0.335) / 2) / 2, 12);
  });

  it('of parts in a row without any is shared out evenly, and is finite for a drive line without a single place', () => {
    const motor = { name: 'a', kind: 'motor', at: { x: 0, z: 0 } };
    const row = withParts([
      motor,
      { name: 'b', kind: 'shaft', from: 'a' },
      { name: 'c', kind: 'shaft', from: 'b' },
      { name: 'd', kind: 'reduction', from: 'c', at: { x: '-300 mm', z: 0 } },
    ]);
    const tree = treeOf(row);
    expect(placesOf(tree).map(({ anchors }) => Math.round(1000 * drawnAt(anchors).x))).toEqual([
      0, -100, -200, -300,
    ]);
    const bare = treeOf({ vehicle: { driveline: { parts: [{ name: 'x', kind: 'shaft' }] } } });
    expect(drawnAt(placesOf(bare)[0]?.anchors ?? []).x).toBe(0);
  });
});

describe('rows', () => {
  it('hold every part once, in the order along the vehicle, with what turns it in the same row or an earlier one', () => {
    for (const tree of [shafts, treeOf(fortyParts())]) {
      const x = placesOf(tree).map(({ anchors }) => drawnAt(anchors).x);
      for (const most of [3, 7, 40]) {
        const rows = rowsOf(tree, x, most);
        expect(rows.flat().sort((a, b) => a - b)).toEqual(tree.parts.map(({ index }) => index));
        const rowOf = (part: number) => rows.findIndex((row) => row.includes(part));
        for (const { index, inputs } of tree.parts)
          if (inputs.length === 1) expect(rowOf(inputs[0] ?? -1)).toBeLessThanOrEqual(rowOf(index));
        for (const row of rows) {
          expect(row.length).toBeLessThanOrEqual(most);
          const stations = row.map((part) => x[part] ?? 0);
          expect(stations).toEqual([...stations].sort((a, b) => a - b));
        }
      }
    }
  });

  it('have the sources in the first and use no row more than branches that lie over each other need', () => {
    const x = placesOf(shafts).map(({ anchors }) => drawnAt(anchors).x);
    const rows = rowsOf(shafts, x, 12);
    expect(rows).toHaveLength(2);
    expect(rows[0]?.map(nameOf)).toContain('motors');
    expect(rows[1]?.map(nameOf)).toContain('front shaft');
  });
});

describe('parts side by side', () => {
  it('stand where they truly are when there is room', () => {
    expect(spread([100, 300, 500], [80, 80, 80], 0, 600)).toEqual([100, 300, 500]);
  });

  it('move apart by no more than they must, round their mean', () => {
    expect(spread([300, 300, 300], [80, 80, 80], 0, 600)).toEqual([220, 300, 380]);
    expect(spread([290, 310, 500], [80, 80, 80], 0, 600)).toEqual([260, 340, 500]);
  });

  it('stay inside, and get narrower where there is not room for all', () => {
    expect(spread([5, 10], [80, 80], 0, 600)).toEqual([40, 120]);
    expect(spread([590, 600], [80, 80], 0, 600)).toEqual([480, 560]);
    expect(spread([10, 20, 30], [80, 80, 80], 0, 120)).toEqual([20, 60, 100]);
  });

  it('never lie over each other, at any size of the picture, for forty parts at the least width', () => {
    const tree = treeOf(fortyParts());
    for (const width of [536, 712, 1080, 2880])
      for (const scale of [300, 600, 2400, 9000]) {
        const { plan, layout } = laid(tree, scale, width);
        for (const row of plan.rows) {
          const xs = row.map((part) => layout.parts[part]?.x ?? 0);
          const gaps = xs.slice(1).map((x, i) => x - (xs[i] ?? 0));
          expect(Math.min(...gaps)).toBeGreaterThan(CELL.least - 0.01);
        }
      }
  });

  it('lead to where they truly are, exactly there without a line', () => {
    const { layout, parts } = laid(shafts, 9000, 1080);
    layout.parts.forEach((spot, i) => {
      expect(spot.anchor).toBe(parts[i]);
      expect(leaderPath(spot) === '').toBe(Math.abs(spot.x - spot.anchor) < 2);
    });
    // Zoomed in so far that all have room.
    expect(layout.parts.filter((spot) => leaderPath(spot) === '').length).toBeGreaterThan(6);
  });

  it('do not push others out of sight, nor pull in what is out of sight', () => {
    const { layout, plan } = laid(shafts, 600, 1080);
    for (const { x } of layout.parts) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(plan.width);
    }
    const far = layoutOf(
      plan,
      layout.parts.map(({ anchor }) => anchor - 5000),
      layout.wheels.map(({ anchor }) => anchor - 5000),
    );
    expect(Math.max(...far.parts.map(({ x }) => x))).toBeLessThan(-2000);
  });

  it('keep their rows while the picture is zoomed and panned', () => {
    const heights = [300, 900, 9000].map((scale) => {
      const { layout } = laid(shafts, scale, 1080);
      return layout.parts.map(({ y }) => y);
    });
    expect(heights[1]).toEqual(heights[0]);
    expect(heights[2]).toEqual(heights[0]);
  });
});

describe('names', () => {
  it('are broken between words, and shortened in their middle where they must be', () => {
    expect(fittedName('motors', 12, 2)).toEqual(['motors']);
    expect(fittedName('rear joint at the beam', 13, 2)).toEqual(['rear joint at', 'the beam']);
    expect(fittedName('rear joint at the transfer', 11, 1)).toEqual(['rear…nsfer']);
    for (const name of ['a'.repeat(60), 'one two three four five six seven eight nine'])
      for (const line of fittedName(name, 14, 2)) expect(line.length).toBeLessThanOrEqual(14);
  });
});

describe('a broken drive line', () => {
  it('is still drawn, with what is broken marked: a circle, a name that nothing has, a part that is no object', () => {
    const tree = treeOf(
      withParts([
        { name: 'a', kind: 'shaft', from: 'c' },
        { name: 'b', kind: 'shaft', from: 'a' },
        { name: 'c', kind: 'shaft', from: 'b' },
        { name: 'd', kind: 'reduction', from: 'nowhere', wheels: ['front'] },
        7,
      ]),
    );
    expect(tree.parts.filter(({ cut }) => cut).map(({ name }) => name)).toEqual(['c', 'd']);
    const places = placesOf(tree);
    const plan = planOf(tree, places, 800);
    expect(plan.rows.flat()).toHaveLength(5);
  });

  it('of a document without one is empty', () => {
    expect(treeOf(null).parts).toEqual([]);
    expect(treeOf({ vehicle: { driveline: { parts: 'none' } } }).parts).toEqual([]);
    expect(planOf(treeOf(null), [], 800).rows).toEqual([]);
  });
});
