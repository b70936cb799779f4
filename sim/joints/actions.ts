import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Body, BodyPoint, Coordinate, Mechanism } from '../mechanism/mechanism.ts';
import type { Given, Placement } from './given.ts';

/** An element's two ends: what turns, what slides along an axis of its parent, what is pulled together. */
type Ends =
  | {
      readonly kind: 'turn';
      readonly child: number;
      readonly parent: number;
      readonly at: Vec2;
      readonly sign: number;
    }
  | {
      readonly kind: 'slide';
      readonly child: number;
      readonly parent: number;
      readonly at: Vec2;
      readonly axis: Vec2;
    }
  | { readonly kind: 'span'; readonly a: BodyPoint; readonly b: BodyPoint };

/** A body without its wheels: its mass, kg, its centre, drawn, and its inertia about that, kg·m². */
interface Own {
  readonly mass: number;
  readonly at: Vec2;
  readonly inertia: number;
}

/**
 * Every force that acts on a body, at its place: own weight, ground at the hubs, drive reactions, elements, rods, pulls,
 * and last the pins and guides, which are the unknowns. One row per force: N and N·m counter-clockwise, world axes.
 * Weight and inertia of a wheel act at its hub, those of the rest of a body at the centre of that rest.
 */
export class Actions {
  readonly count: number;
  readonly body: Int32Array;
  /** Where on its body each acts, drawn: fixed, or where it acts as drawn. */
  readonly drawn: readonly Vec2[];
  readonly x: Float64Array;
  readonly z: Float64Array;
  readonly fx: Float64Array;
  readonly fz: Float64Array;
  readonly couple: Float64Array;
  /** First row of the pins: two rows each, on the child and on the parent. */
  readonly pins: number;
  readonly #mechanism: Mechanism;
  readonly #own: readonly Own[];
  readonly #ends: readonly Ends[];
  #row = 0;

  constructor(mechanism: Mechanism, carrying: readonly { readonly joint: Mechanism['joints'][number] }[]) {
    this.#mechanism = mechanism;
    this.#own = mechanism.bodies.map((body, b) => ownOf(body, b, mechanism));
    this.#ends = mechanism.elements.map((e) => endsOf(e.coordinate, mechanism));
    const places: BodyPoint[] = [
      ...this.#own.map(({ at }, body) => ({ body, at })),
      ...mechanism.wheels.flatMap((w) => [
        { body: w.body, at: w.hub },
        ...w.reactions.map(({ body }) => ({ body, at: w.hub })),
      ]),
      ...this.#ends.flatMap((e): BodyPoint[] =>
        e.kind === 'span' ? [e.a, e.b] : [e.child, e.parent].map((body) => ({ body, at: e.at })),
      ),
      ...mechanism.rods.flatMap((rod) => [rod.a, rod.b]),
      ...mechanism.pulls.map(({ body, at }) => ({ body, at })),
    ];
    this.pins = places.length;
    for (const { joint } of carrying)
      places.push({ body: joint.child, at: joint.anchor }, { body: joint.parent, at: joint.anchor });
    this.count = places.length;
    this.body = Int32Array.from(places, (p) => p.body);
    this.drawn = places.map((p) => p.at);
    const row = () => new Float64Array(places.length);
    [this.x, this.z, this.fx, this.fz, this.couple] = [row(), row(), row(), row(), row()];
  }

  /** Writes all rows but the pins for bodies that stand here, under these forces. */
  take(k: Placement, given: Given): void {
    const { bodies, wheels, elements, rods, pulls } = this.#mechanism;
    this.#row = 0;
    for (let b = 0; b < bodies.length; b++) this.#weigh(b, k, given);
    for (let w = 0; w < wheels.length; w++) this.#roll(w, k, given);
    for (let e = 0; e < elements.length; e++)
      this.#press(this.#ends[e] as Ends, k, given.effort[e] as number);
    for (let r = 0; r < rods.length; r++) {
      const rod = rods[r] as Mechanism['rods'][number];
      this.#draw(k, rod.a, rod.b, given.tension[r] as number);
    }
    for (const { body, at, fx, fz } of pulls) this.#put(k, body, at.x, at.z, fx, fz, 0);
  }

  /** Writes row `i` as a force with a couple at a world point. */
  set(i: number, x: number, z: number, fx: number, fz: number, couple: number): void {
    this.x[i] = x;
    this.z[i] = z;
    this.fx[i] = fx;
    this.fz[i] = fz;
    this.couple[i] = couple;
  }

  /** Writes the next row at a drawn point of a body. */
  #put(k: Placement, body: number, px: number, pz: number, fx: number, fz: number, couple: number): void {
    const c = k.cos[body] as number;
    const s = k.sin[body] as number;
    const x = (k.x[body] as number) + c * px - s * pz;
    const z = (k.z[body] as number) + s * px + c * pz;
    this.set(this.#row++, x, z, fx, fz, couple);
  }

  /** Weight and inertia of a mass at the drawn point (px, pz) of a body, with a force and a couple beside them. */
  #load(
    k: Placement,
    { ax, az, alpha, spin }: Given,
    body: number,
    at: Vec2,
    mass: number,
    fx: number,
    fz: number,
    couple: number,
  ): void {
    const c = k.cos[body] as number;
    const s = k.sin[body] as number;
    const rx = (k.x[body] as number) + c * at.x - s * at.z - (k.cx[body] as number);
    const rz = (k.z[body] as number) + s * at.x + c * at.z - (k.cz[body] as number);
    const turned = alpha[body] as number;
    const swept = (spin[body] as number) ** 2;
    const px = (ax[body] as number) - turned * rz - swept * rx;
    const pz = (az[body] as number) + turned * rx - swept * rz;
    this.#put(k, body, at.x, at.z, fx - mass * px, fz - mass * (pz + this.#mechanism.gravity), couple);
  }

  #weigh(b: number, k: Placement, given: Given): void {
    const { mass, at, inertia } = this.#own[b] as Own;
    this.#load(k, given, b, at, mass, 0, 0, -inertia * (given.alpha[b] as number));
  }

  /** Ground and weight at a hub, and the reactions of the drive torque. */
  #roll(w: number, k: Placement, given: Given): void {
    const { body, hub, mass, reactions } = this.#mechanism.wheels[w] as Mechanism['wheels'][number];
    const held = given.holding[w] as number;
    this.#load(k, given, body, hub, mass, given.groundX[w] as number, given.groundZ[w] as number, held);
    for (const { body: on, share } of reactions)
      this.#put(k, on, hub.x, hub.z, 0, 0, share * (given.torque[w] as number));
  }

  /** The two ends of an element with this effort along its coordinate. */
  #press(ends: Ends, k: Placement, effort: number): void {
    if (ends.kind === 'span') {
      this.#draw(k, ends.a, ends.b, effort);
      return;
    }
    const { child, at } = ends;
    if (ends.kind === 'turn') {
      this.#put(k, child, at.x, at.z, 0, 0, ends.sign * effort);
      const i = this.#row++;
      this.set(i, this.x[i - 1] as number, this.z[i - 1] as number, 0, 0, -ends.sign * effort);
      return;
    }
    const c = k.cos[ends.parent] as number;
    const s = k.sin[ends.parent] as number;
    const fx = effort * (c * ends.axis.x - s * ends.axis.z);
    const fz = effort * (s * ends.axis.x + c * ends.axis.z);
    this.#put(k, child, at.x, at.z, fx, fz, 0);
    const i = this.#row++;
    this.set(i, this.x[i - 1] as number, this.z[i - 1] as number, -fx, -fz, 0);
  }

  /** Draws two points together by `pull` N. */
  #draw(k: Placement, a: BodyPoint, b: BodyPoint, pull: number): void {
    const i = this.#row;
    this.#put(k, a.body, a.at.x, a.at.z, 0, 0, 0);
    this.#put(k, b.body, b.at.x, b.at.z, 0, 0, 0);
    const dx = (this.x[i + 1] as number) - (this.x[i] as number);
    const dz = (this.z[i + 1] as number) - (this.z[i] as number);
    const length = Math.sqrt(dx * dx + dz * dz);
    const fx = length > 0 ? (pull * dx) / length : 0;
    const fz = length > 0 ? (pull * dz) / length : pull;
    this.fx[i] = fx;
    this.fz[i] = fz;
    this.fx[i + 1] = -fx;
    this.fz[i + 1] = -fz;
  }
}

