import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../../shared/problem.ts';
import type { Ground, GroundKind } from '../../../sim/ground/ground.ts';
import { type GroundPiece, layGround, levelRun } from '../../../sim/ground/lay.ts';
import { groundKinds } from '../../../sim/ground/registry.ts';
import { noFiles, shapeOf } from './kinds.ts';

/** A piece in SI, as the document's schema would hand it over. */
function piece(kind: string, written: Record<string, unknown>): GroundPiece {
  const known = groundKinds.find((k) => k.kind === kind) as unknown as GroundKind;
  return { kind, ...known.fields.parse(written) };
}

const lay = (...pieces: GroundPiece[]) => layGround(pieces, noFiles);

function laid(...pieces: GroundPiece[]): Ground {
  const checked = lay(...pieces);
  if (!checked.ok) throw new Error(checked.problems.map(problemLine).join('\n'));
  return checked.value;
}

const vertices = (g: Ground): [number, number][] => Array.from(g.x, (x, i) => [x, g.z[i] ?? Number.NaN]);
const told = (...pieces: GroundPiece[]) => lay(...pieces).problems.map(problemLine);

describe('laying ground', () => {
  it('chains pieces: each begins where the one before it ends', () => {
    const g = laid(
      piece('flat', { length: 1 }),
      piece('step', { height: 0.03, length: 0.5 }),
      piece('ramp', { length: 1, height: -0.1 }),
    );
    expect(vertices(g)).toEqual([
      [-levelRun, 0],
      [0, 0],
      [1, 0],
      [1, 0.03],
      [1.5, 0.03],
      [2.5, expect.closeTo(-0.07, 12)],
      [2.5 + levelRun, expect.closeTo(-0.07, 12)],
    ]);
    expect(g.count).toBe(g.x.length);
    expect([g.from, g.to]).toEqual([0, 2.5]);
  });

  it('labels the pieces with their stations', () => {
    const g = laid(piece('flat', { length: 1 }), piece('trench', { width: 0.07, depth: 0.05 }));
    expect(g.pieces).toEqual([
      { kind: 'flat', title: 'Level ground', from: 0, to: 1 },
      { kind: 'trench', title: 'Trench', from: 1, to: 1.07 },
    ]);
  });

  it('goes on level before the start and after the end', () => {
    const g = laid(piece('ramp', { length: 1, height: 0.2 }));
    expect(vertices(g)[0]).toEqual([-levelRun, 0]);
    expect(vertices(g).at(-1)).toEqual([1 + levelRun, 0.2]);
  });

  it('lays no vertex twice', () => {
    const g = laid(
      piece('step', { height: 0, length: 1 }),
      piece('bumps', { count: 2, radius: 0.02, spacing: 0.04 }),
      piece('flat', { length: 1 }),
    );
    vertices(g)
      .slice(1)
      .forEach(([x, z], i) => {
        expect(Math.hypot(x - (g.x[i] ?? 0), z - (g.z[i] ?? 0))).toBeGreaterThan(1e-9);
      });
  });

  it('joins two faces at one station into one', () => {
    const g = laid(
      piece('step', { height: 0.02, length: 1 }),
      piece('step', { height: 0.02, length: 1 }),
      piece('ramp', { length: 0, height: 0.01 }),
      piece('step', { height: 0.02, length: 1 }),
    );
    expect(
      vertices(g)
        .filter(([x]) => x === 2)
        .map(([, z]) => z),
    ).toEqual([0.04, 0.05, expect.closeTo(0.07, 12)]);
  });

  it('leaves out a wall without width, and says where', () => {
    const pieces = [
      piece('trench', { width: 0.1, depth: 0.05 }),
      piece('step', { height: -0.02, length: 1 }),
    ];
    const g = laid(...pieces);
    expect(
      vertices(g)
        .filter(([x]) => x === 0.1)
        .map(([, z]) => z),
    ).toEqual([-0.05, -0.02]);
    expect(told(...pieces)).toEqual([
      'ground[1]: goes up and down again at station 100 mm; that wall or slot without width is left out (put a short flat between the two faces)',
    ]);
  });

  it('leaves nothing of a wall that goes up and comes all the way down', () => {
    const g = laid(
      piece('flat', { length: 1 }),
      piece('ramp', { length: 0, height: 0.1 }),
      piece('ramp', { length: 0, height: -0.1 }),
      piece('flat', { length: 1 }),
    );
    expect(vertices(g).slice(1, -1)).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
    ]);
  });

  it('reports the problems of all pieces, with their place in the document', () => {
    expect(
      told(
        piece('ramp', { length: 1 }),
        piece('flat', { length: 1 }),
        piece('bumps', { count: 2, radius: 0.1 }),
        { kind: 'bog' },
      ),
    ).toEqual([
      'ground[0]: has neither a height nor an angle (give one of them)',
      'ground[2].spacing: is missing (give the distance from one middle to the next)',
      expect.stringMatching(/^ground\[3\]\.kind: no ground is called 'bog' \(known: flat, /),
    ]);
  });

  it('refuses more than 200,000 points, and says which piece went over', () => {
    const row = piece('washboard', { wavelength: 0.1, height: 0.01, count: 3000 });
    const checked = lay(row, row);
    expect(checked.ok).toBe(false);
    expect(checked.problems.map(problemLine)[0]).toMatch(
      /^ground\[1\]: makes a ground of 312,\d{3} points; at most 200,000 are allowed/,
    );
  });

  it('refuses a table of 300,000 points', () => {
    const points = Array.from({ length: 300_000 }, (_, i) => ({ station: i / 1000, height: 0 }));
    expect(told({ kind: 'table', points } as GroundPiece)[0]).toMatch(
      /^ground\[0\]: makes a ground of 300,00\d points/,
    );
  });

  it('gives a ground in which x never falls, whatever is chained', () => {
    const any = fc.constantFrom(...groundKinds.map((k) => piece(k.kind, k.sample)));
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 8 }), (pieces) => {
        const g = laid(...pieces);
        for (let i = 1; i < g.count; i++) {
          const [x, z] = [g.x[i] as number, g.z[i] as number];
          if (!(x >= (g.x[i - 1] as number)) || !Number.isFinite(z))
            throw new Error(`vertex ${i}: ${x}, ${z}`);
        }
        expect(g.pieces).toHaveLength(pieces.length);
        g.pieces.forEach((p, i) => {
          expect(p.from).toBe(g.pieces[i - 1]?.to ?? 0);
        });
        expect(g.pieces.at(-1)?.to).toBe(g.to);
      }),
      { numRuns: 30 },
    );
  });

  it('keeps the height of what it chains: the end of the chain is the sum of the pieces', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            height: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
            length: fc.double({ min: 0.01, max: 1, noNaN: true }),
          }),
          { minLength: 1, maxLength: 20 },
        ),
        (steps) => {
          const g = laid(...steps.map((s) => piece('step', s)));
          // 20 additions of figures below 1: at most 20 roundings of 1e-16 of a sum below 20.
          expect(g.to).toBeCloseTo(
            steps.reduce((sum, s) => sum + s.length, 0),
            12,
          );
          expect(g.z[g.count - 1]).toBeCloseTo(
            steps.reduce((sum, s) => sum + s.height, 0),
            12,
          );
        },
      ),
    );
  });

  it('lays the same shape that the kind gives', () => {
    const sample = { length: '400 mm', height: '20 mm' };
    const { points } = shapeOf(
      groundKinds.find((k) => k.kind === 'cosine-bump'),
      sample,
    );
    const g = laid(piece('cosine-bump', sample));
    expect(vertices(g).slice(1, -1)).toEqual(points.map((p) => [p.x, p.z]));
  });
});
