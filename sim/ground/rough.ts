import { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { defineGround } from './ground.ts';
import { classMeans, pointsPerWave, type Road, roadGrid, roadHeights } from './road.ts';
import { spoken, tooManyPoints } from './size.ts';

const fields = z.strictObject({
  length: quantity('length', 'Length of the piece as it lies here (for a model: at model size).', {
    above: 0,
    most: 1e5,
  }),
  class: z
    .enum(Object.keys(classMeans) as [keyof typeof classMeans])
    .meta({
      description:
        'Road class of ISO 8608, A (smooth) to H (very rough): the mean of the class. Give this or the roughness.',
    })
    .optional(),
  roughness: quantity(
    'roughness',
    'One-sided displacement spectrum Gd(n0) at n0 = 0.1 cycle/m of the full-size road. Give this or the class.',
    { above: 0, most: 10 },
  ).optional(),
  seed: z
    .int()
    .min(0)
    .max(2 ** 32 - 1)
    .default(1)
    .meta({ description: 'Which of the random roads: the same seed gives the same road.', unit: '1' }),
  scale: quantity(
    'ratio',
    'Model scale, full size over model: the full-size road is made, then its lengths and heights are divided by this.',
    { above: 0, most: 1000 },
  ).default(1),
  longest: quantity(
    'length',
    'Longest wave of the full-size road. ISO 8608 needs no more than 100 m for roads, 20 m off the road.',
    { above: 0, most: 1e5 },
  ).default(100),
  shortest: quantity(
    'length',
    'Shortest wave of the full-size road. A truck tyre bridges what is much shorter than its own contact; ISO 8608 recommends 0.1 m for measuring roads, which takes three times as many points.',
    { above: 0, most: 1e5 },
  ).default(0.3),
  taper: quantity(
    'length',
    'Length over which the heights grow from 0 at the start and fade to 0 at the end, as it lies here; a tenth of the piece when left out.',
    { least: 0, most: 1e5 },
  ).optional(),
});

/**
 * Random ground after ISO 8608: a sum of cosines with the spectrum of a road class and phases from a seed, waviness 2.
 * It starts and ends at height 0 and level: the heights are multiplied by ½(1 − cos(π·s/taper)), s being the distance
 * from the nearer end. Between the tapers it is the road itself. `road.ts` says how finely it is drawn.
 */
export const rough = defineGround({
  kind: 'rough',
  title: 'Random rough ground',
  source: 'ISO 8608:2016 (classes, waviness 2, band); sum of cosines: common practice',
  fields,
  shape(params) {
    const problems = new Problems();
    const road = roadOf(params, problems);
    const taper = params.taper ?? params.length / 10;
    if (taper > params.length / 2) {
      problems.error(
        'taper',
        `is ${spoken(taper)}, more than half the length`,
        `at most ${spoken(params.length / 2)}`,
      );
    }
    if (problems.failed) return { points: [], problems: problems.list };
    return { points: points(road, params.scale, taper), problems: problems.list };
  },
  sample: { length: '6 m', class: 'C', seed: 7, scale: 16 },
});

/** The full-size road that a piece asks for; what is wrong with it goes to `problems`. */
function roadOf(params: z.output<typeof fields>, problems: Problems): Road {
  const { class: name, roughness, longest, shortest, seed, scale } = params;
  if (name !== undefined && roughness !== undefined) {
    problems.error('roughness', 'stands beside a class', 'leave one of them out');
  } else if (name === undefined && roughness === undefined) {
    problems.error('', 'has neither a class nor a roughness', 'give one of them');
  }
  const length = params.length * scale;
  if (shortest >= longest) {
    problems.error(
      'shortest',
      `is ${spoken(shortest)}, not shorter than the longest wave, ${spoken(longest)}`,
    );
  } else if (length < shortest) {
    problems.error(
      'length',
      `is ${spoken(length)} at full size, shorter than its shortest wave, ${spoken(shortest)}`,
    );
  } else if ((length * pointsPerWave) / shortest > limits.groundPoints) {
    problems.error(
      'length',
      tooManyPoints(Math.ceil((length * pointsPerWave) / shortest)),
      'shorten it, or lengthen the shortest wave',
    );
  }
  return { roughness: roughness ?? classMeans[name ?? 'A'], length, longest, shortest, seed };
}

/** Vertices of the piece, m, scaled and tapered. */
function points(road: Road, scale: number, taper: number): Vec2[] {
  const grid = roadGrid(road);
  const heights = roadHeights(road, grid);
  const length = road.length / scale;
  return Array.from({ length: grid.steps + 1 }, (_, i) => {
    const x = (length * i) / grid.steps;
    const fromEnd = Math.min(x, length - x);
    const share = fromEnd >= taper ? 1 : (1 - Math.cos((Math.PI * fromEnd) / taper)) / 2;
    const ends = i === 0 || i === grid.steps;
    return { x, z: ends ? 0 : (share * (heights[i % grid.period] as number)) / scale };
  });
}
