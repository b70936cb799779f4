import { describe, expect, it } from 'vitest';
import type { ElementKind, ElementLaw } from '../../../sim/elements/element.ts';
import { elementKinds } from '../../../sim/elements/registry.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { coordinateIn } from '../../../src/canvas/coordinates.ts';
import { elementDrawings } from '../../../src/canvas/elements/registry.ts';
import type { Path } from '../../../src/canvas/geometry/shapes.ts';
import type { Ink, Pen } from '../../../src/canvas/pen.ts';
import {
  type Seat,
  type Site,
  type SpanSite,
  seatsOf,
  siteAt,
  type TurnSite,
} from '../../../src/canvas/sites.ts';

/** A pen that writes down what is drawn. */
function notebook() {
  const strokes: { path: Path; ink: Ink }[] = [];
  const fills: { path: Path; ink: Ink }[] = [];
  const pen: Pen = {
    stroke: (paths, _weight, ink = 'ink') => strokes.push(...paths.map((path) => ({ path, ink }))),
    fill: (path, ink) => fills.push({ path, ink }),
  };
  return { pen, strokes, fills, all: () => [...strokes, ...fills].flatMap((s) => [...s.path]) };
}

const state = { effort: 0, strain: 0, limit: 0, unit: 40, slot: 0 };
const span = (kind: string, x: number, more: Partial<SpanSite> = {}): SpanSite => ({
  ...state,
  shape: 'span',
  kind,
  x,
  a: { x: 100, y: 200 },
  b: { x: 100, y: 150 + 1000 * x },
  drawn: 50,
  scale: 1000,
  exact: true,
  ...more,
});
const turn = (kind: string, x: number, more: Partial<TurnSite> = {}): TurnSite => ({
  ...state,
  shape: 'turn',
  kind,
  x,
  at: { x: 100, y: 200 },
  now: 0.3 + x,
  drawn: 0.3,
  sign: 1,
  ...more,
});

const draw = (site: Site) => {
  const notes = notebook();
  elementDrawings.find((d) => d.kinds.includes(site.kind))?.draw(site, notes.pen);
  return notes;
};

const extent = (values: readonly number[], offset: 0 | 1) => {
  const own = values.filter((_, i) => i % 2 === offset);
  return Math.max(...own) - Math.min(...own);
};

describe('every kind of element that the engine knows', () => {
  it.each((elementKinds as readonly unknown[] as readonly ElementKind[]).map((k) => [k.kind, k] as const))(
    '%s is drawn wherever it acts, in every state, with finite lines',
    (kind, { range }) => {
      const [least, most] = range;
      for (const share of [0, 0.25, 0.5, 0.75, 1]) {
        const x = least + share * (most - least);
        for (const site of [span(kind, Math.min(0.04, x)), turn(kind, x, { strain: x }), span(kind, 0.05)]) {
          const notes = draw(site);
          expect(notes.strokes.length + notes.fills.length).toBeGreaterThan(
            site.shape === 'span' && site.x === 0.05 ? -1 : 0,
          );
          expect(notes.all().every(Number.isFinite)).toBe(true);
        }
      }
    },
  );

  it('has one drawing only', () => {
    const kinds = elementDrawings.flatMap((d) => d.kinds);
    expect(new Set(kinds).size).toBe(kinds.length);
  });
});

