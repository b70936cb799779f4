import type { Path } from '../../shared/path.ts';
import type { Problems } from '../../shared/problem.ts';
import { findPath } from '../scenario/path.ts';
import type { Scenario } from '../scenario/schema.ts';
import { type StockKnob, shortages, shortageWords, stockKnob } from '../stock/knob.ts';
import type { StockList } from '../stock/registry.ts';
import type { Stock } from '../stock/stock.ts';
import { namedPath } from '../studies/knob.ts';
import type { BoundStudy } from './bound.ts';
import type { Design, Dial } from './dial.ts';
import type { StudyDocument } from './document.ts';

type Ask = StudyDocument['vary'][number];

/** Fields of an entry of `vary` that say values in another way. */
const others = ['knob', 'from', 'to', 'step', 'steps', 'pitch', 'values'] as const;

/** The dial that fills places from stock; undefined with problems told at `at`. */
export function stockDialOf(
  ask: Ask,
  at: string,
  stock: Stock | undefined,
  scenario: Scenario,
  problems: Problems,
): Dial | undefined {
  const before = problems.list.length;
  for (const key of others)
    if (ask[key] !== undefined)
      problems.error(`${at}.${key}`, "stands beside 'stock'", 'keep one of the two');
  if (stock === undefined)
    problems.error(
      `${at}.stock`,
      'asks for parts from stock, and there is no stock list',
      "name one in 'stock'",
    );
  const places = placesOf(ask, at, scenario, problems);
  if (stock === undefined || ask.stock === undefined || problems.list.length > before) return undefined;
  const knob = stockKnob(stock, ask.stock, places, scenario);
  problems.add(knob.problems.map((p) => ({ ...p, path: at, message: p.message })));
  if (!knob.ok) return undefined;
  return dialOfKnob(ask.name ?? namedPath(scenario, places[0] ?? []), knob.value);
}

function placesOf({ of }: Ask, at: string, scenario: Scenario, problems: Problems): Path[] {
  const written = of === undefined ? [] : [of].flat();
  if (written.length === 0)
    problems.error(
      at,
      "must say what is filled from stock in 'of'",
      'such as vehicle.elements[front springs]',
    );
  return written.flatMap((text, i) => {
    const found = findPath(scenario, text);
    if (found.ok) return [found.value];
    const where = Array.isArray(of) ? `${at}.of[${i}]` : `${at}.of`;
    for (const { path, message, hint } of found.problems)
      problems.error(where, `${path} ${message}`.trim(), hint);
    return [];
  });
}

function dialOfKnob(name: string, knob: StockKnob): Dial {
  const { options, along, now } = knob;
  return {
    name,
    unit: '',
    now,
    values: { kind: 'list', values: options.map(({ label }) => label), along },
    turns: { kind: 'options', options },
    stock: knob,
  };
}

/** Why a design cannot be built of what there is, or undefined: it takes more of a part than the stock has. */
export function shortageOf(
  { stock, dials }: Pick<BoundStudy, 'stock' | 'dials'>,
  design: Design,
): string | undefined {
  if (stock === undefined) return undefined;
  const knobs = dials.flatMap(({ stock: knob }) => knob ?? []);
  const picks = dials.flatMap(({ stock: knob }, d) => (knob === undefined ? [] : [design[d] as number]));
  const short = shortages(stock, knobs, picks);
  return short.length === 0 ? undefined : `it ${short.map(shortageWords).join(' and ')}`;
}

/** Parts that a design takes from stock, all dials together. */
export function takenBy(
  dials: readonly Dial[],
  design: Design,
): readonly { readonly list: StockList; readonly item: string; readonly count: number }[] {
  const taken = new Map<string, { list: StockList; item: string; count: number }>();
  dials.forEach(({ stock: knob }, d) => {
    for (const { item, count } of knob?.options[design[d] as number]?.takes ?? []) {
      const list = knob?.list as StockList;
      const key = `${list}/${item}`;
      taken.set(key, { list, item, count: (taken.get(key)?.count ?? 0) + count });
    }
  });
  return [...taken.values()];
}
