import { Container, Graphics } from 'pixi.js';
import type { Pose, Vec2 } from '../../../shared/geometry/vec.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { frameAt } from '../../charts/tracks.ts';
import type { Path } from '../geometry/shapes.ts';
import type { SceneRun } from '../run.ts';
import { frameWithin, posesIn } from '../run.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';

/** Drawn points as a path on a picture of this scale. */
export function pathOf(points: readonly Vec2[], scale: number): number[] {
  return points.flatMap((p) => [p.x * scale, -p.z * scale]);
}

/** Moves one container per body to its pose. */
export function placeBodies(containers: readonly Container[], poses: readonly Pose[], scale: number): void {
  containers.forEach((container, i) => {
    const pose = poses[i];
    if (pose === undefined) return;
    container.position.set(pose.x * scale, -pose.z * scale);
    container.rotation = -pose.angle;
  });
}

/** A container per body, emptied and ready to be drawn in. */
export function freshBodies(parent: Container, count: number): Container[] {
  for (const old of parent.removeChildren()) old.destroy({ children: true });
  const made = Array.from({ length: count }, () => new Container());
  if (made.length > 0) parent.addChild(...made);
  return made;
}

function closedPath(path: readonly number[], closed: boolean): Path {
  return closed ? [...path, path[0] as number, path[1] as number] : path;
}

/** Bodywork: outlines with a fill, and the belly line a little stronger. */
export class BodyworkLayer implements Layer {
  readonly container = new Container();
  #bodies: Container[] = [];

  build({ run, inks, scale }: Setting): void {
    const { mechanism } = run.solved;
    this.#bodies = freshBodies(this.container, mechanism.bodies.length);
    for (const { body, points, closed } of mechanism.outlines) {
      const g = new Graphics();
      const path = pathOf(points, scale);
      if (closed) g.poly([...path], true).fill(inks.of.cover);
      strokeOn(g, [closedPath(path, closed)], 1.25, inks.of.ink);
      this.#bodies[body]?.addChild(g);
    }
    const { body, points } = mechanism.belly;
    if (points.length < 2) return;
    const belly = new Graphics();
    strokeOn(belly, [pathOf(points, scale)], 2, inks.of.ink);
    this.#bodies[body]?.addChild(belly);
  }

  show({ scale }: Setting, { poses }: Moment): void {
    placeBodies(this.#bodies, poses, scale);
  }
}

/** Outlines and wheels of a mechanism as paths per body. */
function tracesOf(mechanism: Mechanism, scale: number): Path[][] {
  const paths: Path[][] = mechanism.bodies.map(() => []);
  for (const { body, points, closed } of mechanism.outlines)
    paths[body]?.push(closedPath(pathOf(points, scale), closed));
  for (const member of mechanism.members)
    for (const { from, to } of member.lines)
      if (from.body === to.body) paths[from.body]?.push(pathOf([from.at, to.at], scale));
  return paths;
}

/** The run before this one at the same station: thin, faint outlines behind everything. */
export class BeforeLayer implements Layer {
  readonly container = new Container();
  #bodies: Container[] = [];

  build({ before, inks, scale }: Setting): void {
    this.#bodies = freshBodies(this.container, before?.solved.mechanism.bodies.length ?? 0);
    if (before === null) return;
    const { mechanism } = before.solved;
    tracesOf(mechanism, scale).forEach((paths, body) => {
      const g = new Graphics();
      if (paths.length > 0) strokeOn(g, paths, 0.85, inks.of.faint);
      for (const wheel of mechanism.wheels)
        if (wheel.body === body)
          g.circle(wheel.hub.x * scale, -wheel.hub.z * scale, wheel.radius * scale).stroke({
            width: 0.85,
            color: inks.of.faint,
          });
      this.#bodies[body]?.addChild(g);
    });
  }

  show({ run, before, scale }: Setting, { frame, origin }: Moment): void {
    this.container.visible = before !== null;
    if (before === null) return;
    placeBodies(this.#bodies, posesIn(before, sameStation(run, before, frame), origin), scale);
  }
}

/** Frame of another run in which the vehicle is at the station that it has in `frame` of this one. */
function sameStation(run: SceneRun, other: SceneRun, frame: number): number {
  return frameWithin(other, frameAt(other.tracks.station, run.tracks.station[frame] ?? 0));
}
