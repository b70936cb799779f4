import type { Pose, Vec2 } from '../../shared/geometry/vec.ts';
import type { Driveline } from '../driveline/driveline.ts';
import type { ElementLaw, TwistedBar } from '../elements/element.ts';
import type { Steering } from '../steering/steering.ts';
import type { Strength } from '../strength/strength.ts';
import type { Winch } from '../winch/winch.ts';

/**
 * The vehicle compiled once: what statics and dynamics read, and nothing else. Deeply read-only, indexed, SI.
 *
 * Drawing frame: every point of every body is given where it lies in the drawing (the pose in which the vehicle was
 * drawn: x forward, z up, m). Each body's own frame coincides with the drawing frame in the drawn position, so a
 * body's Pose places its drawn points in the world: `place(pose, drawnPoint)`.
 */
export interface Mechanism {
  /** m/s², downwards. */
  readonly gravity: number;
  /** bodies[0] is the chassis; a parent comes before its children. */
  readonly bodies: readonly Body[];
  /** How the chassis is held: `free` on its wheels, or `held` still (a test rig). */
  readonly root: 'free' | 'held';
  readonly joints: readonly Joint[];
  /** Massless rods of fixed length: they close loops. */
  readonly rods: readonly Rod[];
  readonly elements: readonly BoundElement[];
  readonly wheels: readonly Wheel[];
  readonly members: readonly Member[];
  readonly drive: Drive;
  /** The drive line part by part, where the document has one. */
  readonly driveline?: Driveline;
  /** What pins, rods, arms, bars and springs may carry, where the document says it. */
  readonly strength?: Strength;
  /** Winches and steerings, where the document has any. */
  readonly winches?: readonly Winch[];
  readonly steering?: readonly Steering[];
  readonly pulls: readonly Pull[];
  /** Bodies' outlines, drawn points; only to look at. */
  readonly outlines: readonly {
    readonly body: number;
    readonly points: readonly Vec2[];
    readonly closed: boolean;
  }[];
  /** Underside line whose clearance is watched, drawn points in order of x; may be empty. */
  readonly belly: { readonly body: number; readonly points: readonly Vec2[] };
  /** The vehicle's reference point on the chassis, drawn: its x in the world is the vehicle's station. */
  readonly reference: Vec2;
  /** Total mass, kg, with wheels. */
  readonly mass: number;
  /** Centre of gravity in the drawn position, with wheels. */
  readonly cg: Vec2;
  /** Length that tolerances are derived from: the smallest wheel radius, m. */
  readonly size: number;
}

/** A rigid body. Masses of the wheels that it carries are already in it, as point masses at their hubs. */
export interface Body {
  readonly name: string;
  /** kg. */
  readonly mass: number;
  /** Centre of mass, drawn. */
  readonly centre: Vec2;
  /** Pitch inertia about its centre of mass, kg·m². */
  readonly inertia: number;
  /** Index of the parent body; −1 for the chassis. */
  readonly parent: number;
}

/**
 * How a body hangs on its parent. `hinge`: turns about `anchor`; coordinate = sign × turn relative to the parent, rad.
 * `slide`: moves along `axis` (unit vector, drawn, fixed in the parent, pointing to bump); coordinate in m.
 * `free`: three freedoms, held by rods and elements only; no coordinate of its own.
 */
export interface Joint {
  readonly name: string;
  readonly kind: 'hinge' | 'slide' | 'free';
  readonly parent: number;
  readonly child: number;
  readonly anchor: Vec2;
  readonly axis: Vec2;
  /** +1 or −1: turns counter-clockwise into the positive sense of the coordinate. 1 for slides. */
  readonly sign: 1 | -1;
}

/** A drawn point of a body. */
export interface BodyPoint {
  readonly body: number;
  readonly at: Vec2;
}

/** Two drawn points held at the distance that they have in the drawing. */
export interface Rod {
  readonly name: string;
  readonly a: BodyPoint;
  readonly b: BodyPoint;
  readonly length: number;
}

/**
 * What an element acts along. `joint`: the joint's own coordinate. `span`: drawn distance minus distance of a and b,
 * m, positive when pressed together. `lift`: how far point `at` of `body` has risen in the frame of `parent` above its
 * drawn place, m.
 */
export type Coordinate =
  | { readonly kind: 'joint'; readonly joint: number }
  | { readonly kind: 'span'; readonly a: BodyPoint; readonly b: BodyPoint; readonly drawn: number }
  | { readonly kind: 'lift'; readonly body: number; readonly at: Vec2; readonly parent: number };

