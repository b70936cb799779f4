import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineElement, type ElementLaw } from './element.ts';
import { areaOn, type Curve, monotoneCurve, pieceAt, slopeOn, valueAt } from './monotone.ts';
import { withinReach } from './reach.ts';

const row = z.strictObject({
  travel: quantity('length', 'How far the spring is pressed, from free.', { least: 0, most: 1000 }),
  force: quantity('force', 'Force of ONE spring there.', { least: 0, most: 1e9 }),
});

type Row = z.output<typeof row>;

/** Least distance between two rows, m: closer ones are one row written twice. */
const LEAST_STEP = 1e-6;

/** What is wrong with a table, and in which row; undefined when nothing is. */
function tableFault(table: readonly Row[]): { readonly row: number; readonly message: string } | undefined {
  const [first] = table;
  if (first !== undefined && first.force !== 0) {
    return { row: 0, message: 'the first row must be the free spring, with force 0' };
  }
  const bad = table.findIndex((r, i) => {
    const before = table[i - 1];
    return before !== undefined && (r.travel - before.travel < LEAST_STEP || r.force < before.force);
  });
  return bad < 0
    ? undefined
    : {
        row: bad,
        message: 'travel must rise from row to row by 0.001 mm at least, and the force must not fall',
      };
}

/**
 * Law of a spring given by a table: a smooth rising curve through the rows, the last slope carried on beyond them, no
 * force before the first. Its energy is the integral of that very curve, piece by piece, so it is exact.
 * @param drawnAt how far the spring is pressed in the drawn position, m
 */
export function tableSpring(table: readonly Row[], drawnAt: number): ElementLaw {
  const curve = monotoneCurve(
    table.map((r) => r.travel),
    table.map((r) => r.force),
  );
  const at = curve.x;
  const start = at[0] as number;
  const end = at.at(-1) as number;
  const stored = storedAt(curve);
  const [lastForce, lastRate, lastStored] = [curve.y, curve.slope, stored].map((row) => row.at(-1) ?? 0) as [
    number,
    number,
    number,
  ];
  return {
    memory: 0,
    energy: (x) => {
      const s = withinReach(x) + drawnAt;
      if (s <= start) return 0;
      if (s >= end) return lastStored + (s - end) * (lastForce + (s - end) * 0.5 * lastRate);
      const i = pieceAt(curve, s);
      return (stored[i] as number) + areaOn(curve, i, s - (at[i] as number));
    },
    spring: (x) => {
      const s = withinReach(x) + drawnAt;
      if (s <= start) return 0;
      return s >= end ? -(lastForce + (s - end) * lastRate) : -valueAt(curve, s);
    },
    loss: () => 0,
    stiffness: (x) => {
      const s = withinReach(x) + drawnAt;
      if (s <= start) return 0;
      if (s >= end) return lastRate;
      const i = pieceAt(curve, s);
      // The slope of a rising curve; round-off may take a level stretch a hair below zero.
      return Math.max(0, slopeOn(curve, i, s - (at[i] as number)));
    },
    damping: 0,
    corners: Array.from(at, (a) => a - drawnAt),
  };
}

/** Energy stored when the spring is pressed up to each row, J. */
function storedAt(curve: Curve): Float64Array {
  const stored = new Float64Array(curve.x.length);
  for (let i = 1; i < stored.length; i++) {
    const step = (curve.x[i] as number) - (curve.x[i - 1] as number);
    stored[i] = (stored[i - 1] as number) + areaOn(curve, i - 1, step);
  }
  return stored;
}

/** Spring whose force is known from a table, by measurement or from a data sheet. It can only push. */
export const progressiveSpring = defineElement({
  kind: 'progressive-spring',
  title: 'Progressive spring',
  acts: ['travel'],
  source: 'table, through monotone cubic pieces: Fritsch & Butland (1984)',
  fields: z.strictObject({
    table: z
      .array(row)
      .min(2)
      .max(200)
      .superRefine((table, context) => {
        const fault = tableFault(table);
        if (fault !== undefined) {
          context.addIssue({ code: 'custom', message: fault.message, path: [fault.row] });
        }
      })
      .meta({ description: 'Rows of travel and force, from the free spring on, in rising order.' }),
    drawnAt: quantity('length', 'Travel of the table in the drawn position.', {
      least: -1000,
      most: 1000,
    }).default(0),
  }),
  law: (p) => tableSpring(p.table, p.drawnAt),
  sample: {
    table: [
      { travel: 0, force: 0 },
      { travel: 0.01, force: 8 },
      { travel: 0.02, force: 20 },
      { travel: 0.03, force: 44 },
    ],
    drawnAt: 0.008,
  },
  range: [-0.02, 0.03],
});
