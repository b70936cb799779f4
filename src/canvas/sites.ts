import { length, type Pose, place, sub, type Vec2 } from '../../shared/geometry/vec.ts';
import type { BodyPoint, BoundElement, Joint, Mechanism } from '../../sim/mechanism/mechanism.ts';
import { coordinateIn } from './coordinates.ts';
import type { Spot } from './geometry/shapes.ts';

/** Where an element is to be drawn, and its state. Spots in px (y down), `unit` px: what sizes of details hang on. */
export type Site = SpanSite | TurnSite;

interface State {
  readonly kind: string;
  /** Coordinate, m or rad. */
  readonly x: number;
  /** Conservative effort at x, N or N·m; not 0 says that a stop is met. */
  readonly effort: number;
  /** How far the element is strained: −effort over stiffness, m or rad; 0 where it has no stiffness. */
  readonly strain: number;
  /** A wheel's radius on the picture, px: details are shares of it. */
  readonly unit: number;
  /** Elements that share the place are numbered from 0. */
  readonly slot: number;
  /** Where the law bends first: the face of a stop, m or rad; 0 where it has no bend. */
  readonly limit: number;
}

/** Between two spots: a strut, or a guided axle's spring. `drawn`: distance of the spots in the drawing, px. */
export interface SpanSite extends State {
  readonly shape: 'span';
  /** End on what moves with the wheel. */
  readonly a: Spot;
  readonly b: Spot;
  readonly drawn: number;
  /** px per metre of travel. */
  readonly scale: number;
  /** Ends are the user's own points, so the element is drawn right between them; otherwise beside its neighbours. */
  readonly exact: boolean;
}

/** Round a hinge. Angles in rad, counter-clockwise on the picture. */
export interface TurnSite extends State {
  readonly shape: 'turn';
  readonly at: Spot;
  /** Direction of the moving part now, and where it lay in the drawing as seen from the parent now. */
  readonly now: number;
  readonly drawn: number;
  /** +1 when a counter-clockwise turn of the moving part is positive. */
  readonly sign: 1 | -1;
}

/** The place of an element, worked out once; `siteAt` fills in the moment. */
export interface Seat {
  readonly element: BoundElement;
  readonly slot: number;
  /** Radius of the wheel whose size fits the place, m. */
  readonly radius: number;
  readonly ends?: { readonly a: BodyPoint; readonly b: BodyPoint; readonly exact: boolean };
  readonly turn?: { readonly joint: Joint; readonly reference: Vec2 };
}

/** Length of what is drawn for a guided axle's spring, in wheel radii: from the axle up into its parent. */
const GUIDE_REACH = 1.25;

/** Radius of the wheel nearest to a drawn point, m: details there take their size from it. */
function radiusNear(mechanism: Mechanism, at: Vec2): number {
  let best = mechanism.size;
  let least = Number.POSITIVE_INFINITY;
  for (const wheel of mechanism.wheels) {
    const d = length(sub(wheel.hub, at));
    if (d < least) {
      least = d;
      best = wheel.radius;
    }
  }
  return best;
}

/** The point that shows best which way a body turns about an anchor: its farthest hub, line end or pin. */
function referenceOf(mechanism: Mechanism, joint: Joint): Vec2 {
  const of = (body: number) => body === joint.child;
  const points = [
    ...mechanism.wheels.filter((w) => of(w.body)).map((w) => w.hub),
    ...mechanism.members.flatMap((m) =>
      m.lines.flatMap((l) => [l.from, l.to].filter((p) => of(p.body)).map((p) => p.at)),
    ),
  ];
  let best: Vec2 = { x: joint.anchor.x + 1, z: joint.anchor.z };
  let far = 1e-9;
  for (const p of points) {
    const d = length(sub(p, joint.anchor));
    if (d > far * (1 + 1e-9)) {
      far = d;
      best = p;
    }
  }
  return best;
}

