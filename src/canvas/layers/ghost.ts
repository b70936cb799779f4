import { Container, Graphics } from 'pixi.js';
import { type Pose, place, unplace } from '../../../shared/geometry/vec.ts';
import { dashes, spiral } from '../geometry/shapes.ts';
import { freshBodies, pathOf, placeBodies } from './bodies.ts';
import type { Layer, Moment, Setting } from './layer.ts';
import { strokeOn } from './pen.ts';

/**
 * Ghost of the standing pose: where wheels and members would be, seen from the chassis, if the vehicle stood. It moves
 * with the chassis, so what lies beside its ghost has travelled.
 */
export class GhostLayer implements Layer {
  readonly container = new Container();
  #chassis: Container[] = [];

  build({ run, inks, scale }: Setting): void {
    const { mechanism, recording } = run.solved;
    const standing = recording.standing.poses;
    const root = standing[0];
    this.#chassis = freshBodies(this.container, 1);
    if (root === undefined) return;
    const g = new Graphics();
    const seen = (body: number, at: { x: number; z: number }) =>
      unplace(root, place(standing[body] ?? (root as Pose), at));
    for (const { hub, radius, body } of mechanism.wheels) {
      const at = seen(body, hub);
      const ring = spiral(
        { x: at.x * scale, y: -at.z * scale },
        radius * scale,
        radius * scale,
        0,
        2 * Math.PI,
      );
      strokeOn(g, dashes(ring, 5, 4), 1, inks.of.faint);
    }
    const lines = mechanism.members.flatMap((m) =>
      m.lines.map(({ from, to }) => pathOf([seen(from.body, from.at), seen(to.body, to.at)], scale)),
    );
    if (lines.length > 0)
      strokeOn(
        g,
        lines.flatMap((line) => dashes(line, 5, 4)),
        1,
        inks.of.faint,
      );
    this.#chassis[0]?.addChild(g);
  }

  show({ scale }: Setting, { poses }: Moment): void {
    placeBodies(this.#chassis, poses, scale);
  }
}
