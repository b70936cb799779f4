import type { ObstacleKind } from './obstacle.ts';

/** A trench with vertical walls, as deep as the vehicle is long: no wheel finds its floor. */
export const trench: ObstacleKind = {
  kind: 'trench',
  title: 'Trench',
  measures: 'width from wall to wall; its floor is out of reach',
  unit: 'm',
  least: ({ radius }) => 0.2 * radius,
  most: ({ length }) => 1.5 * length,
  pieces: (size, { length }) => [{ kind: 'trench', width: size, depth: length }],
  ends: (size) => size,
  sizeIn: (piece) => (piece.kind === 'trench' ? piece.width : undefined),
};
