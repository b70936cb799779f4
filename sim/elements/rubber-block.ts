import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { bristleEnergy, bristlePull, bristleStiffness, dragBristle, makeBristle } from './bristle.ts';
import { exactlyOne } from './choices.ts';
import { defineElement, type ElementLaw } from './element.ts';
import { withinReach } from './reach.ts';
import {
  type Block,
  blockCorners,
  blockEnergy,
  blockForce,
  blockRate,
  hardnessRelations,
  modulusOfHardness,
} from './rubber.ts';

const hardness = z
  .strictObject({
    shoreA: quantity('ratio', 'Shore A hardness.', { least: 20, most: 80 }),
    relation: z.enum(hardnessRelations).meta({
      description:
        'Relation to the modulus: Gent (1958), or that of Ruess for 30 to 60, which gives 1.4 to 1.6 times as much. Neither is sure; try both.',
    }),
  })
  .refine((h) => h.relation !== 'ruess' || (h.shoreA >= 30 && h.shoreA <= 60), {
    message: 'the relation of Ruess holds from 30 to 60 Shore A',
    path: ['shoreA'],
  })
  .meta({ description: 'Hardness, when the modulus is not known: a rough figure.' });

const side = (says: string) => quantity('length', says, { least: 1e-5, most: 10 });

const material = z
  .strictObject({
    diameter: side('Diameter of a round block.').optional(),
    sides: z
      .strictObject({ width: side('One side.'), depth: side('The other side.') })
      .optional()
      .meta({ description: 'Sides of a rectangular block, seen in the direction of pressing.' }),
    modulus: quantity('stress', "Young's modulus of the rubber, 1 to 10 MPa.", {
      least: 1e3,
      most: 1e13,
    }).optional(),
    hardness: hardness.optional(),
  })
  .superRefine(exactlyOne('diameter', 'sides'))
  .superRefine(exactlyOne('modulus', 'hardness'))
  .meta({
    eitherOf: [
      [{ diameter: 0.006 }, { sides: { width: 0.005, depth: 0.006 } }],
      [{ modulus: 2e6 }, { hardness: { shoreA: 50, relation: 'gent' } }],
    ],
    description:
      'A block between slippery faces, when its rate is not known. Bonded faces make it stiffer: give `rate`.',
  });

/** Rate of a block at the first touch, N/m: c = E·A/h. */
export function materialRate(p: z.output<typeof material>, height: number): number {
  const area = p.sides === undefined ? (Math.PI * (p.diameter ?? 0) ** 2) / 4 : p.sides.width * p.sides.depth;
  const modulus =
    p.hardness === undefined ? (p.modulus ?? 0) : modulusOfHardness(p.hardness.shoreA, p.hardness.relation);
  return (modulus * area) / height;
}

/** Compression up to which the friction of the rubber grows, as a share of the height: about its usual working range. */
const FRICTION_GROWS_TO = 0.25;

/** What the block loses: friction as a share of the elastic force, and the travel over which it builds up. */
export interface Hysteresis {
  readonly share: number;
  /** m. */
  readonly breakaway: number;
}

/**
 * Law of a rubber block that can only push, pressed by y = x + drawnAt.
 *
 * Friction beside the elastic force, after Berg, "A non-linear rubber spring model for rail vehicle dynamics" (Vehicle
 * System Dynamics 30, 1998), with a bristle. A loose block can carry no friction at its first touch, so the bristle is
 * bent not by y but by w(y) = y²/(2·g) up to y = g and y − g/2 beyond: its effort pull·dw/dy then grows with y from
 * nothing to its limit, share·c·g, and it still has an energy, U = U_bristle(w − anchor).
 */
export function rubber(block: Block, drawnAt: number, hysteresis: Hysteresis): ElementLaw {
  const grows = FRICTION_GROWS_TO * block.height;
  const bristle = makeBristle(hysteresis.share * block.rate * grows, hysteresis.breakaway);
  const pressed = (x: number): number => Math.max(0, withinReach(x) + drawnAt);
  const bentBy = (y: number): number => (y < grows ? (y * y) / (2 * grows) : y - grows / 2);
  return {
    memory: 1,
    energy: (x, memory) => {
      const y = pressed(x);
      return blockEnergy(block, y) + bristleEnergy(bristle, bentBy(y) - (memory[0] as number));
    },
    spring: (x, memory) => {
      const y = pressed(x);
      const pull = bristlePull(bristle, bentBy(y) - (memory[0] as number));
      return -blockForce(block, y) - pull * Math.min(1, y / grows);
    },
    loss: () => 0,
    stiffness: (x, memory) => {
      const y = pressed(x);
      if (y === 0) return 0;
      const s = bentBy(y) - (memory[0] as number);
      const growth = Math.min(1, y / grows);
      const turn = y < grows ? bristlePull(bristle, s) / grows : 0;
      return blockRate(block, y) + bristleStiffness(bristle, s) * growth * growth + turn;
    },
    damping: 0,
    advance: (_from, to, memory) => dragBristle(bristle, bentBy(pressed(to)), memory),
    rest: (x, memory) => {
      memory[0] = bentBy(pressed(x));
    },
    corners: [...blockCorners(block), grows].map((y) => y - drawnAt),
  };
}

/** Rubber block: stiffer the more it is pressed, and it gives back less than it took. */
export const rubberBlock = defineElement({
  kind: 'rubber-block',
  title: 'Rubber block',
  acts: ['travel'],
  source: 'block that keeps its volume: Treloar; friction: Berg (1998); modulus from hardness: Gent (1958)',
  fields: z
    .strictObject({
      height: quantity('length', 'Height of the block when it is free.', { least: 1e-4, most: 10 }),
      rate: quantity('stiffness', 'Rate of ONE block at the first touch.', {
        least: 1e-6,
        most: 1e12,
      }).optional(),
      block: material.optional(),
      drawnAt: quantity('length', 'How far the block is pressed in the drawn position; negative for a gap.', {
        least: -1000,
        most: 10,
      }).default(0),
      hysteresis: quantity('ratio', 'Friction inside the rubber as a share of the force.', {
        least: 0,
        most: 0.5,
      }).default(0.1),
      breakaway: quantity(
        'length',
        'Elastic travel before that friction slides; a hundredth of the height when left out.',
        { least: 1e-6, most: 10 },
      ).optional(),
    })
    .superRefine(exactlyOne('rate', 'block'))
    .meta({ eitherOf: [[{ rate: 3000 }, { block: { diameter: 0.006, modulus: 2e6 } }]] }),
  law: (p) => {
    const rate = p.rate ?? (p.block === undefined ? 0 : materialRate(p.block, p.height));
    const breakaway = p.breakaway ?? p.height / 100;
    return rubber({ rate, height: p.height }, p.drawnAt, { share: p.hysteresis, breakaway });
  },
  sample: { height: 0.02, rate: 3000, drawnAt: 0.002, hysteresis: 0.12 },
  range: [-0.006, 0.014],
});
