import type { z } from 'zod';
import type { ElementKind, ElementLaw } from '../../../sim/elements/element.ts';

/** Law of a kind for what a person wrote. @throws when its fields refuse it */
export function lawFrom<S extends z.ZodObject>(kind: ElementKind<S>, written: z.input<S>): ElementLaw {
  return kind.law(kind.fields.parse(written));
}

/** What the fields of a kind say against what a person wrote: `path: message` each. */
export function refusals(kind: ElementKind, written: unknown): string[] {
  const read = kind.fields.safeParse(written);
  return read.success ? [] : read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
}

/** No memory. */
export const none = new Float64Array(0);
