import { z } from 'zod';
import { defineMethod } from '../method.ts';
import { levelsField, mostPoints, tooMany } from '../options.ts';
import { valuesOf } from '../space.ts';

/** Every value of each number with every value of the others; the last number of the list varies fastest. */
export const fullGrid = defineMethod({
  kind: 'full-grid',
  title: 'Full grid',
  source: 'full factorial design, texts on the design of experiments',
  fields: z.strictObject({ levels: levelsField }),
  goals: { least: 0, most: Number.POSITIVE_INFINITY },
  check: ({ space, options }) => {
    const size = space.reduce((all, axis) => all * valuesOf(axis, options.levels).length, 1);
    return size > mostPoints
      ? tooMany(size, 'take fewer levels or coarser steps, or sample instead of a grid')
      : [];
  },
  plan({ space, options }) {
    const values = space.map((axis) => valuesOf(axis, options.levels));
    return {
      size: values.reduce((all, { length }) => all * length, 1),
      point(index) {
        const point: number[] = [];
        let rest = index;
        for (let i = values.length - 1; i >= 0; i--) {
          const axis = values[i] as readonly number[];
          point[i] = axis[rest % axis.length] as number;
          rest = Math.floor(rest / axis.length);
        }
        return point;
      },
    };
  },
});
