import { describe, expect, test } from 'vitest';
import { heightAt } from '../../../sim/ground/query.ts';
import { groundKinds } from '../../../sim/ground/registry.ts';
import { layGround, loadScenario } from '../../../sim/index.ts';
import type { Json } from '../../../src/documents/json.ts';
import { valueAt } from '../../../src/documents/json.ts';
import {
  GroundReader,
  handlesInSight,
  heightOf,
  pieceAt,
  problemsOf,
  shapeOfPiece,
} from '../../../src/groundwork/pieces.ts';
import { pulledSize, setSize, sizeHandlesOf } from '../../../src/groundwork/sizes.ts';
import { smallTruck } from '../small-truck.ts';

/** The small truck on 0.6 m of level, a 20 mm step of 1 m, and a table of three points. */
function onTable() {
  const document = smallTruck();
  document.ground.push({
    kind: 'table',
    points: [
      { station: '100 mm', height: '5 mm' },
      { station: '300 mm', height: '25 mm' },
      { station: '900 mm', height: '5 mm' },
    ],
  });
  return document;
}

function laid(document: Json) {
  const scenario = loadScenario(document);
  if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems));
  const ground = layGround(scenario.value);
  if (!('x' in ground)) throw new Error('the ground cannot be laid');
  return ground;
}

describe('The ground piece by piece', () => {
  test('lies where the engine lays it', () => {
    const document = onTable();
    const pieces = new GroundReader().read(document);
    const ground = laid(document);
    expect(pieces.map(({ from }) => from.x)).toEqual(ground.pieces.map(({ from }) => from));
    // The same straight lines, summed in another order: rounding only.
    for (const station of [0.3, 0.9, 1.65, 1.75, 2.2, 9])
      expect(heightOf(pieces, station)).toBeCloseTo(heightAt(ground, station), 12);
  });

  test('names the piece at a station, and none beside the ground', () => {
    const pieces = new GroundReader().read(onTable());
    expect(pieceAt(pieces, 1)?.path).toEqual(['ground', 1]);
    expect(pieceAt(pieces, -1)).toBeUndefined();
    expect(pieceAt(pieces, 50)).toBeUndefined();
  });

  test('goes on behind a piece that cannot be laid, and its points can still be taken hold of', () => {
    const document = onTable();
    document.ground[2] = {
      kind: 'table',
      points: [
        { station: '0 mm', height: '0 mm' },
        { station: '300 mm', height: '20 mm' },
        { station: '200 mm', height: '0 mm' },
      ],
    };
    document.ground.push({ kind: 'flat', length: '1 m' });
    const pieces = new GroundReader().read(document);
    expect(pieces[2]?.to).toEqual(pieces[2]?.from);
    expect(pieces[2]?.points).toHaveLength(3);
    expect(pieces[3]?.from.x).toBeCloseTo(1.6, 12);
  });

  test('reads a piece that did not change only once', () => {
    const reader = new GroundReader();
    const document = onTable();
    const before = reader.read(document);
    const kept = document.ground[1];
    let reads = 0;
    // A getter tells whether anybody looks into the piece again.
    const watched = new Proxy(kept as object, {
      get(target, key) {
        reads += 1;
        return Reflect.get(target, key);
      },
    });
    const watchedDocument = {
      ...document,
      ground: [document.ground[0], watched, document.ground[2]],
    } as never;
    reader.read(watchedDocument);
    const first = reads;
    reader.read({ ...(watchedDocument as object) } as never);
    // Its title and kind are looked up each time, its figures are not.
    expect(reads - first).toBeLessThan(first);
    expect(before).toHaveLength(3);
  });

  test('gives a problem to the piece whose path it has', () => {
    const problem = (path: string) => ({ path, message: 'is wrong', severity: 'error' as const });
    const all = [problem('ground[1].height'), problem('ground[10]'), problem('ground'), problem('ground[1]')];
    expect(problemsOf(all, ['ground', 1]).map(({ path }) => path)).toEqual(['ground[1].height', 'ground[1]']);
  });
});

describe('Points in sight', () => {
  const many = (): Json => ({
    ground: [
      {
        kind: 'table',
        points: Array.from({ length: 2001 }, (_, i) => ({ station: i / 1000, height: 0 })),
      },
    ],
  });

  test('are so far apart that a hand can tell them, and the wanted one is always there', () => {
    const pieces = new GroundReader().read(many());
    const wanted = ['ground', 0, 'points', 777];
    const { handles, hidden } = handlesInSight(pieces, { from: 0.5, to: 1.5, gap: 0.05 }, wanted);
    expect(handles.length).toBeLessThan(30);
    expect(handles.length + hidden).toBe(1001);
    expect(handles.map(({ id }) => id)).toContain('ground[0].points[777]');
    const others = handles.filter(({ id }) => id !== 'ground[0].points[777]');
    for (const [i, { at }] of others.slice(1).entries())
      expect(at.x - (others[i]?.at.x ?? 0)).toBeGreaterThan(0.02);
  });

  test('leave out the first one, which lies where its piece begins', () => {
    const pieces = new GroundReader().read(many());
    const { handles } = handlesInSight(pieces, { from: -1, to: 1, gap: 0 });
    expect(handles[0]?.id).toBe('ground[0].points[1]');
  });
});

describe('Sizes of obstacles', () => {
  const handles = (piece: Json) => {
    const document: Json = { ...smallTruck(), ground: [{ kind: 'flat', length: '1 m' }, piece] };
    const laidPiece = new GroundReader().read(document)[1];
    if (laidPiece === undefined) throw new Error('no piece');
    return { document, found: sizeHandlesOf(document, laidPiece) };
  };

  test('are pulled where they show: a step at its edge upwards, at its end forward', () => {
    const { found } = handles({ kind: 'step', height: '30 mm', length: '400 mm' });
    const [height, length] = found;
    expect(height?.at).toEqual({ x: 1, z: 0.03 });
    expect(height?.way.z).toBeCloseTo(1, 6);
    expect(length?.at).toEqual({ x: 1.4, z: 0.03 });
    expect(length?.way.x).toBeCloseTo(1, 6);
  });

  test('of every kind move their vertex by what is pulled, for the kinds that keep their vertices', () => {
    let tried = 0;
    for (const kind of groundKinds) {
      const { document, found } = handles({ kind: kind.kind, ...(kind.sample as object) } as Json);
      for (const handle of found) {
        const by = { x: 2e-3 * handle.way.x, z: 2e-3 * handle.way.z };
        const to = pulledSize(handle, by);
        const { document: after } = setSize(document, handle.path, to);
        const shape = shapeOfPiece(valueAt(after, ['ground', 1]) as Json);
        if (shape === undefined) continue;
        tried += 1;
        const moved = shape.map(({ x, z }) => Math.hypot(1 + x - handle.at.x - by.x, z - handle.at.z - by.z));
        // Pulled by 2 mm; the figure is written to 0.1 mm, which may move the vertex that far.
        expect(Math.min(...moved), `${handle.label}`).toBeLessThan(2e-4);
      }
    }
    expect(tried).toBeGreaterThan(10);
  });

  test('stay within their limits and keep the unit that they were written in', () => {
    const { document } = handles({ kind: 'step', height: '3 cm', length: '400 mm' });
    const taller = setSize(document, ['ground', 1, 'height'], 0.0456);
    expect(valueAt(taller.document, ['ground', 1, 'height'])).toBe('4.56 cm');
    const none = setSize(document, ['ground', 1, 'length'], -1);
    expect(loadScenario(none.document).ok).toBe(true);
  });
});
