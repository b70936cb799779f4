import type { BoundStudy } from '../../sim/tuning/bind.ts';
import { type Design, turned } from '../../sim/tuning/dial.ts';
import { type Json, valueAt, withValue } from '../documents/json.ts';
import { changesOf } from '../runs/means.ts';

/** Digits that a figure of a design is taken with: as fine as the plan has them, without the rounding of doubles. */
const digits = 9;

/** The document with the figures of a design, each in the unit that it is written in. */
export function documentWith(document: Json, { scenario, dials }: BoundStudy, design: Design): Json {
  let next = document;
  const chosen = dials.flatMap(({ turns }, d) =>
    turns.kind === 'options' ? (turns.options[design[d] as number]?.puts ?? []) : [],
  );
  for (const { path, value } of chosen) next = withValue(next, path, value as Json);
  const { settings } = turned(scenario, dials, design);
  const rounded = settings.map(({ path, value }) => ({ path, value: Number(value.toPrecision(digits)) }));
  for (const { path, value } of changesOf(next, rounded))
    if (value !== undefined && valueAt(next, path) !== value) next = withValue(next, path, value);
  return next;
}