describe('what an element shows of its state', () => {
  it('a coil spring closes up by the true travel', () => {
    expect(extent(draw(span('linear-spring', 0)).all(), 1)).toBeCloseTo(50, 6);
    expect(extent(draw(span('linear-spring', 0.02)).all(), 1)).toBeCloseTo(30, 6);
  });

  it("a torsion bar's arc spans the angle by which it is wound", () => {
    const arcOf = (strain: number) => {
      const arc = draw(turn('torsion-bar', 0, { strain })).strokes.at(-1)?.path ?? [];
      const angle = (i: number) => Math.atan2(200 - (arc[i + 1] as number), (arc[i] as number) - 100);
      return angle(arc.length - 2) - angle(0);
    };
    expect(arcOf(0.4)).toBeCloseTo(0.4, 9);
    expect(arcOf(0.8)).toBeCloseTo(0.8, 9);
    expect(arcOf(-0.3)).toBeCloseTo(-0.3, 9);
  });

  it.each(['bump-stop', 'droop-stop'])(
    'a %s is an outline while there is room and solid when it is met',
    (kind) => {
      const limit = kind === 'bump-stop' ? 0.01 : -0.01;
      expect(draw(span(kind, 0, { limit })).fills[0]?.ink).toBe('paper');
      expect(draw(span(kind, limit, { limit, effort: -5 })).fills[0]?.ink).toBe('ink');
      expect(draw(turn(kind, 0, { limit: limit * 20 })).fills[0]?.ink).toBe('paper');
      expect(draw(turn(kind, limit * 20, { limit: limit * 20, effort: 5 })).fills[0]?.ink).toBe('ink');
    },
  );

  it("a stop's block comes nearer to the moving part by the true travel", () => {
    const block = (x: number) => {
      const ys = (draw(span('bump-stop', x, { limit: 0.02 })).fills[0]?.path ?? []).filter(
        (_, i) => i % 2 === 1,
      );
      return 200 - Math.max(...ys);
    };
    expect(block(0)).toBeCloseTo(20, 6);
    expect(block(0.015)).toBeCloseTo(5, 6);
  });

  it('a rubber block bulges as it is pressed, and keeps its area', () => {
    const area = (path: Path) => {
      let sum = 0;
      for (let i = 0; i < path.length; i += 2) {
        const [x0, y0] = [path[i] as number, path[i + 1] as number];
        const [x1, y1] = [path[(i + 2) % path.length] as number, path[(i + 3) % path.length] as number];
        sum += (x0 * y1 - x1 * y0) / 2;
      }
      return Math.abs(sum);
    };
    const free = draw(span('rubber-block', 0)).fills[0]?.path ?? [];
    const pressed = draw(span('rubber-block', 0.015)).fills[0]?.path ?? [];
    expect(extent([...pressed], 0)).toBeGreaterThan(extent([...free], 0) * 1.2);
    // Nine spots a side: their polygon is smaller than the parabola by 1/96 of its bulge, 0.4 % here.
    expect(area(pressed) / area(free)).toBeCloseTo(1, 1.9);
  });

  it('a leaf spring loses camber by the true travel', () => {
    const camber = (x: number) => {
      const leaf =
        draw(span('leaf-spring', x, { a: { x: 100, y: 200 - 1000 * x }, b: { x: 100, y: 150 } })).strokes[0]
          ?.path ?? [];
      return extent([...leaf], 1);
    };
    expect(camber(0) - camber(0.01)).toBeCloseTo(10, 6);
  });
});

