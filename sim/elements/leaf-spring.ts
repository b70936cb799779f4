import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { bristleEnergy, bristlePull, bristleStiffness, dragBristle, makeBristle } from './bristle.ts';
import { atMostOne, exactlyOne } from './choices.ts';
import { defineElement, type ElementLaw } from './element.ts';
import { hooke } from './hooke.ts';
import { withinReach } from './reach.ts';

const leaves = z
  .strictObject({
    count: z.int().min(1).max(50).meta({
      description: 'Leaves of full length, all alike. Graded leaves are softer: give `rate` for them.',
      unit: '1',
    }),
    width: quantity('length', 'Width of a leaf.', { least: 1e-5, most: 10 }),
    thickness: quantity('length', 'Thickness of a leaf.', { least: 1e-6, most: 1 }),
    span: quantity('length', 'Free length: eye to eye, or from the clamp to the tip when held at one end.', {
      least: 1e-4,
      most: 100,
    }),
    modulus: quantity('stress', "Young's modulus; spring steel about 206 GPa.", { least: 1e3, most: 1e13 }),
    held: z.enum(['at both ends', 'at one end']).default('at both ends').meta({
      description:
        'At both ends with the load in the middle, or clamped at one end with the load at the tip.',
    }),
  })
  .meta({ description: 'The leaves, when the rate is not known.' });

/**
 * Rate of equal leaves that slide on each other, N/m: n·48·E·I/L³ held at both ends, n·3·E·I/L³ held at one,
 * I = b·t³/12. Source: Roark's Formulas for Stress and Strain, beams (from memory); small deflections.
 */
export function leafRate(p: z.output<typeof leaves>): number {
  const inertia = (p.width * p.thickness ** 3) / 12;
  return (p.count * (p.held === 'at one end' ? 3 : 48) * p.modulus * inertia) / p.span ** 3;
}

/** Share of the rate's own travel over which friction builds up when nothing else is said: the bristle is 10 × as stiff. */
const BREAKAWAY_SHARE = 0.1;

/** Keeps the bristle's stiffness a number where there is no friction, m: far under anything that moves. */
const LEAST_BREAKAWAY = 1e-12;

/** Straight spring with dry friction beside it: the force lies within ±friction of the straight line. */
export function springWithFriction(elastic: ElementLaw, friction: number, breakaway: number): ElementLaw {
  const bristle = makeBristle(friction, breakaway);
  const bent = (x: number, memory: Float64Array): number => withinReach(x) - (memory[0] as number);
  return {
    memory: 1,
    energy: (x, memory) => elastic.energy(x, memory) + bristleEnergy(bristle, bent(x, memory)),
    spring: (x, memory) => elastic.spring(x, memory) - bristlePull(bristle, bent(x, memory)),
    loss: elastic.loss,
    stiffness: (x, memory) => elastic.stiffness(x, memory) + bristleStiffness(bristle, bent(x, memory)),
    damping: elastic.damping,
    advance: (_from, to, memory) => dragBristle(bristle, withinReach(to), memory),
    rest: (x, memory) => {
      memory[0] = withinReach(x);
    },
    corners: [...elastic.corners, -breakaway, breakaway],
  };
}

/** Leaf spring: straight, with friction between its leaves; fastened, so it works both ways. */
export const leafSpring = defineElement({
  kind: 'leaf-spring',
  title: 'Leaf spring',
  acts: ['travel'],
  source:
    'beam rate: Roark; friction loop: Fancher, Ervin, MacAdam & Winkler, SAE 800905 (1980), with straight sides',
  fields: z
    .strictObject({
      rate: quantity('stiffness', 'Rate of ONE spring without its friction.', {
        least: 1e-6,
        most: 1e12,
      }).optional(),
      leaves: leaves.optional(),
      preload: quantity(
        'force',
        'Force with which ONE spring pushes in the drawn position, without its friction; 0 when left out.',
        { least: -1e9, most: 1e9 },
      ).optional(),
      freeAt: quantity(
        'length',
        'Travel at which the spring is free, bump positive (so mostly negative); instead of a preload.',
        { least: -1000, most: 1000 },
      ).optional(),
      friction: quantity(
        'force',
        'Friction between the leaves of ONE spring: half the height of its force loop.',
        { least: 0, most: 1e9 },
      ).default(0),
      breakaway: quantity(
        'length',
        'Elastic travel before the leaves slide; a tenth of friction/rate when left out.',
        { least: 1e-6, most: 10 },
      ).optional(),
    })
    .superRefine(exactlyOne('rate', 'leaves'))
    .superRefine(atMostOne('preload', 'freeAt'))
    .meta({
      eitherOf: [
        [
          { rate: 1500 },
          { leaves: { count: 3, width: 0.01, thickness: 0.0005, span: 0.127, modulus: 206e9 } },
        ],
      ],
    }),
  law: (p) => {
    const rate = p.rate ?? (p.leaves === undefined ? 0 : leafRate(p.leaves));
    const elastic = hooke({ ...p, rate, pushOnly: false, damping: 0 });
    const breakaway = p.breakaway ?? Math.max(LEAST_BREAKAWAY, (BREAKAWAY_SHARE * p.friction) / rate);
    return springWithFriction(elastic, p.friction, breakaway);
  },
  sample: { rate: 1500, preload: 14, friction: 1.2 },
  range: [-0.02, 0.03],
});
