import type { z } from 'zod';
import type { Recording } from '../../shared/recording.ts';
import type { Ledger, Measure, Verdict } from '../../shared/report.ts';
import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/** What measures and criteria look at. */
export interface Run {
  readonly mechanism: Mechanism;
  readonly recording: Recording;
  /** All that could end the crossing, found when it is first asked for; runs that nobody asks leave it out. */
  ledger?(): Ledger;
  /** The ground that was crossed, laid when it is first asked for; undefined where it cannot be laid from the document alone. */
  ground?(): Ground | undefined;
}

/** One measure: a figure of a whole run. One file each; one line in measures/registry.ts. May give several (one per wheel). */
export interface MeasureKind {
  readonly name: string;
  measure(run: Run): readonly Measure[];
}

/** One kind of criterion: its words and its verdict. One file each; one line in criteria/registry.ts. */
export interface CriterionKind<S extends z.ZodObject = z.ZodObject> {
  readonly kind: string;
  readonly title: string;
  /** Strict object of the kind's own fields, besides kind. */
  readonly fields: S;
  /** A worked instance for tests and docs. */
  readonly sample: z.input<S>;
  /** What is asked, as a sentence. */
  asks(params: z.output<S>): string;
  judge(params: z.output<S>, run: Run): Omit<Verdict, 'index' | 'kind' | 'asks'>;
}

/** Declares a criterion kind; keeps the type of its fields. */
export function defineCriterion<S extends z.ZodObject, const N extends string>(
  kind: CriterionKind<S> & { readonly kind: N },
): CriterionKind<S> & { readonly kind: N } {
  return kind;
}
