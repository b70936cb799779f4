import { z } from 'zod';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { defineGround } from './ground.ts';
import { tooManyPoints } from './size.ts';
import { wavePath, wavePoints } from './wave.ts';

/**
 * A row of equal sine waves about the level it begins on: z = (height/2)·sin(2πx/wavelength). The first wave rises
 * from the level with the full slope π·height/wavelength, and the last one ends so. The points lie on the curve; the
 * chords between them miss it by under 0.1 % of the height.
 */
export const washboard = defineGround({
  kind: 'washboard',
  title: 'Washboard',
  source: 'common practice, no source',
  fields: z.strictObject({
    wavelength: quantity('length', 'Length of one wave.', { above: 0, most: 1e5 }),
    height: quantity('length', 'Height of a crest over a trough: twice the amplitude.', {
      above: 0,
      most: 1000,
    }),
    count: z.int().min(1).max(100_000).meta({ description: 'Number of waves.', unit: '1' }),
  }),
  shape({ wavelength, height, count }) {
    const problems = new Problems();
    const size = wavePoints * count + 1;
    if (size > limits.groundPoints) problems.error('count', tooManyPoints(size), 'ask for fewer waves');
    if (problems.failed) return { points: [], problems: problems.list };
    return { points: wavePath(wavelength, count, (turn) => (height / 2) * Math.sin(turn)), problems: [] };
  },
  sample: { wavelength: '120 mm', height: '10 mm', count: 8 },
});
