import { didYouMean } from '../../shared/near.ts';
import { type Path, pathText } from '../../shared/path.ts';
import type { Problems } from '../../shared/problem.ts';
import { childOf, describeField, type FieldAbout, schemaAt } from '../../shared/schema/describe.ts';
import { type Dimension, formatQuantity, parseQuantity } from '../../shared/units.ts';
import { findPath } from '../scenario/path.ts';
import { type Scenario, scenarioDocument } from '../scenario/schema.ts';
import { type Knob, namedPath } from '../studies/knob.ts';
import { numbersOf, sharedPins } from '../studies/numbers.ts';
import { pivotsOf } from '../studies/pivots.ts';
import { pivotKnobs, planesOf } from '../studies/planes.ts';
import type { Dial, Option, Values } from './dial.ts';
import { type StudyDocument, studyLimits } from './document.ts';

/** One entry of `vary`, as it is written. */
export type NumberAsk = StudyDocument['vary'][number];

/** What is turned: places that take one value, or a knob; and what may stand there. */
interface Subject {
  readonly name: string;
  readonly turns:
    | { readonly kind: 'places'; readonly paths: readonly Path[] }
    | { readonly kind: 'knob'; readonly knob: Knob };
  readonly dimension?: Dimension;
  readonly unit: string;
  readonly now: unknown;
  readonly takes: FieldAbout['takes'];
  /** The place whose limits its values are held to; none for a knob that turns several figures. */
  readonly path?: Path;
}

/** All knobs that a study may name: those of maps, pins with all that hangs on them, shared pins, single figures. */
export function knobsOf(scenario: Scenario): readonly Knob[] {
  const pivots = pivotsOf(scenario).filter(({ kind }) => kind === 'pivot');
  const all = [
    ...planesOf(scenario).flatMap(({ x, z }) => [x.knob, z.knob]),
    ...pivots.flatMap((pivot) => Object.values(pivotKnobs(scenario, pivot, true))),
    ...sharedPins(scenario),
    ...numbersOf(scenario),
  ];
  return [...new Map(all.map((knob) => [knob.name, knob])).values()];
}

/** Finds what an entry of `vary` turns and which values it takes; undefined with problems told at `vary[i]…`. */
export function dialOf(ask: NumberAsk, at: string, scenario: Scenario, problems: Problems): Dial | undefined {
  const subject = subjectOf(ask, at, scenario, problems);
  if (subject === undefined) return undefined;
  const ways = [ask.from !== undefined || ask.to !== undefined, ask.values !== undefined].filter(Boolean);
  if (ways.length !== 1) {
    problems.error(
      at,
      'says nothing, or too much, of the values it may take',
      "give 'from' and 'to', or 'values'",
    );
    return undefined;
  }
  return ask.values === undefined
    ? stretchOf(ask, at, subject, scenario, problems)
    : listOf(ask.values, at, subject, scenario, problems);
}

function subjectOf(ask: NumberAsk, at: string, scenario: Scenario, problems: Problems): Subject | undefined {
  if ((ask.of === undefined) === (ask.knob === undefined)) {
    problems.error(
      at,
      'must say what varies',
      "give 'of' (a place in the scenario) or 'knob' (a name), not both",
    );
    return undefined;
  }
  return ask.knob === undefined
    ? placesAt(ask, [ask.of ?? []].flat(), at, scenario, problems)
    : knobCalled(ask.knob, ask.name, at, scenario, problems);
}

function knobCalled(
  called: string,
  name: string | undefined,
  at: string,
  scenario: Scenario,
  problems: Problems,
): Subject | undefined {
  const knobs = knobsOf(scenario);
  const knob = knobs.find((k) => k.name === called);
  if (knob === undefined) {
    const names = knobs.map((k) => k.name);
    problems.error(
      `${at}.knob`,
      `the vehicle has nothing called '${called}' that could be turned`,
      didYouMean(called, names) ??
        `there are ${names.slice(0, 12).join(', ')} …; 'axlewright matters' lists them`,
    );
    return undefined;
  }
  const { dimension, unit, now } = knob;
  return { name: name ?? called, turns: { kind: 'knob', knob }, dimension, unit, now, takes: 'figure' };
}

