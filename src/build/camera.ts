import type { RefObject } from 'react';
import { boxInPoses, fitDrawing, statureOf, zoomBy } from '../canvas/camera.ts';
import { Sight } from '../canvas/sight.ts';
import { Playhead } from '../playhead.ts';
import type { Solved } from '../solved.ts';
import { Viewport } from '../viewport.ts';

/** One press of closer or farther, and how far it may go: shares of a length that suits the vehicle. */
const STEP = 1.25;
const REACH = { wheels: 20, least: 1 / 100, most: 100 } as const;

/** The builder's own place to look at: leaving it, the window is as it was. */
export class Camera {
  readonly playhead = new Playhead();
  readonly viewport = new Viewport();
  readonly sight = new Sight();
  readonly #field: RefObject<HTMLElement | null>;
  /** What is on show. */
  solved: Solved | null = null;

  constructor(field: RefObject<HTMLElement | null>) {
    this.#field = field;
  }

  /** Shows the vehicle as large as it fits. */
  readonly fit = (): void => {
    const { clientWidth: width = 0, clientHeight: height = 0 } = this.#field.current ?? {};
    if (this.solved === null || width === 0) return;
    const { mechanism, recording } = this.solved;
    const pose = { x: recording.standing.station - mechanism.reference.x, z: 0, angle: 0 };
    const box = boxInPoses(
      mechanism,
      mechanism.bodies.map(() => pose),
    );
    this.viewport.show(fitDrawing(box, statureOf(mechanism), { width, height }));
  };

  /** Goes closer to the middle of the picture, or farther away. */
  readonly zoom = (way: 'closer' | 'farther'): void => {
    const { from, to } = this.viewport.window;
    const length = (this.solved?.mechanism.size ?? 0.05) * REACH.wheels;
    const reach = { least: length * REACH.least, most: length * REACH.most };
    this.viewport.show(zoomBy({ from, to }, way === 'closer' ? STEP : 1 / STEP, (from + to) / 2, reach));
  };
}
