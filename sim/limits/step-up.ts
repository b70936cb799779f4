import type { ObstacleKind } from './obstacle.ts';

/** A vertical face up, and level ground behind it. */
export const stepUp: ObstacleKind = {
  kind: 'step-up',
  title: 'Step up',
  measures: 'height of the face',
  unit: 'm',
  least: ({ radius }) => 0.1 * radius,
  most: ({ length }) => length,
  pieces: (size, { length }) => [{ kind: 'step', height: size, length }],
  ends: () => 0,
  sizeIn(piece, sense) {
    const rise = piece.kind === 'step' ? piece.height : face(piece);
    return rise !== undefined && sense * rise > 0 ? sense * rise : undefined;
  },
};

/** Height of a ramp without length, which is a vertical face, m. */
function face(piece: Parameters<ObstacleKind['sizeIn']>[0]): number | undefined {
  return piece.kind === 'ramp' && piece.length === 0 ? piece.height : undefined;
}
