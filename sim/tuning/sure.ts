import type { Problems } from '../../shared/problem.ts';
import { describeField } from '../../shared/schema/describe.ts';
import { type Spread as Form, parseFigure } from '../../shared/units.ts';
import type { Band } from '../chance/bands.ts';
import type { Indices } from '../chance/indices.ts';
import type { Sureness } from '../chance/monte-carlo.ts';
import { commonSpread, spreadsOf, type Uncertain } from '../chance/spreads.ts';
import { findPath } from '../scenario/path.ts';
import { type Scenario, scenarioDocument } from '../scenario/schema.ts';
import { figureAt, namedPath } from '../studies/knob.ts';
import type { BoundStudy, RoughFigure } from './bound.ts';
import { judgeWords } from './criteria.ts';
import { type Design, scenarioOf } from './dial.ts';
import type { StudyDocument } from './document.ts';
import type { ShownSureness } from './results.ts';

/** What the draws of one design came to. */
export interface Drawn {
  /** Its number in the plan. */
  readonly n: number;
  readonly sureness: Sureness;
  /** Wheel loads along the crossing, N per axle line. */
  readonly bands: readonly Band[];
  /** Which spread matters most to the first goal, with the names of the spreads; where it was looked for. */
  readonly indices?: { readonly names: readonly string[]; readonly of: Indices };
}

/** The spreads of a scenario as it is written, and those that the study adds; problems are told at `sure.spreads[i]`. */
export function roughFigures(
  { sure }: StudyDocument,
  scenario: Scenario,
  written: unknown,
  problems: Problems,
): readonly RoughFigure[] {
  const own = (sure?.spreads ?? []).flatMap(({ of, spread }, i): RoughFigure[] => {
    const found = findPath(scenario, of);
    const dimension = found.ok
      ? describeField(scenarioDocument, scenario, found.value)?.dimension
      : undefined;
    if (!found.ok || dimension === undefined) {
      const [first] = found.problems;
      problems.error(
        `sure.spreads[${i}].of`,
        found.ok ? 'is no figure' : `${first?.path} ${first?.message}`,
        first?.hint,
      );
      return [];
    }
    const read = parseFigure(spread, dimension);
    if (!read.ok || read.value.spread === undefined) {
      problems.error(
        `sure.spreads[${i}].spread`,
        read.ok ? 'has no spread' : read.message,
        'write it like "2.2 kg ± 5 %"',
      );
      return [];
    }
    const path = found.value;
    return [
      {
        path,
        name: namedPath(scenario, path),
        dimension,
        middle: read.value.value,
        form: read.value.spread,
        own: true,
      },
    ];
  });
  const named = new Set(own.map(({ path }) => path.join('/')));
  const there =
    written === undefined ? [] : spreadsOf(written).filter(({ path }) => !named.has(path.join('/')));
  return [
    ...there.map(({ path, name, dimension, middle, form }) => ({ path, name, dimension, middle, form })),
    ...own,
  ];
}

/**
 * What chance draws of one design: spreads about the design's own values, those of the parts that it takes from stock
 * in the place of those that they replace, and the common ones of grip and friction.
 */
export function uncertainOf(study: BoundStudy, design: Design | null): readonly Uncertain[] {
  const { dials, rough, document } = study;
  const scenario = design === null ? study.scenario : scenarioOf(study.scenario, dials, design);
  const options = dials.flatMap(({ stock }, d) => stock?.options[design?.[d] ?? -1]?.puts ?? []);
  const taken = options.flatMap(({ path, written }): RoughFigure[] => {
    const dimension = describeField(scenarioDocument, scenario, path)?.dimension;
    const read =
      dimension === undefined || written === undefined ? undefined : parseFigure(written, dimension);
    if (dimension === undefined || read?.ok !== true || read.value.spread === undefined) return [];
    return [
      { path, name: namedPath(scenario, path), dimension, middle: read.value.value, form: read.value.spread },
    ];
  });
  const put = options.map(({ path }) => path.join('/'));
  const replaced = ({ path, own }: RoughFigure) =>
    own !== true && put.some((p) => `${path.join('/')}/`.startsWith(`${p}/`));
  const figures = [...rough.filter((figure) => !replaced(figure)), ...taken].flatMap(
    (figure): Uncertain[] => {
      const now = figureAt(scenario, figure.path);
      if (now === undefined) return [];
      return [
        { name: figure.name, ...aboutValue(figure, now), moves: { kind: 'figure', path: figure.path } },
      ];
    },
  );
  const common = (['grip', 'friction'] as const).flatMap(
    (what) => commonSpread(scenario, what, document.sure?.[what] ?? 0) ?? [],
  );
  return [...figures, ...common];
}

/** A spread about another middle: lengths and angles are off by as much, all others by the same share. */
function aboutValue(
  { dimension, middle, form }: RoughFigure,
  now: number,
): { readonly middle: number; readonly form: Form } {
  if (now === middle) return { middle, form };
  const shifted = dimension === 'length' || dimension === 'angle' || middle === 0;
  const at = (value: number): number => (shifted ? value + now - middle : value * (now / middle));
  const ends = [at(form.least), at(form.most)];
  const values = form.values.map(at).sort((a, b) => a - b);
  const deviation = shifted ? form.deviation : form.deviation * Math.abs(now / middle);
  return {
    middle: now,
    form: { kind: form.kind, deviation, least: Math.min(...ends), most: Math.max(...ends), values },
  };
}

/** How sure a design is, from what its draws came to. `stations`: of its bands, m. */
export function surenessShown(
  study: BoundStudy,
  { sureness, bands, indices }: Drawn,
  stations: readonly number[],
): ShownSureness {
  const asks = judgeWords(study.scenario.criteria);
  const { draws, failed, end = 'spent', all, criteria, measures } = sureness;
  const row = (values: Float64Array) =>
    Array.from(values, (value) => (Number.isFinite(value) ? value : null));
  const matters = (indices?.of.of ?? []).map((each, i) => ({ name: indices?.names[i] ?? '', ...each }));
  return {
    draws,
    failed,
    end,
    all,
    // getting across counts with the criterion that asks for it
    criteria: criteria.flatMap((probability, c) =>
      asks.indexOf(asks[c] ?? '') === c ? [{ ...probability, asks: asks[c] ?? '' }] : [],
    ),
    goals: measures,
    matters: matters.sort((a, b) => b.total.value - a.total.value),
    bands: bands.map(({ of, p5, p50, p95 }) => ({ wheel: of, p5: row(p5), p50: row(p50), p95: row(p95) })),
    stations,
  };
}
