import { z } from 'zod';
import { defineMethod } from '../method.ts';
import { levelsField, mostPoints, tooMany } from '../options.ts';
import { valuesOf } from '../space.ts';

/** Today's design, then each number alone over all its values, the others as they are today. */
export const oneAtATime = defineMethod({
  kind: 'one-at-a-time',
  title: 'One at a time',
  source: 'one-factor-at-a-time sweeps, texts on the design of experiments; they show no interplay',
  fields: z.strictObject({ levels: levelsField }),
  goals: { least: 0, most: Number.POSITIVE_INFINITY },
  check: ({ space, options }) => {
    const size = space.reduce((all, axis) => all + valuesOf(axis, options.levels).length, 1);
    return size > mostPoints ? tooMany(size, 'take fewer levels or coarser steps') : [];
  },
  plan({ space, options, today }) {
    const moves = space.flatMap((axis, i) =>
      valuesOf(axis, options.levels)
        .filter((value) => value !== today[i])
        .map((value) => ({ i, value })),
    );
    return {
      size: moves.length + 1,
      point(index) {
        const move = moves[index - 1];
        return move === undefined ? today : today.map((value, i) => (i === move.i ? move.value : value));
      },
    };
  },
});