/** A force element where it acts. */
export interface BoundElement {
  readonly name: string;
  readonly kind: string;
  readonly coordinate: Coordinate;
  /** Equal ones side by side: efforts and energies of the law are multiplied by it. */
  readonly count: number;
  readonly law: ElementLaw;
  /** The bar that each of them twists, where its section is known. */
  readonly bar?: TwistedBar;
  /** Name of the member whose stop this is, if it is one. */
  readonly stopOf?: { readonly member: number; readonly side: 'bump' | 'droop' };
}

/** An axle line in side view: `count` equal wheels side by side. Figures marked 'line' are for all of them together. */
export interface Wheel {
  readonly name: string;
  /** Number of the axle line, 1 from the front. */
  readonly axle: number;
  readonly count: number;
  readonly body: number;
  /** Hub, drawn. */
  readonly hub: Vec2;
  /** Unloaded radius, m. */
  readonly radius: number;
  /** Mass of the line, kg (already in the body). */
  readonly mass: number;
  /** Spin inertia of the line, kg·m². */
  readonly inertia: number;
  readonly tyre: Tyre;
  /** Bodies that take the reaction of the drive torque, each with its share of it; the shares sum to 1. */
  readonly reactions: readonly { readonly body: number; readonly share: number }[];
  readonly driven: boolean;
  /** Greatest drive torque of the line, N·m. */
  readonly torqueLimit: number;
}

/** Tyres of one axle line together. */
export interface Tyre {
  /** Radial foundation stiffness, N per metre of depth and radian of rim; see sim/PHYSICS.md. */
  readonly foundation: number;
  /** Damping, s/m: normal force is N·(1 + damping × closing speed), never a pull. */
  readonly damping: number;
  /** Coefficient of friction with the ground. */
  readonly grip: number;
  /** Rolling resistance, share of the load. */
  readonly rolling: number;
  /** Tangential stiffness of the contact patch, N/m, and its damping, N·s/m. */
  readonly shearStiffness: number;
  readonly shearDamping: number;
}

/** A suspension member as the user named it: what its travel is measured on. */
export interface Member {
  readonly name: string;
  readonly kind: string;
  /** Body that the member is, or the parent body for a rigid axle; −1 for a rod. */
  readonly body: number;
  /** The coordinate on which travel and stops are measured, if it has one. */
  readonly coordinate?: Coordinate;
  /** m or rad. */
  readonly unit: 'm' | 'rad';
  /** Travel available from the drawn position, both positive (bump: up; droop: down); absent when unlimited. */
  readonly bump?: number;
  readonly droop?: number;
  /** Lines to draw, drawn points on bodies. */
  readonly lines: readonly {
    readonly from: BodyPoint;
    readonly to: BodyPoint;
    readonly weight: 'load' | 'cover';
  }[];
  /** Pins to draw. */
  readonly pins: readonly BodyPoint[];
}

/**
 * How a slow drive shares its torque: a lock makes its branches turn alike; an open differential gives them equal torque,
 * all of them no more than the one that spins takes; motors of their own give them equal torque, each up to its own grip.
 */
export type DriveShare =
  | { readonly kind: 'wheel'; readonly wheel: number }
  | { readonly kind: 'locked'; readonly branches: readonly DriveShare[] }
  | {
      readonly kind: 'open' | 'motors';
      readonly branches: readonly DriveShare[];
      /** Torque of each branch against the others'; equal when undefined. */
      readonly weights?: readonly number[];
      /** A limited differential: when a branch spins, the others get `bias` times its torque and `preload` N·m more. */
      readonly bias?: number;
      readonly preload?: number;
    };

/** A motor, or a clutch on the way, as far as a crawl needs it: it gives no more than its limit. */
export interface Source {
  readonly name: string;
  /** Torque that it must give for 1 N·m on each axle line, N·m. */
  readonly needs: readonly number[];
  /** The same while the line turns it, by torques against the way that the vehicle goes; as `needs` when undefined. */
  readonly back?: readonly number[];
  /** N·m. */
  readonly limit: number;
}

/** A constant force on a drawn point of a body, N in world axes: a tow rope, a winch line. */
export interface Pull {
  readonly name: string;
  readonly body: number;
  readonly at: Vec2;
  readonly fx: number;
  readonly fz: number;
}

/** Drive of this vehicle: each driven axle line is held to the target speed within its torque limit. */
export interface Drive {
  /** Target speed, m/s, forward positive. */
  readonly speed: number;
  /** Speed-up, m/s². */
  readonly acceleration: number;
  /** How a crawl shares the torque among the axle lines. */
  readonly share: DriveShare;
  /** Motors and clutches with their limits, where there is a drive line; else each axle line has its own. */
  readonly sources?: readonly Source[];
}

/** Poses of all bodies, and roll angles of all wheels (rad, forward rolling positive). */
export interface State {
  readonly poses: readonly Pose[];
  readonly rolls: readonly number[];
}
