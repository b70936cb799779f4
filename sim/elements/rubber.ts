/** Relations between Shore A hardness and Young's modulus. They differ by 1.4 to 1.6 times: try both ends. */
export const hardnessRelations = ['gent', 'ruess'] as const;

export type HardnessRelation = (typeof hardnessRelations)[number];

/**
 * Young's modulus of rubber from its Shore A hardness S, Pa.
 * - gent: 0.0981·(56 + 7.62336·S)/(0.137505·(254 − 2.54·S)) MPa; A. N. Gent, Rubber Chem. Technol. 31, 1958 (from memory)
 * - ruess: lg E = 0.0235·S − 0.6403, E in MPa, for 30 to 60. The logarithm is to base 10; some pages print base e.
 * @param hardness Shore A, 20 to 80
 */
export function modulusOfHardness(hardness: number, relation: HardnessRelation): number {
  const megapascals =
    relation === 'gent'
      ? (0.0981 * (56 + 7.62336 * hardness)) / (0.137505 * (254 - 2.54 * hardness))
      : 10 ** (0.0235 * hardness - 0.6403);
  return megapascals * 1e6;
}

/**
 * Compression beyond which the block's law goes on straight, as a share of its height: the stretch law holds no longer
 * (the block bulges over its seats), and its force would grow without end.
 */
const STRAIGHT_FROM = 0.6;

/** Figures of a block in compression. */
export interface Block {
  /** Rate at the first touch, N/m: c = E·A/h. */
  readonly rate: number;
  /** Free height h, m. */
  readonly height: number;
}

/*
 * Block that keeps its volume, between slippery faces: stress on the first area = (E/3)·(1/λ² − λ), λ = 1 − e,
 * e = pressed/height. With c = E·A/h: force = (c·h/3)·e·(1 + λ + λ²)/λ², energy = (c·h²/3)·e²·(1/λ + ½),
 * rate = (c/3)·(2/λ³ + 1). Source: Treloar, The Physics of Rubber Elasticity, simple compression.
 */

/** Elastic force of a block pressed by `by` ≥ 0, N. */
export function blockForce(block: Block, by: number): number {
  const e = Math.min(by / block.height, STRAIGHT_FROM);
  const left = 1 - e;
  const force = ((block.rate * block.height) / 3) * ((e * (1 + left + left * left)) / (left * left));
  return force + blockRate(block, by) * beyond(block, by);
}

/** Slope of the elastic force, N/m. */
export function blockRate(block: Block, by: number): number {
  const left = 1 - Math.min(by / block.height, STRAIGHT_FROM);
  return (block.rate / 3) * (2 / (left * left * left) + 1);
}

/** Elastic energy of a block pressed by `by` ≥ 0, J. */
export function blockEnergy(block: Block, by: number): number {
  const e = Math.min(by / block.height, STRAIGHT_FROM);
  const more = beyond(block, by);
  const smooth = ((block.rate * block.height * block.height) / 3) * e * e * (1 / (1 - e) + 0.5);
  if (more === 0) return smooth;
  return (
    smooth + more * (blockForce(block, STRAIGHT_FROM * block.height) + 0.5 * more * blockRate(block, by))
  );
}

function beyond(block: Block, by: number): number {
  return Math.max(0, by - STRAIGHT_FROM * block.height);
}

/** How far the block is pressed where its law bends, m. */
export const blockCorners = (block: Block): readonly number[] => [0, STRAIGHT_FROM * block.height];
