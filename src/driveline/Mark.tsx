import { useEffect, useMemo, useRef } from 'react';
import { createPortal } from 'react-dom';
import { type Pose, place as placed } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { BodyPoint, Mechanism } from '../../sim/mechanism/mechanism.ts';
import { onPicture } from '../canvas/camera.ts';
import type { Seen, Sight } from '../canvas/sight.ts';
import { seatsOf } from '../canvas/sites.ts';
import { isObject, type Json, valueAt } from '../documents/json.ts';
import type { Place } from './places.ts';
import type { Tree } from './tree.ts';

/** What is marked on the picture: lines between points of bodies, and rings round some: of a wheel, or of a few px. */
interface Marked {
  readonly lines: readonly (readonly [BodyPoint, BodyPoint])[];
  readonly rings: readonly {
    readonly at: readonly (BodyPoint & { readonly weight: number })[];
    readonly radius?: number;
  }[];
}

const alone = (point: BodyPoint) => [{ ...point, weight: 1 }];

function markedPart(mechanism: Mechanism, tree: Tree, places: readonly Place[], index: number): Marked {
  const bodyOf = (name: string) =>
    Math.max(
      0,
      mechanism.bodies.findIndex((body) => body.name === name),
    );
  const ends = tree.parts[index]?.ends;
  const point = ({ on, at }: { on: string; at: BodyPoint['at'] }): BodyPoint => ({ body: bodyOf(on), at });
  const anchors = places[index]?.anchors ?? [];
  return {
    lines: ends === undefined ? [] : [[point(ends[0]), point(ends[1])]],
    rings: [{ at: anchors.map((anchor) => ({ ...point(anchor), weight: anchor.weight })) }],
  };
}

function markedMember({ members }: Mechanism, name: string): Marked | undefined {
  const member = members.find((each) => each.name === name);
  return (
    member && {
      lines: member.lines.map(({ from, to }) => [from, to] as const),
      rings: member.pins.map((pin) => ({ at: alone(pin) })),
    }
  );
}

function markedElement(mechanism: Mechanism, name: string): Marked | undefined {
  const seat = seatsOf(mechanism).find(({ element }) => element.name === name);
  if (seat === undefined) return undefined;
  if (seat.ends !== undefined) return { lines: [[seat.ends.a, seat.ends.b]], rings: [] };
  const joint = seat.turn?.joint;
  return joint && { lines: [], rings: [{ at: alone({ body: joint.parent, at: joint.anchor }) }] };
}

const textAt = (document: Json, path: Path): string | undefined => {
  const value = valueAt(document, path);
  return typeof value === 'string' ? value : undefined;
};

/** Where the entry at a path is on the vehicle; undefined for one that is nowhere on it. */
function markedEntry(
  document: Json,
  mechanism: Mechanism,
  tree: Tree,
  places: readonly Place[],
  entry: Path,
) {
  const [, list, second] = entry;
  const last = entry.at(-1);
  if (list === 'driveline' && second === 'parts' && typeof last === 'number')
    return tree.parts[last] && markedPart(mechanism, tree, places, last);
  if (list === 'wheels') {
    const wheel = mechanism.wheels.find(({ name }) => name === textAt(document, [...entry, 'name']));
    return (
      wheel && {
        lines: [],
        rings: [{ at: alone({ body: wheel.body, at: wheel.hub }), radius: wheel.radius }],
      }
    );
  }
  const value = valueAt(document, entry);
  if (!isObject(value)) return undefined;
  const member = list === 'members' ? value.name : value.member;
  const element = list === 'elements' ? value.name : value.element;
  if (typeof member === 'string') return markedMember(mechanism, member);
  return typeof element === 'string' ? markedElement(mechanism, element) : undefined;
}

/** Radius of a ring round a place, px. */
const RING = 11;

/** Draws the marks for what the picture shows. */
function draw(layer: SVGSVGElement, { lines, rings }: Marked, { view, poses }: Seen): void {
  const spot = ({ body, at }: BodyPoint) => onPicture(view, placed(poses[body] ?? (poses[0] as Pose), at));
  const d = lines.map(([from, to]) => {
    const [a, b] = [spot(from), spot(to)];
    return `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`;
  });
  layer.querySelector('path')?.setAttribute('d', d.join(''));
  const circles = layer.querySelectorAll('circle');
  rings.forEach(({ at, radius }, i) => {
    const middle = at.reduce(
      (sum, { weight, ...point }) => {
        const p = spot(point);
        return { x: sum.x + weight * p.x, y: sum.y + weight * p.y };
      },
      { x: 0, y: 0 },
    );
    circles[i]?.setAttribute('cx', middle.x.toFixed(1));
    circles[i]?.setAttribute('cy', middle.y.toFixed(1));
    circles[i]?.setAttribute('r', String(radius === undefined ? RING : Math.max(4, radius * view.scale)));
  });
}

interface MarkProps {
  readonly document: Json;
  readonly mechanism: Mechanism;
  readonly tree: Tree;
  readonly places: readonly Place[];
  readonly entry: Path;
  readonly sight: Sight;
  /** The element that the picture fills. */
  readonly picture: HTMLElement;
  /** It is only pointed at. */
  readonly faint: boolean;
}

/** Marks on the picture what is selected, or pointed at in the diagram. */
export function Mark({ document, mechanism, tree, places, entry, sight, picture, faint }: MarkProps) {
  const layer = useRef<SVGSVGElement>(null);
  const marked = useMemo(
    () => markedEntry(document, mechanism, tree, places, entry),
    [document, mechanism, tree, places, entry],
  );
  useEffect(() => {
    const show = (seen: Seen | undefined): void => {
      if (layer.current !== null && marked !== undefined && seen !== undefined)
        draw(layer.current, marked, seen);
    };
    show(sight.now);
    return sight.watch(show);
  }, [sight, marked]);
  if (marked === undefined) return null;
  return createPortal(
    <svg className="drive-mark" ref={layer} aria-hidden="true" data-faint={faint}>
      <path />
      {marked.rings.map((ring, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a ring is its place in the list.
        <circle key={i} data-wheel={ring.radius !== undefined} />
      ))}
    </svg>,
    picture,
  );
}