/** A body less its wheels; a body that is all wheels keeps its inertia and no mass. */
function ownOf(body: Body, index: number, { wheels }: Mechanism): Own {
  const on = wheels.filter((w) => w.body === index);
  const mass = body.mass - on.reduce((sum, w) => sum + w.mass, 0);
  if (!(mass > 1e-9 * body.mass))
    return { mass: 0, at: body.centre, inertia: spread(body, on, body.centre, 0) };
  const at = {
    x: (body.mass * body.centre.x - on.reduce((sum, w) => sum + w.mass * w.hub.x, 0)) / mass,
    z: (body.mass * body.centre.z - on.reduce((sum, w) => sum + w.mass * w.hub.z, 0)) / mass,
  };
  return { mass, at, inertia: spread(body, on, at, mass) };
}

/** Inertia of a body about its centre less that of its wheels and of the rest as points (parallel axes). */
function spread(body: Body, on: Mechanism['wheels'], at: Vec2, mass: number): number {
  const square = (p: Vec2) => (p.x - body.centre.x) ** 2 + (p.z - body.centre.z) ** 2;
  return body.inertia - on.reduce((sum, w) => sum + w.mass * square(w.hub), 0) - mass * square(at);
}

function endsOf(coordinate: Coordinate, { joints }: Mechanism): Ends {
  if (coordinate.kind === 'span') return { kind: 'span', a: coordinate.a, b: coordinate.b };
  if (coordinate.kind === 'lift') {
    const { body, parent, at } = coordinate;
    return { kind: 'slide', child: body, parent, at, axis: { x: 0, z: 1 } };
  }
  const joint = joints[coordinate.joint];
  if (!joint) throw new RangeError(`no joint ${coordinate.joint}`);
  const { child, parent, anchor: at, axis, sign } = joint;
  return joint.kind === 'hinge'
    ? { kind: 'turn', child, parent, at, sign }
    : { kind: 'slide', child, parent, at, axis };
}
