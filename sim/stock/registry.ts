import { z } from 'zod';
import { itemFields, type StockItem } from './kind.ts';
import { bars } from './kinds/bars.ts';
import { dampers } from './kinds/dampers.ts';
import { gears } from './kinds/gears.ts';
import { joints } from './kinds/joints.ts';
import { motors } from './kinds/motors.ts';
import { springs } from './kinds/springs.ts';
import { wheels } from './kinds/wheels.ts';

/** All lists of a stock. A new one is its file and one line here. */
export const stockKinds = [springs, bars, dampers, gears, joints, motors, wheels] as const;

/** Name of a list. */
export type StockList = (typeof stockKinds)[number]['list'];

/** Names of the lists. */
export const stockLists = stockKinds.map(({ list }) => list) as [StockList, ...StockList[]];

/** Name and newest version of the format of stock lists. */
export const stockFormat = 'axlewright-stock';
export const stockVersion = 1;

/** Most items of one list. */
const mostItems = 2000;

/** An item as it stands in its list. Checks across fields go along: a plain spread of the shape would lose them. */
function entry({ fields, title }: { readonly fields: z.ZodObject; readonly title: string }): z.ZodObject {
  const whole = z.strictObject({ ...itemFields, ...fields.shape });
  const checks = fields._zod.def.checks ?? [];
  return (checks.length === 0 ? whole : whole.check(...(checks as never[]))).meta({ title });
}

type ItemOf<K> = K extends { readonly fields: infer F extends z.ZodType } ? StockItem & z.output<F> : never;

/** The lists of a stock, SI, with all defaults filled in. */
export type StockLists = {
  readonly [L in StockList]: readonly ItemOf<Extract<(typeof stockKinds)[number], { readonly list: L }>>[];
};

/** The schema of a stock list. */
export const stockDocument = z
  .strictObject({
    $schema: z.string().optional().meta({ description: 'Address of the JSON Schema, for editors.' }),
    format: z.literal(stockFormat).meta({ description: 'Name of the format.' }),
    version: z.literal(stockVersion).meta({ description: 'Version of the format.' }),
    title: z.string().min(1).max(200).optional().meta({ description: 'What stock it is.' }),
    notes: z.string().max(20_000).optional().meta({ description: 'Anything worth knowing about it.' }),
    ...Object.fromEntries(
      stockKinds.map((kind) => [
        kind.list,
        z
          .array(entry(kind))
          .max(mostItems)
          .default([])
          .meta({ description: `${kind.title} that there are.` }),
      ]),
    ),
  })
  .meta({
    title: 'Axlewright stock list',
    description: 'Parts that there are, with their counts. Figures in SI or text with a unit, with spreads.',
  });
