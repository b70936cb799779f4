import { distance, type Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { seatsOf } from '../canvas/sites.ts';
import type { Json } from '../documents/json.ts';
import type { Handle } from '../edits/edit.ts';
import { entriesOf } from '../panels/fields/layout.ts';
import type { Drawn } from '../runs/desk.ts';

/** What an entry of the document looks like on the drawing, as far as it takes to find and to mark it. All in m. */
export interface Shape {
  readonly entry: Path;
  /** What it is found by: smaller things lie over larger ones. */
  readonly rank: number;
  readonly lines: readonly (readonly Vec2[])[];
  readonly discs: readonly { readonly at: Vec2; readonly radius: number }[];
  /** Points that are marked, whatever the scale. */
  readonly spots: readonly Vec2[];
}

const RANK = { point: 0, element: 1, member: 2, wheel: 3, outline: 4 } as const;

/** Paths of the entries of a list by name. */
function byName(document: Json, list: Path): ReadonlyMap<string, Path> {
  return new Map(
    entriesOf(document, list).flatMap(({ path, value: { name } }) =>
      typeof name === 'string' ? [[name, path] as const] : [],
    ),
  );
}

function wheelShapes(document: Json, { mechanism }: Drawn): readonly Shape[] {
  const paths = byName(document, ['vehicle', 'wheels']);
  return mechanism.wheels.flatMap(({ name, hub, radius }) => {
    const entry = paths.get(name);
    if (entry === undefined) return [];
    return [{ entry, rank: RANK.wheel, lines: [], discs: [{ at: hub, radius }], spots: [] }];
  });
}

function memberShapes(document: Json, { mechanism }: Drawn): readonly Shape[] {
  const paths = byName(document, ['vehicle', 'members']);
  return mechanism.members.flatMap(({ name, lines, pins }) => {
    const entry = paths.get(name);
    if (entry === undefined) return [];
    return [
      {
        entry,
        rank: RANK.member,
        lines: lines.map(({ from, to }) => [from.at, to.at]),
        discs: [],
        spots: pins.map(({ at }) => at),
      },
    ];
  });
}

function elementShapes(document: Json, { mechanism }: Drawn): readonly Shape[] {
  const paths = byName(document, ['vehicle', 'elements']);
  return seatsOf(mechanism).flatMap(({ element, ends, turn, radius }) => {
    const entry = paths.get(element.name);
    if (entry === undefined) return [];
    const lines = ends === undefined ? [] : [[ends.a.at, ends.b.at]];
    const discs = turn === undefined ? [] : [{ at: turn.joint.anchor, radius: radius * 0.45 }];
    return [{ entry, rank: RANK.element, lines, discs, spots: [] }];
  });
}

function outlineShapes(document: Json, { mechanism }: Drawn): readonly Shape[] {
  return entriesOf(document, ['vehicle', 'bodywork', 'outlines']).flatMap(({ path }, i) => {
    const outline = mechanism.outlines[i];
    const first = outline?.points[0];
    if (outline === undefined || first === undefined) return [];
    const line = outline.closed ? [...outline.points, first] : outline.points;
    return [{ entry: path, rank: RANK.outline, lines: [line], discs: [], spots: [] }];
  });
}

/**
 * Shapes of all entries that can be seen: of wheels, members, elements and outlines as they are compiled, of everything
 * else by its points.
 */
export function shapesOf(
  document: Json,
  drawn: Drawn | undefined,
  handles: readonly Handle[],
): readonly Shape[] {
  const seen =
    drawn === undefined
      ? []
      : [
          ...elementShapes(document, drawn),
          ...memberShapes(document, drawn),
          ...wheelShapes(document, drawn),
          ...outlineShapes(document, drawn),
        ];
  const known = new Set(seen.map(({ entry }) => pathText(entry)));
  return [...pointShapes(handles.filter(({ entry }) => !known.has(pathText(entry)))), ...seen];
}

/** Entries that are known by their points only, each with a line through them: masses, pulls, what cannot be compiled. */
export function pointShapes(handles: readonly Handle[]): readonly Shape[] {
  const grouped = new Map<string, Handle[]>();
  for (const handle of handles) {
    if (handle.kind !== 'point') continue;
    const key = pathText(handle.entry);
    grouped.set(key, [...(grouped.get(key) ?? []), handle]);
  }
  return [...grouped.values()].map((points) => {
    const places = points.map(({ at }) => at);
    const entry = points[0]?.entry ?? [];
    return { entry, rank: RANK.point, lines: places.length > 1 ? [places] : [], discs: [], spots: places };
  });
}

function distanceToLine(p: Vec2, line: readonly Vec2[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < line.length; i += 1) {
    const [a, b] = [line[i - 1] as Vec2, line[i] as Vec2];
    const [dx, dz] = [b.x - a.x, b.z - a.z];
    const along = dx * dx + dz * dz;
    const t = along === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.z - a.z) * dz) / along));
    least = Math.min(least, Math.hypot(p.x - a.x - t * dx, p.z - a.z - t * dz));
  }
  return least;
}

/** How far a point lies from a shape, m; 0 within a disc. */
export function distanceTo({ lines, discs, spots }: Shape, p: Vec2): number {
  return Math.min(
    ...lines.map((line) => distanceToLine(p, line)),
    ...discs.map(({ at, radius }) => Math.max(0, distance(at, p) - radius)),
    ...spots.map((at) => distance(at, p)),
    Number.POSITIVE_INFINITY,
  );
}

/** The entry at a drawn point, within reach, m: of several the smaller kind of thing, and of those the nearest. */
export function entryAt(shapes: readonly Shape[], p: Vec2, reach: number): Path | undefined {
  let best: { readonly entry: Path; readonly rank: number; readonly far: number } | undefined;
  for (const shape of shapes) {
    const far = distanceTo(shape, p);
    if (far > reach) continue;
    const { entry, rank } = shape;
    if (best === undefined || rank < best.rank || (rank === best.rank && far < best.far))
      best = { entry, rank, far };
  }
  return best?.entry;
}
