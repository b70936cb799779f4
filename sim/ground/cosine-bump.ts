import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';
import { wavePath } from './wave.ts';

/**
 * One cosine wave from trough to trough: z = (height/2)·(1 − cos(2πx/length)). It begins and ends without a kink.
 * Steepest slope π·height/length; radius of the crest length²/(2π²·height) (elementary calculus). The points lie on
 * the curve; the chords between them miss it by under 0.1 % of the height.
 */
export const cosineBump = defineGround({
  kind: 'cosine-bump',
  title: 'Cosine bump',
  source: 'elementary calculus',
  fields: z.strictObject({
    length: quantity('length', 'Length of the bump.', { above: 0, most: 1e5 }),
    height: quantity('length', 'Height of its crest; a negative height makes a dip.', {
      least: -1000,
      most: 1000,
    }),
  }),
  shape: ({ length, height }) => ({
    points: wavePath(length, 1, (turn) => (height / 2) * (1 - Math.cos(turn))),
    problems: [],
  }),
  sample: { length: '400 mm', height: '20 mm' },
});
