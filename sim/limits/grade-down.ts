import { gradeUp } from './grade-up.ts';
import type { ObstacleKind } from './obstacle.ts';

/** An even slope down that begins on level ground and does not end: the vehicle lets itself down over its crest. */
export const gradeDown: ObstacleKind = {
  kind: 'grade-down',
  title: 'Grade down',
  measures: gradeUp.measures,
  unit: 'rad',
  least: gradeUp.least,
  most: gradeUp.most,
  pieces: (size, extent) => gradeUp.pieces(-size, extent),
  ends: () => 0,
  sizeIn: (piece, sense) => gradeUp.sizeIn(piece, sense > 0 ? -1 : 1),
};