function placesAt(
  ask: NumberAsk,
  written: readonly string[],
  at: string,
  scenario: Scenario,
  problems: Problems,
): Subject | undefined {
  const paths: Path[] = [];
  written.forEach((text, i) => {
    const found = findPath(scenario, text);
    const where = Array.isArray(ask.of) ? `${at}.of[${i}]` : `${at}.of`;
    if (found.ok) paths.push(found.value);
    else
      for (const { path, message, hint } of found.problems)
        problems.error(where, `${path} ${message}`.trim(), hint);
  });
  const [path] = paths;
  if (path === undefined || paths.length < written.length) return undefined;
  const kinds = paths.map((p) => describeField(scenarioDocument, scenario, p));
  const [about] = kinds;
  if (
    about === undefined ||
    about.takes === 'list' ||
    (about.takes === 'object' && ask.values === undefined)
  ) {
    problems.error(`${at}.of`, 'is no single number', `choose one of its fields: ${pathText(path)}.…`);
    return undefined;
  }
  if (kinds.some((k) => k?.takes !== about.takes || k?.dimension !== about.dimension)) {
    problems.error(`${at}.of`, 'names places that cannot all take one value', 'name places of the same kind');
    return undefined;
  }
  return {
    name: ask.name ?? namedPath(scenario, path),
    turns: { kind: 'places', paths },
    ...(about.dimension === undefined ? {} : { dimension: about.dimension }),
    unit: about.unit ?? (about.takes === 'figure' || about.takes === 'number' ? '1' : ''),
    now: path.reduce<unknown>(childOf, scenario) ?? about.standard,
    takes: about.takes,
    path,
  };
}

/** A stretch from one end to the other: all of it, or steps, or multiples of a pitch. */
function stretchOf(
  ask: NumberAsk,
  at: string,
  subject: Subject,
  scenario: Scenario,
  problems: Problems,
): Dial | undefined {
  const from = figureOf(ask.from, `${at}.from`, subject, scenario, problems);
  const to = figureOf(ask.to, `${at}.to`, subject, scenario, problems);
  if (subject.takes !== 'figure' && subject.takes !== 'number')
    problems.error(at, 'is no number, so it has no range', "list what may stand there in 'values'");
  if (from === undefined || to === undefined) return undefined;
  if (!(from < to)) {
    const shown = (v: number) => sayFigure(v, subject.dimension);
    problems.error(
      at,
      from === to ? `begins and ends at ${shown(from)}` : `runs from ${shown(from)} down to ${shown(to)}`,
      from === to
        ? "give 'from' and 'to' two values, or take it out"
        : "'from' is the lesser value: swap the two",
    );
    return undefined;
  }
  const values = valuesBetween(ask, at, from, to, subject, problems);
  return values && dialFor(subject, values);
}

function valuesBetween(
  ask: NumberAsk,
  at: string,
  from: number,
  to: number,
  { dimension, takes }: Subject,
  problems: Problems,
): Values | undefined {
  const asked = [ask.step, ask.steps, ask.pitch].filter((way) => way !== undefined);
  if (asked.length > 1)
    problems.error(at, "has more than one of 'step', 'steps' and 'pitch'", 'keep one of them');
  if (asked.length > 1) return undefined;
  if (ask.steps !== undefined)
    return spaced(from, (to - from) / (ask.steps - 1), ask.steps, takes, at, problems);
  const written = ask.step ?? ask.pitch;
  if (written === undefined) return { kind: takes === 'number' ? 'integer' : 'range', from, to };
  const where = ask.step === undefined ? `${at}.pitch` : `${at}.step`;
  const read = dimension === undefined ? wholeNumber(written) : parseQuantity(written, dimension);
  if (!read.ok || !(read.value > 0)) {
    problems.error(where, read.ok ? 'must be above 0' : read.message);
    return undefined;
  }
  // Ends that are off by rounding count as met: a billionth of a step.
  const [step, slack] = [read.value, 1e-9];
  const first = ask.step === undefined ? step * Math.ceil(from / step - slack) : from;
  const count = Math.floor((to - first) / step + slack) + 1;
  if (count < 1) {
    problems.error(where, `no multiple of ${sayFigure(step, dimension)} lies between 'from' and 'to'`);
    return undefined;
  }
  return spaced(first, step, count, takes, where, problems);
}

function spaced(
  from: number,
  step: number,
  count: number,
  takes: FieldAbout['takes'],
  at: string,
  problems: Problems,
): Values | undefined {
  if (count > studyLimits.values) {
    problems.error(at, `makes ${count} values, more than ${studyLimits.values}`, 'make the step larger');
    return undefined;
  }
  // Twelve digits: 0.1 + 0.2 is 0.3 in every table, and the same design has the same name however it is reached.
  const values = Array.from({ length: count }, (_, i) => Number((from + i * step).toPrecision(12)));
  if (takes === 'number' && values.some((v) => !Number.isInteger(v))) {
    problems.error(at, 'makes values that are no whole numbers', 'a count is a whole number');
    return undefined;
  }
  return { kind: 'list', values };
}

