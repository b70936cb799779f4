import type { ObstacleKind } from './obstacle.ts';
import { stepUp } from './step-up.ts';

/** A vertical face down, and level ground below it. The vehicle lets itself down; it does not jump. */
export const stepDown: ObstacleKind = {
  kind: 'step-down',
  title: 'Step down',
  measures: 'height of the face',
  unit: 'm',
  least: stepUp.least,
  most: stepUp.most,
  pieces: (size, { length }) => [{ kind: 'step', height: -size, length }],
  ends: () => 0,
  sizeIn: (piece, sense) => stepUp.sizeIn(piece, sense > 0 ? -1 : 1),
};
