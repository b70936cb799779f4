import type { ObstacleKind } from './obstacle.ts';

/** An even slope up that begins on level ground and does not end: the vehicle drives on to it, and on. */
export const gradeUp: ObstacleKind = {
  kind: 'grade-up',
  title: 'Grade up',
  measures: 'angle of the slope against the level',
  unit: 'rad',
  least: () => 0.05,
  most: () => 1.4,
  pieces: (size, { length, radius }) => [{ kind: 'ramp', angle: size, length: 2 * length + 10 * radius }],
  ends: () => 0,
  sizeIn(piece, sense) {
    if (piece.kind !== 'ramp' || piece.length === 0) return undefined;
    const angle = sense * (piece.angle ?? Math.atan2(piece.height ?? 0, piece.length));
    return angle > 0 ? angle : undefined;
  },
};
