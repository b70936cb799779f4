import { type Path, pathText } from '../../shared/path.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { type Knob, knobAt, rangeAt } from '../../sim/studies/knob.ts';
import { planesOf } from '../../sim/studies/planes.ts';
import { studyFormat, studyVersion } from '../../sim/tuning/document.ts';
import { knobsOf } from '../../sim/tuning/numbers.ts';

/** One number of a study, as the panel writes it. */
export interface NumberDraft {
  readonly knob?: string;
  readonly of?: string | readonly string[];
  readonly name?: string;
  readonly from?: string | number;
  readonly to?: string | number;
  readonly step?: string | number;
  readonly steps?: number;
  readonly pitch?: string | number;
  readonly values?: readonly unknown[];
}

export interface GoalDraft {
  readonly measure: string;
  readonly want?: 'more' | 'less';
  readonly over?: 'mean' | 'worst';
}

/** A study as it is being written: a document of its own kind, not yet checked. Fields that the panel does not show stay. */
export interface StudyDraft {
  readonly title: string;
  readonly scenario: string;
  readonly vary: readonly NumberDraft[];
  readonly goals?: readonly GoalDraft[];
  readonly method: { readonly kind: string } & Readonly<Record<string, unknown>>;
  readonly run?: Readonly<Record<string, unknown>>;
  readonly seed?: number;
  readonly [key: string]: unknown;
}

/** A study that varies nothing yet. `scenario`: name of the file; `measure`: what is looked at in the window. */
export const freshStudy = (title: string, scenario: string, measure: string): StudyDraft => ({
  format: studyFormat,
  version: studyVersion,
  title: `Tune ${title}`.slice(0, 200),
  scenario,
  vary: [],
  goals: [{ measure }],
  run: { stations: 200, confirm: 3 },
  method: { kind: 'full-grid' },
  seed: 1,
});

/** Values that a number is given at first: fine for one number alone, coarser for each of several. */
const usualSteps = (already: number): number => (already === 0 ? 31 : already === 1 ? 15 : 5);

/** Shares of today's value between which a figure is varied at first. */
const [low, high] = [0.8, 1.25];

/** Digits of the ends of a range: as they are shown. */
const endDigits = 3;

/** The stretch of a number that is worth a look, SI, within what the schema allows. */
export function usualStretch(scenario: Scenario, knob: Knob, size: number): readonly [number, number] {
  const spanned = planesOf(scenario)
    .flatMap(({ x, z }) => [x, z])
    .find((stretch) => stretch.knob.name === knob.name);
  if (spanned !== undefined) return [spanned.from, spanned.to];
  const { now, dimension } = knob;
  // A place or an angle has no scale of its own: a share of the wheel, 5 degrees.
  const around =
    dimension === 'length' && !positive(scenario, knob) ? size / 2 : dimension === 'angle' ? 0.0873 : 0;
  const [from, to] =
    around > 0
      ? [now - around, now + around]
      : now === 0
        ? [0, 1]
        : [Math.min(low * now, high * now), Math.max(low * now, high * now)];
  const [move] = knob.moves;
  const { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } =
    move === undefined || knob.moves.length > 1 ? {} : rangeAt(scenario, move.path);
  return [Math.max(from, least), Math.min(to, most)];
}

/** Whether a figure has a scale: it may not go below zero. */
function positive(scenario: Scenario, { moves }: Knob): boolean {
  const [move] = moves;
  if (move === undefined) return false;
  const { above, least } = rangeAt(scenario, move.path);
  return (above ?? least ?? Number.NEGATIVE_INFINITY) >= 0;
}

/** A knob as a number of a study. `size`: radius of the smallest wheel, m; `already`: numbers that vary by now. */
export function numberFor(scenario: Scenario, knob: Knob, size: number, already: number): NumberDraft {
  const [from, to] = usualStretch(scenario, knob, size);
  const written = (value: number) => formatQuantity(value, knob.dimension, endDigits).replace('−', '-');
  return { knob: knob.name, from: written(from), to: written(to), steps: usualSteps(already) };
}

/** The study with one more number; the same one when it varies already, or when nothing is called so. */
export function withKnob(study: StudyDraft, scenario: Scenario, name: string, size: number): StudyDraft {
  const knob = knobsOf(scenario).find((each) => each.name === name);
  if (knob === undefined || study.vary.some((each) => each.knob === name)) return study;
  return { ...study, vary: [...study.vary, numberFor(scenario, knob, size, study.vary.length)] };
}

/** The study with the figure at a place of the document as one more number; the same one when that varies already. */
export function withFigure(study: StudyDraft, scenario: Scenario, path: Path, size: number): StudyDraft {
  const knob = knobAt(scenario, path);
  if (knob === undefined) return study;
  const { knob: _, ...number } = numberFor(scenario, knob, size, study.vary.length);
  const name = knob.name.replace(/^[^[]*\[([^\]]*)\]\.?/, '$1: ').replaceAll('.', ' ');
  const place = pathText(path);
  if (study.vary.some(({ of, knob: other }) => of === place || other === knob.name)) return study;
  return { ...study, vary: [...study.vary, { of: place, name, ...number }] };
}

/** The study with a number in place of one of its own; without it when there is none. */
export const withNumber = (
  study: StudyDraft,
  index: number,
  number: NumberDraft | undefined,
): StudyDraft => ({
  ...study,
  vary: study.vary.flatMap((each, i) => (i !== index ? [each] : number === undefined ? [] : [number])),
});

/** How the values of a number lie between its ends. */
export const spacings = ['steps', 'step', 'pitch', 'any'] as const;
export type Spacing = (typeof spacings)[number];

export const spacingOf = ({ steps, step, pitch }: NumberDraft): Spacing =>
  steps !== undefined ? 'steps' : step !== undefined ? 'step' : pitch !== undefined ? 'pitch' : 'any';

/** The number with its values spaced in another way. `pitch`: as it is typed for the drawing's grid. */
export function spaced(number: NumberDraft, spacing: Spacing, pitch: string): NumberDraft {
  const { steps: _s, step: _t, pitch: _p, ...rest } = number;
  if (spacing === 'steps') return { ...rest, steps: usualSteps(1) };
  if (spacing === 'any') return rest;
  return { ...rest, [spacing]: pitch };
}