const wholeNumber = (written: number | string) => {
  const value = typeof written === 'number' ? written : Number(written);
  return Number.isInteger(value)
    ? ({ ok: true, value } as const)
    : ({ ok: false, message: `is '${written}', a whole number was wanted` } as const);
};

/** A figure as it is written for this number, SI; undefined with a problem told. */
function figureOf(
  written: unknown,
  at: string,
  subject: Subject,
  scenario: Scenario,
  problems: Problems,
): number | undefined {
  if (written === undefined) {
    problems.error(at, 'is missing', "a range has 'from' and 'to'");
    return undefined;
  }
  const value = readAs(written, at, subject, scenario, problems);
  if (value === undefined) return undefined;
  if (typeof value === 'number') return value;
  problems.error(at, 'is no number');
  return undefined;
}

/** A value as it would stand in the scenario, read to SI by the scenario's own schema; undefined with a problem told. */
function readAs(
  written: unknown,
  at: string,
  { path, dimension }: Subject,
  scenario: Scenario,
  problems: Problems,
): unknown {
  if (path === undefined) {
    const read =
      typeof written === 'number' || typeof written === 'string'
        ? parseQuantity(written, dimension ?? 'ratio')
        : ({ ok: false, message: 'is no figure' } as const);
    if (read.ok) return read.value;
    problems.error(at, read.message, 'hint' in read ? read.hint : undefined);
    return undefined;
  }
  const read = schemaAt(scenarioDocument, scenario, path)?.safeParse(written);
  if (read?.success === true) return read.data;
  const issue = read?.error?.issues[0];
  const inner = issue?.code === 'custom' ? issue.params?.hint : undefined;
  problems.error(at, issue?.message ?? 'cannot stand there', typeof inner === 'string' ? inner : undefined);
  return undefined;
}

/** A list of values: of figures, or of anything that may stand at the place. */
function listOf(
  written: readonly unknown[],
  at: string,
  subject: Subject,
  scenario: Scenario,
  problems: Problems,
): Dial | undefined {
  if (written.length === 0) {
    problems.error(`${at}.values`, 'is an empty list', 'list at least one value, or take the number out');
    return undefined;
  }
  const before = problems.list.length;
  const read = written.map((value, i) => readAs(value, `${at}.values[${i}]`, subject, scenario, problems));
  if (problems.list.length > before) return undefined;
  const figures = read.filter((value) => typeof value === 'number');
  const labels = written.map((value) => (typeof value === 'string' ? value : JSON.stringify(value)));
  const keys = read.map((value) => JSON.stringify(value));
  const twice = keys.findIndex((key, i) => keys.indexOf(key) < i);
  if (twice >= 0)
    problems.error(`${at}.values[${twice}]`, 'stands in the list twice', 'take one of them out');
  if (twice >= 0) return undefined;
  if (figures.length === read.length) return dialFor(subject, { kind: 'list', values: figures });
  const { turns } = subject;
  const paths = turns.kind === 'places' ? turns.paths : [];
  const options = read.map(
    (value, i): Option => ({
      label: (labels[i] ?? '').slice(0, 60),
      puts: paths.map((path) => ({ path, value })),
    }),
  );
  const now = keys.indexOf(JSON.stringify(subject.now));
  return optionsDial(subject.name, options, now < 0 ? null : now);
}

/** The dial of a list of choices; `now`: the index of today's; `along`: a figure of each by which they are near each other. */
export function optionsDial(
  name: string,
  options: readonly Option[],
  now: number | null,
  along?: readonly number[],
): Dial {
  return {
    name,
    unit: '',
    now,
    values: {
      kind: 'list',
      values: options.map(({ label }) => label),
      ...(along === undefined ? {} : { along }),
    },
    turns: { kind: 'options', options },
  };
}

function dialFor({ name, unit, now, turns }: Subject, values: Values): Dial {
  return { name, unit, now: typeof now === 'number' ? now : null, values, turns };
}

const sayFigure = (value: number, dimension: Dimension | undefined): string =>
  dimension === undefined ? String(value) : formatQuantity(value, dimension);
