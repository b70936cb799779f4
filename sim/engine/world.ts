import {
  type Body,
  DistanceJoint,
  type Joint,
  World as PlanckWorld,
  PrismaticJoint,
  RevoluteJoint,
  Vec2,
} from 'planck';
import type { Pose } from '../../shared/geometry/vec.ts';
import { place } from '../../shared/geometry/vec.ts';
import type { Kinematics, Loads } from '../mechanism/kinematics.ts';
import type { BodyPoint, Mechanism } from '../mechanism/mechanism.ts';
import { imposeSettings, type SolverSettings, settingsFor } from './settings.ts';

/**
 * The rigid linkage in planck: bodies and joints only, no shapes and no contacts. Its y axis is our z. Four verbs:
 * open, apply, step, read. The only mutable thing of a run besides the forces.
 */
export class RigidWorld {
  readonly #world: PlanckWorld;
  readonly #bodies: readonly Body[];
  readonly #rods: readonly DistanceJoint[];
  readonly #settings: SolverSettings;
  readonly #force = new Vec2(0, 0);

  /** Builds the linkage of this mechanism with its bodies at these poses, at rest. */
  constructor(mechanism: Mechanism, poses: readonly Pose[]) {
    this.#settings = settingsFor(mechanism.size, mechanism.rods.length > 0);
    imposeSettings(this.#settings);
    this.#world = new PlanckWorld({
      gravity: new Vec2(0, -mechanism.gravity),
      allowSleep: false,
      continuousPhysics: false,
      warmStarting: true,
    });
    this.#bodies = mechanism.bodies.map((_, i) =>
      this.#addBody(mechanism, i, poses[i] ?? { x: 0, z: 0, angle: 0 }),
    );
    for (const joint of this.#treeJoints(mechanism)) this.#world.createJoint(joint);
    this.#rods = this.#rodJoints(mechanism);
    for (const rod of this.#rods) this.#world.createJoint(rod);
  }

  #addBody(mechanism: Mechanism, index: number, pose: Pose): Body {
    const { mass, centre, inertia } = mechanism.bodies[index] as Mechanism['bodies'][number];
    const held = index === 0 && mechanism.root === 'held';
    const body = this.#world.createBody({
      type: held ? 'static' : 'dynamic',
      position: new Vec2(pose.x, pose.z),
      angle: pose.angle,
      allowSleep: false,
    });
    // planck takes the inertia about the body's origin, not about its centre of mass
    if (!held)
      body.setMassData({
        mass,
        center: new Vec2(centre.x, centre.z),
        I: inertia + mass * (centre.x ** 2 + centre.z ** 2),
      });
    return body;
  }

  #treeJoints(mechanism: Mechanism): Joint[] {
    return mechanism.joints.flatMap(({ kind, parent, child, anchor, axis }) => {
      if (kind === 'free') return [];
      const bodyA = this.#bodies[parent] as Body;
      const bodyB = this.#bodies[child] as Body;
      const at = new Vec2(anchor.x, anchor.z);
      const common = { bodyA, bodyB, localAnchorA: at, localAnchorB: at, collideConnected: false };
      const joint =
        kind === 'hinge'
          ? new RevoluteJoint({ ...common, referenceAngle: 0 })
          : new PrismaticJoint({ ...common, localAxisA: new Vec2(axis.x, axis.z), referenceAngle: 0 });
      return [joint];
    });
  }

  #rodJoints(mechanism: Mechanism): DistanceJoint[] {
    return mechanism.rods.map(({ a, b, length }) => {
      const end = (point: BodyPoint) => ({
        body: this.#bodies[point.body] as Body,
        at: new Vec2(point.at.x, point.at.z),
      });
      const [from, to] = [end(a), end(b)];
      return new DistanceJoint({
        bodyA: from.body,
        bodyB: to.body,
        localAnchorA: from.at,
        localAnchorB: to.at,
        length,
        collideConnected: false,
      });
    });
  }

  /** Adds forces to all bodies for the next step; N in world axes, N·m about the centres of mass. */
  apply(loads: Loads): void {
    for (let i = 0; i < this.#bodies.length; i++) {
      const body = this.#bodies[i] as Body;
      this.#force.x = loads.fx[i] as number;
      this.#force.y = loads.fz[i] as number;
      body.applyForceToCenter(this.#force, false);
      body.applyTorque(loads.torque[i] as number, false);
    }
  }

  /** Moves on by h seconds (symplectic Euler with joint impulses). */
  step(h: number): void {
    imposeSettings(this.#settings);
    this.#world.step(h, this.#settings.velocityIterations, this.#settings.positionIterations);
  }

  /**
   * Writes the tension of every rod in the last step of h seconds, N, pull positive, in the mechanism's order. planck's
   * u points from a to b and its force is what pushes b away.
   */
  readTensions(out: Float64Array, h: number): void {
    for (let r = 0; r < this.#rods.length; r++) {
      const rod = this.#rods[r] as DistanceJoint;
      const a = rod.getAnchorA();
      const b = rod.getAnchorB();
      const force = rod.getReactionForce(1 / h);
      const along = force.x * (b.x - a.x) + force.y * (b.y - a.y);
      out[r] = -Math.sign(along) * Math.hypot(force.x, force.y);
    }
  }

  /** Writes placement and motion of all bodies. */
  read(k: Kinematics): void {
    for (let i = 0; i < this.#bodies.length; i++) {
      const body = this.#bodies[i] as Body;
      const frame = body.getTransform();
      const centre = body.getWorldCenter();
      const velocity = body.getLinearVelocity();
      k.x[i] = frame.p.x;
      k.z[i] = frame.p.y;
      k.cos[i] = frame.q.c;
      k.sin[i] = frame.q.s;
      k.angle[i] = body.getAngle();
      k.cx[i] = centre.x;
      k.cz[i] = centre.y;
      k.vx[i] = velocity.x;
      k.vz[i] = velocity.y;
      k.spin[i] = body.getAngularVelocity();
    }
  }

  /** Moves one body where it is wanted, with its motion: for tests and rigs. Speeds at the centre of mass. */
  put(index: number, pose: Pose, vx: number, vz: number, spin: number): void {
    const body = this.#bodies[index] as Body;
    body.setTransform(new Vec2(pose.x, pose.z), pose.angle);
    body.setLinearVelocity(new Vec2(vx, vz));
    body.setAngularVelocity(spin);
  }

  /** Poses of all bodies. */
  poses(): Pose[] {
    return this.#bodies.map((body) => ({
      x: body.getPosition().x,
      z: body.getPosition().y,
      angle: body.getAngle(),
    }));
  }

  /** The joint or rod that has drifted furthest from closing, and its gap in m. */
  worstGap(mechanism: Mechanism): { readonly name: string; readonly gap: number } {
    const poses = this.poses();
    const world = (point: BodyPoint) => place(poses[point.body] as Pose, point.at);
    let worst = { name: '', gap: 0 };
    for (const { kind, parent, child, anchor, axis, name } of mechanism.joints) {
      if (kind === 'free') continue;
      const p = world({ body: parent, at: anchor });
      const c = world({ body: child, at: anchor });
      const across = poses[parent] as Pose;
      const nx = -Math.sin(across.angle) * axis.x - Math.cos(across.angle) * axis.z;
      const nz = Math.cos(across.angle) * axis.x - Math.sin(across.angle) * axis.z;
      const gap =
        kind === 'hinge' ? Math.hypot(c.x - p.x, c.z - p.z) : Math.abs((c.x - p.x) * nx + (c.z - p.z) * nz);
      if (!(gap <= worst.gap)) worst = { name, gap };
    }
    for (const { a, b, length, name } of mechanism.rods) {
      const [p, q] = [world(a), world(b)];
      const gap = Math.abs(Math.hypot(q.x - p.x, q.z - p.z) - length);
      if (!(gap <= worst.gap)) worst = { name, gap };
    }
    return worst;
  }
}
