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