/** Things that have the same key stand beside each other: on one guide or strut, or of one kind round one pivot. */
function placeKey({ coordinate: c, kind }: BoundElement, { joints, size }: Mechanism): string {
  if (c.kind === 'joint') {
    const joint = joints[c.joint];
    if (joint?.kind !== 'hinge') return `joint ${c.joint}`;
    const cell = (v: number) => Math.round(v / (size / 2));
    return `${kind} ${cell(joint.anchor.x)} ${cell(joint.anchor.z)}`;
  }
  if (c.kind === 'lift') return `lift ${c.body} ${c.at.x} ${c.at.z}`;
  return `span ${c.a.body} ${c.a.at.x} ${c.a.at.z} ${c.b.body} ${c.b.at.x} ${c.b.at.z}`;
}

/** Ends of a spring that works along an axis from a point of a body into its parent. */
function guideEnds(child: number, parent: number, at: Vec2, axis: Vec2, reach: number) {
  return {
    a: { body: child, at },
    b: { body: parent, at: { x: at.x + axis.x * reach, z: at.z + axis.z * reach } },
    exact: false,
  };
}

/** Works out where every element is drawn. Elements on one coordinate get slots side by side, in the order of the document. */
export function seatsOf(mechanism: Mechanism): readonly Seat[] {
  const taken = new Map<string, number>();
  return mechanism.elements.flatMap((element): Seat[] => {
    const key = placeKey(element, mechanism);
    const slot = taken.get(key) ?? 0;
    taken.set(key, slot + 1);
    const c = element.coordinate;
    if (c.kind === 'span')
      return [
        { element, slot, radius: radiusNear(mechanism, c.a.at), ends: { a: c.a, b: c.b, exact: true } },
      ];
    if (c.kind === 'lift') {
      const radius = radiusNear(mechanism, c.at);
      return [
        {
          element,
          slot,
          radius,
          ends: guideEnds(c.body, c.parent, c.at, { x: 0, z: 1 }, GUIDE_REACH * radius),
        },
      ];
    }
    const joint = mechanism.joints[c.joint];
    if (joint === undefined || joint.kind === 'free') return [];
    const radius = radiusNear(mechanism, joint.anchor);
    if (joint.kind === 'slide')
      return [
        {
          element,
          slot,
          radius,
          ends: guideEnds(joint.child, joint.parent, joint.anchor, joint.axis, GUIDE_REACH * radius),
        },
      ];
    return [{ element, slot, radius, turn: { joint, reference: referenceOf(mechanism, joint) } }];
  });
}

/** Memory of a law at rest; laws are asked without their history here. */
const NO_HISTORY = new Float64Array(8);

/** Where and in what state an element is in a pose of the vehicle, on a picture of `scale` px per m (x right, y down). */
export function siteAt(mechanism: Mechanism, seat: Seat, poses: readonly Pose[], scale: number): Site {
  const { element, slot } = seat;
  const x = coordinateIn(mechanism, element.coordinate, poses);
  const effort = element.law.spring(x, NO_HISTORY);
  const stiffness = element.law.stiffness(x, NO_HISTORY);
  const strain = stiffness > 0 ? -effort / stiffness : 0;
  const limit = element.law.corners[0] ?? 0;
  const state = { kind: element.kind, x, effort, strain, limit, unit: seat.radius * scale, slot };
  const spot = (p: BodyPoint): Spot => {
    const w = place(poses[p.body] as Pose, p.at);
    return { x: w.x * scale, y: -w.z * scale };
  };
  if (seat.ends !== undefined) {
    const { a, b, exact } = seat.ends;
    const drawn = length(sub(a.at, b.at)) * scale;
    return { ...state, shape: 'span', a: spot(a), b: spot(b), drawn, scale, exact };
  }
  const { joint, reference } = seat.turn as NonNullable<Seat['turn']>;
  const drawnWay = Math.atan2(reference.z - joint.anchor.z, reference.x - joint.anchor.x);
  const now = drawnWay + (poses[joint.child] as Pose).angle;
  const drawn = drawnWay + (poses[joint.parent] as Pose).angle;
  return {
    ...state,
    shape: 'turn',
    at: spot({ body: joint.parent, at: joint.anchor }),
    now,
    drawn,
    sign: joint.sign,
  };
}
