import type { ObstacleKind } from './obstacle.ts';

/**
 * A half-round log under the wheels of one side only. In side view an axle's middle rises by half of it, as the ground
 * kind `bumps` states of staggered ones; the roll and the unequal loads left and right are not in the answer.
 */
export const staggeredLog: ObstacleKind = {
  kind: 'staggered-log',
  title: 'Staggered log',
  measures: 'height of a half-round log under one side; side view has half of it',
  unit: 'm',
  least: ({ radius }) => 0.1 * radius,
  most: ({ length }) => length,
  pieces: (size) => [{ kind: 'bumps', count: 1, radius: size, stagger: true }],
  ends: (size) => 2 * size,
  sizeIn: (piece) => (piece.kind === 'bumps' && piece.stagger ? (piece.radius ?? piece.height) : undefined),
};
