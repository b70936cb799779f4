import type { Path } from '../../shared/path.ts';
import { readPath } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { declined, type Edit, edited } from './edit.ts';
import { readFigure, roundFigure, writeFigure } from './figures.ts';
import { put } from './put.ts';
import { takenOver } from './written.ts';

/** A change that was tried: figures that change, or, where more than figures do, the scenario with it. */
export interface Tried {
  readonly title: string;
  readonly sets: readonly { readonly path: string; readonly value: number | string }[];
  readonly scenario: Scenario;
}

/** Digits of computed figures. */
const DIGITS = 4;

/** A written path as steps; undefined for one that names an entry. */
export function stepsOf(path: string): Path | undefined {
  const { steps, end } = readPath(path);
  const plain = steps.flatMap((step): (string | number)[] =>
    'key' in step ? [step.key] : 'index' in step ? [step.index] : [],
  );
  return end === path.length && plain.length === steps.length ? plain : undefined;
}

/** The document with one figure set, SI, in the unit that is written there. */
function withFigure(document: Json, path: Path, value: number | string): Json | undefined {
  const { dimension } = describeField(scenarioDocument, document, path) ?? {};
  if (typeof value === 'string' || dimension === undefined) return put(document, path, value);
  const was = valueAt(document, path);
  const known = readFigure(was, dimension) !== undefined;
  const step = Math.abs(value) * 10 ** -DIGITS;
  return put(
    document,
    path,
    known ? writeFigure(value, was, dimension, step) : roundFigure(value, dimension, DIGITS),
  );
}

/** Takes a change that was tried into the document: what it does not touch stays as it is written. */
export function takeTried(document: Json, { title, sets, scenario }: Tried): Edit {
  const says = `take: ${title.charAt(0).toLowerCase()}${title.slice(1)}`;
  if (sets.length > 0) {
    const after = sets.reduce<Json | undefined>((now, { path, value }) => {
      const steps = stepsOf(path);
      return now === undefined || steps === undefined ? undefined : withFigure(now, steps, value);
    }, document);
    return after === undefined
      ? declined(document, says, sets[0]?.path ?? '', 'there is no such place in this document')
      : edited(document, after, says);
  }
  const read = readScenario(document, { file: () => undefined });
  if (!read.ok) return declined(document, says, 'vehicle', 'the vehicle has problems; solve these first');
  // Parsed scenarios are plain values, read-only to all.
  const plain = (of: Scenario) => of.vehicle as unknown as Json;
  return edited(document, takenOver(document, ['vehicle'], plain(read.value), plain(scenario)), says);
}
