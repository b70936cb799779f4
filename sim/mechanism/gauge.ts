import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Kinematics, type Loads, pushAt, twist } from './kinematics.ts';
import type { Coordinate, Joint, Mechanism } from './mechanism.ts';

/**
 * A coordinate made ready for reading: `read` finds x (m or rad) and its rate from the bodies' motion, `push` spreads
 * an effort along +x (N or N·m) over the bodies, so that effort·rate is the power that it brings in (virtual work).
 */
export interface Gauge {
  x: number;
  rate: number;
  read(k: Kinematics): void;
  push(loads: Loads, k: Kinematics, effort: number): void;
}

/** Gauge of a coordinate of this mechanism. */
export function gaugeOf(coordinate: Coordinate, mechanism: Mechanism): Gauge {
  if (coordinate.kind === 'span') return spanGauge(coordinate);
  if (coordinate.kind === 'lift')
    return slideGauge(coordinate.parent, coordinate.body, coordinate.at, { x: 0, z: 1 });
  const joint = mechanism.joints[coordinate.joint];
  if (!joint) throw new RangeError(`no joint ${coordinate.joint}`);
  return joint.kind === 'hinge'
    ? turnGauge(joint)
    : slideGauge(joint.parent, joint.child, joint.anchor, joint.axis);
}

/** Turn of a hinge: x = sign·(child − parent). */
function turnGauge({ parent, child, sign }: Joint): Gauge {
  return {
    x: 0,
    rate: 0,
    read(k) {
      this.x = sign * ((k.angle[child] as number) - (k.angle[parent] as number));
      this.rate = sign * ((k.spin[child] as number) - (k.spin[parent] as number));
    },
    push(loads, _k, effort) {
      twist(loads, child, sign * effort);
      twist(loads, parent, -sign * effort);
    },
  };
}

/**
 * Displacement of point `at` of the child along `axis`, which the parent carries. Both reactions act at the child's
 * point, so they carry no moment across the guide.
 */
function slideGauge(parent: number, child: number, at: Vec2, axis: Vec2): Gauge {
  let px = 0;
  let pz = 0;
  let nx = 0;
  let nz = 1;
  return {
    x: 0,
    rate: 0,
    read(k) {
      const cc = k.cos[child] as number;
      const cs = k.sin[child] as number;
      const pc = k.cos[parent] as number;
      const ps = k.sin[parent] as number;
      px = (k.x[child] as number) + cc * at.x - cs * at.z;
      pz = (k.z[child] as number) + cs * at.x + cc * at.z;
      nx = pc * axis.x - ps * axis.z;
      nz = ps * axis.x + pc * axis.z;
      const ax = (k.x[parent] as number) + pc * at.x - ps * at.z;
      const az = (k.z[parent] as number) + ps * at.x + pc * at.z;
      this.x = (px - ax) * nx + (pz - az) * nz;
      this.rate = pointRate(k, child, px, pz, nx, nz) - pointRate(k, parent, px, pz, nx, nz);
    },
    push(loads, k, effort) {
      pushAt(loads, k, child, effort * nx, effort * nz, px, pz);
      pushAt(loads, k, parent, -effort * nx, -effort * nz, px, pz);
    },
  };
}

/** Shortening of the line from a to b. */
function spanGauge({ a, b, drawn }: Extract<Coordinate, { kind: 'span' }>): Gauge {
  let ax = 0;
  let az = 0;
  let bx = 0;
  let bz = 0;
  let ux = 0;
  let uz = 1;
  return {
    x: 0,
    rate: 0,
    read(k) {
      const ac = k.cos[a.body] as number;
      const as = k.sin[a.body] as number;
      const bc = k.cos[b.body] as number;
      const bs = k.sin[b.body] as number;
      ax = (k.x[a.body] as number) + ac * a.at.x - as * a.at.z;
      az = (k.z[a.body] as number) + as * a.at.x + ac * a.at.z;
      bx = (k.x[b.body] as number) + bc * b.at.x - bs * b.at.z;
      bz = (k.z[b.body] as number) + bs * b.at.x + bc * b.at.z;
      const length = Math.hypot(bx - ax, bz - az);
      ux = length > 0 ? (bx - ax) / length : 0;
      uz = length > 0 ? (bz - az) / length : 1;
      this.x = drawn - length;
      this.rate = pointRate(k, a.body, ax, az, ux, uz) - pointRate(k, b.body, bx, bz, ux, uz);
    },
    push(loads, k, effort) {
      pushAt(loads, k, a.body, effort * ux, effort * uz, ax, az);
      pushAt(loads, k, b.body, -effort * ux, -effort * uz, bx, bz);
    },
  };
}

/** Speed along (nx, nz) of the point of body `i` that is at the world place (px, pz), m/s. */
export function pointRate(k: Kinematics, i: number, px: number, pz: number, nx: number, nz: number): number {
  const w = k.spin[i] as number;
  const vx = (k.vx[i] as number) - w * (pz - (k.cz[i] as number));
  const vz = (k.vz[i] as number) + w * (px - (k.cx[i] as number));
  return vx * nx + vz * nz;
}
