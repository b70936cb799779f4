import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { crossTorsionShare } from './cross-section.ts';

const side = (says: string) => quantity('length', says, { least: 1e-5, most: 10 });

/** Section of a bar that is twisted. */
export const section = z
  .discriminatedUnion('shape', [
    z.strictObject({
      shape: z.literal('round').meta({ description: 'Solid round bar.' }),
      diameter: side('Diameter.'),
    }),
    z
      .strictObject({
        shape: z.literal('tube').meta({ description: 'Round tube.' }),
        outside: side('Outside diameter.'),
        inside: side('Inside diameter.'),
      })
      .refine((tube) => tube.inside < tube.outside, {
        message: 'the inside diameter must be smaller than the outside diameter',
        path: ['inside'],
      }),
    z.strictObject({
      shape: z.literal('rectangle').meta({ description: 'Solid rectangle.' }),
      width: side('One side.'),
      height: side('The other side.'),
    }),
    z
      .strictObject({
        shape: z
          .literal('plus')
          .meta({ description: 'Plus-shaped bar: two flat bars crossed in their middles.' }),
        width: side('Overall width, tip to tip.'),
        arm: side('Thickness of the arms.'),
      })
      .refine((plus) => plus.arm <= plus.width, {
        message: 'the arms cannot be thicker than the overall width',
        path: ['arm'],
      }),
  ])
  .meta({ description: 'Section of the bar.' });

/**
 * Torsion constant K of a section, m⁴, so that torque = G·K·(twist per metre).
 * - round: π·d⁴/32; tube: π·(D⁴ − d⁴)/32 (polar second moment; any text on strength of materials)
 * - rectangle: see `rectangleTorsionFactor`
 * - plus with sharp corners: see cross-section.ts
 */
export function torsionConstant(s: z.output<typeof section>): number {
  switch (s.shape) {
    case 'round':
      return (Math.PI * s.diameter ** 4) / 32;
    case 'tube':
      return (Math.PI * (s.outside ** 4 - s.inside ** 4)) / 32;
    case 'rectangle': {
      const long = Math.max(s.width, s.height);
      const short = Math.min(s.width, s.height);
      return rectangleTorsionFactor(long / short) * long * short ** 3;
    }
    case 'plus':
      return crossTorsionShare(s.arm / s.width) * s.width * s.arm ** 3;
  }
}

/**
 * β of a rectangle, for K = β·long·short³: β = ⅓·[1 − (192/π⁵)·(short/long)·Σ tanh(n·π·long/(2·short))/n⁵], n odd.
 * Source: Saint-Venant's series, Timoshenko & Goodier, Theory of Elasticity, torsion of a rectangular bar.
 * @param ratio long side over short side, at least 1
 */
export function rectangleTorsionFactor(ratio: number): number {
  let sum = 0;
  // The terms left out add up to less than 1/(8·200⁴), 1e-10.
  for (let n = 199; n >= 1; n -= 2) sum += Math.tanh((n * Math.PI * ratio) / 2) / n ** 5;
  return (1 - (192 / Math.PI ** 5) * (sum / ratio)) / 3;
}

/**
 * Torsion modulus W of a section, m³, so that the greatest shear stress at the surface is torque/W.
 * - round: π·d³/16; tube: π·(D⁴ − d⁴)/(16·D) (any text on strength of materials)
 * - rectangle: in the middle of the long side, W = β·long·short²/c, c = 1 − (8/π²)·Σ 1/(n²·cosh(n·π·long/(2·short))),
 *   n odd (Saint-Venant; Timoshenko & Goodier, Theory of Elasticity, torsion of a rectangular bar)
 * - plus: on the flanks of the arms, K/arm, as in a thin strip (the same book, thin-walled open sections). A sharp inner
 *   corner is stressed higher than any such formula says; a square one (arm = width) is a rectangle.
 */
export function torsionModulus(s: z.output<typeof section>): number {
  switch (s.shape) {
    case 'round':
      return (Math.PI * s.diameter ** 3) / 16;
    case 'tube':
      return (Math.PI * (s.outside ** 4 - s.inside ** 4)) / (16 * s.outside);
    case 'rectangle':
      return rectangleModulus(Math.max(s.width, s.height), Math.min(s.width, s.height));
    case 'plus':
      return s.arm === s.width ? rectangleModulus(s.width, s.width) : torsionConstant(s) / s.arm;
  }
}

function rectangleModulus(long: number, short: number): number {
  const ratio = long / short;
  let sum = 0;
  // terms fall at least as 1/(n²·cosh(n·π/2)): the first left out is below 1e-14
  for (let n = 19; n >= 1; n -= 2) sum += 1 / (n * n * Math.cosh((n * Math.PI * ratio) / 2));
  return (rectangleTorsionFactor(ratio) * long * short ** 2) / (1 - (8 / Math.PI ** 2) * sum);
}