const law: ElementLaw = {
  memory: 0,
  energy: (x) => 500 * x * x,
  spring: (x) => -1000 * x,
  loss: () => 0,
  stiffness: () => 1000,
  damping: 0,
  corners: [0.012],
};
const chassis = { x: 0, z: 0, angle: 0 };
const mechanism = {
  size: 0.05,
  joints: [
    {
      name: 'arm',
      kind: 'hinge',
      parent: 0,
      child: 1,
      anchor: { x: -0.3, z: 0.07 },
      axis: { x: 0, z: 1 },
      sign: -1,
    },
    {
      name: 'guide',
      kind: 'slide',
      parent: 0,
      child: 2,
      anchor: { x: 0, z: 0.05 },
      axis: { x: 0, z: 1 },
      sign: 1,
    },
    {
      name: 'loose',
      kind: 'free',
      parent: 0,
      child: 2,
      anchor: { x: 0, z: 0 },
      axis: { x: 0, z: 1 },
      sign: 1,
    },
  ],
  wheels: [
    { body: 1, hub: { x: -0.4, z: 0.05 }, radius: 0.05 },
    { body: 2, hub: { x: 0, z: 0.05 }, radius: 0.05 },
  ],
  members: [],
  elements: [
    { name: 'bar', kind: 'torsion-bar', coordinate: { kind: 'joint', joint: 0 }, count: 1, law },
    { name: 'spring', kind: 'linear-spring', coordinate: { kind: 'joint', joint: 1 }, count: 1, law },
    { name: 'damper', kind: 'damper', coordinate: { kind: 'joint', joint: 1 }, count: 1, law },
    {
      name: 'strut',
      kind: 'damper',
      coordinate: {
        kind: 'span',
        a: { body: 2, at: { x: 0, z: 0.05 } },
        b: { body: 0, at: { x: 0, z: 0.15 } },
        drawn: 0.1,
      },
      count: 1,
      law,
    },
    { name: 'nothing', kind: 'damper', coordinate: { kind: 'joint', joint: 2 }, count: 1, law },
  ],
} as unknown as Mechanism;

describe('coordinates as the picture reads them', () => {
  it('a hinge is positive in the sense of its sign, relative to its parent', () => {
    const poses = [{ ...chassis, angle: 0.1 }, { ...chassis, angle: -0.1 }, chassis];
    expect(coordinateIn(mechanism, { kind: 'joint', joint: 0 }, poses)).toBeCloseTo(0.2, 12);
  });

  it('a slide is positive along its axis, also in a parent that is turned', () => {
    const turned = { x: 2, z: 1, angle: 0.4 };
    const risen = { x: 2 - 0.01 * Math.sin(0.4), z: 1 + 0.01 * Math.cos(0.4), angle: 0.4 };
    expect(coordinateIn(mechanism, { kind: 'joint', joint: 1 }, [turned, turned, risen])).toBeCloseTo(
      0.01,
      12,
    );
  });

  it('a span is positive when it is pressed, a lift when it has risen', () => {
    const risen = { x: 0, z: 0.02, angle: 0 };
    const strut = mechanism.elements[3]?.coordinate;
    expect(strut && coordinateIn(mechanism, strut, [chassis, chassis, risen])).toBeCloseTo(0.02, 12);
    const lift = { kind: 'lift', body: 2, at: { x: 0, z: 0.05 }, parent: 0 } as const;
    expect(coordinateIn(mechanism, lift, [chassis, chassis, risen])).toBeCloseTo(0.02, 12);
  });
});

describe('sites of elements', () => {
  const seats = seatsOf(mechanism);

  it('stand side by side where they share a guide, and leave out what has no place', () => {
    expect(seats.map((s) => [s.element.name, s.slot])).toEqual([
      ['bar', 0],
      ['spring', 0],
      ['damper', 1],
      ['strut', 0],
    ]);
  });

  it('carry strain, limit and the direction of the moving part', () => {
    const poses = [chassis, { ...chassis, angle: -0.2 }, chassis];
    const site = siteAt(mechanism, seats[0] as Seat, poses, 100) as TurnSite;
    expect(site.strain).toBeCloseTo(0.2, 12);
    expect(site.limit).toBe(0.012);
    expect(site.now).toBeCloseTo(Math.atan2(-0.02, -0.1) - 0.2, 12);
    expect(site.at.x).toBeCloseTo(-30, 12);
    expect(site.at.y).toBeCloseTo(-7, 12);
  });

  it('keep the length of a strut true to scale', () => {
    const poses = [chassis, chassis, { x: 0, z: 0.02, angle: 0 }];
    const site = siteAt(mechanism, seats[3] as Seat, poses, 100) as SpanSite;
    expect(site.drawn).toBeCloseTo(10, 12);
    expect(site.a.y - site.b.y).toBeCloseTo(8, 12);
  });
});
