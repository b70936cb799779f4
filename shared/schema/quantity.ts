import { z } from 'zod';
import { type Dimension, parseQuantity, unitOf } from '../units.ts';

/** Limits of a quantity in SI; `above`/`below` exclude the limit itself. */
export interface Range {
  readonly above?: number;
  readonly least?: number;
  readonly below?: number;
  readonly most?: number;
}

/**
 * A physical figure in a document: a number in SI, or text with a unit ("45 mm", "0.9 N/mm"). Reads to a finite SI
 * number; a wrong dimension, a number that isn't finite or one out of range is an issue that says what was wanted.
 */
export function quantity(dimension: Dimension, says: string, range: Range = {}): z.ZodType<number, number | string> {
  return z
    .union([z.number(), z.string()])
    .transform((written, context): number => {
      const read = parseQuantity(written, dimension);
      if (!read.ok) {
        context.addIssue({ code: 'custom', message: read.message, ...(read.hint === undefined ? {} : { params: { hint: read.hint } }) });
        return z.NEVER;
      }
      const wrong = outOfRange(read.value, range, unitOf(dimension));
      if (wrong !== undefined) {
        context.addIssue({ code: 'custom', message: wrong });
        return z.NEVER;
      }
      return read.value;
    })
    .meta({ description: `${says} Unit: ${unitOf(dimension)}, or text with a unit.`, unit: unitOf(dimension), dimension, ...range }) as z.ZodType<
    number,
    number | string
  >;
}

function outOfRange(value: number, range: Range, unit: string): string | undefined {
  const said = `is ${value} ${unit}`;
  if (range.above !== undefined && !(value > range.above)) return `${said}, must be above ${range.above} ${unit}`;
  if (range.least !== undefined && !(value >= range.least)) return `${said}, must be at least ${range.least} ${unit}`;
  if (range.below !== undefined && !(value < range.below)) return `${said}, must be below ${range.below} ${unit}`;
  if (range.most !== undefined && !(value <= range.most)) return `${said}, must be at most ${range.most} ${unit}`;
  return undefined;
}

/** A point of the drawing: x forward, z up from the drawn ground level, m. */
export const point = (says: string) =>
  z
    .strictObject({
      x: quantity('length', 'Forward of the drawing origin.', { least: -1000, most: 1000 }),
      z: quantity('length', 'Above the drawn ground level.', { least: -1000, most: 1000 }),
    })
    .meta({ description: says });

/** Name of a thing in the document: 1 to 60 characters. */
export const nameOf = (says: string) => z.string().min(1).max(60).meta({ description: says });
