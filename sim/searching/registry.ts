import { z } from 'zod';
import { front } from './methods/front.ts';
import { fullGrid } from './methods/full-grid.ts';
import { lowDiscrepancy } from './methods/low-discrepancy.ts';
import { oneAtATime } from './methods/one-at-a-time.ts';
import { optimum } from './methods/optimum.ts';
import { robustOptimum } from './methods/robust-optimum.ts';

/** All ways to search. A new one is its file and one line here. */
export const methodKinds = [fullGrid, oneAtATime, lowDiscrepancy, optimum, front, robustOptimum] as const;

type Kind = (typeof methodKinds)[number];
type EntryOf<K> = K extends { readonly kind: infer N; readonly fields: infer F extends z.ZodType }
  ? { readonly kind: N } & z.output<F>
  : never;
type WrittenOf<K> = K extends { readonly kind: infer N; readonly fields: infer F extends z.ZodType }
  ? { readonly kind: N } & z.input<F>
  : never;

/** A way to search with its options, all defaults filled in: { kind: 'full-grid', levels: 5 }. */
export type MethodOptions = EntryOf<Kind>;

/** Checks across fields go along: a plain spread of the shape would lose them. */
function entry({ kind, title, fields }: { kind: string; title: string; fields: z.ZodObject }): z.ZodObject {
  const whole = z.strictObject({
    kind: z.literal(kind).meta({ description: `${title}.` }),
    ...fields.shape,
  });
  const checks = fields._zod.def.checks ?? [];
  return (checks.length === 0 ? whole : whole.check(...(checks as never[]))).meta({ title });
}

/** A way to search as a document says it. */
export const methodField = z
  .discriminatedUnion('kind', methodKinds.map(entry) as never)
  .meta({ description: 'How to search; `kind` says which way.' }) as unknown as z.ZodType<
  MethodOptions,
  WrittenOf<Kind>
>;
