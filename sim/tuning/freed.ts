import { describeField } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../scenario/schema.ts';
import { freeFigures, nearestInStock } from '../stock/nearest.ts';
import type { BoundStudy } from './bound.ts';
import type { Design, Dial } from './dial.ts';

/** Most designs of the search for what to buy or make. */
const freeDesigns = 400;

/** A study in which parts from stock may be anything near them, and which of its numbers stand for which part. */
export interface FreedStudy {
  readonly study: BoundStudy;
  /** For every number of `study`: the number of the first study that it stands for, and which figure of it it is. */
  readonly figures: readonly { readonly dial: number; readonly key: string }[];
}

/**
 * The same study with figures that may be bought or made in the place of parts from stock, to be searched for the best
 * where nothing in stock does it. Undefined when nothing is taken from stock.
 */
export function freed(study: BoundStudy): FreedStudy | undefined {
  const { stock, scenario } = study;
  if (stock === undefined || !study.dials.some((dial) => dial.stock !== undefined)) return undefined;
  const figures: { dial: number; key: string }[] = [];
  const kept: Dial[] = [];
  study.dials.forEach((dial, d) => {
    if (dial.stock === undefined) {
      figures.push({ dial: d, key: '' });
      kept.push(dial);
      return;
    }
    for (const { key, says, from, to, paths, without } of freeFigures(
      stock,
      dial.stock.list,
      dial.stock.places,
      scenario,
    )) {
      figures.push({ dial: d, key });
      const unit = describeField(scenarioDocument, scenario, paths[0] ?? [])?.unit ?? '1';
      const turns = { kind: 'places', paths, without } as const;
      kept.push({
        name: `${dial.name}: ${says}`,
        unit,
        now: null,
        values: { kind: 'range', from, to },
        turns,
      });
    }
  });
  if (!figures.some(({ key }) => key !== '')) return undefined;
  const document = { ...study.document, method: { kind: 'optimum', designs: freeDesigns } as const };
  return { study: { ...study, document, dials: kept }, figures };
}

/** What is nearest in stock to the figures of a design of the freed study, and what to buy or make, part by part. */
export function buyWords(study: BoundStudy, { figures }: FreedStudy, design: Design): string[] {
  const { stock, scenario, dials } = study;
  if (stock === undefined) return [];
  return dials.flatMap((dial, d) => {
    const wanted = Object.fromEntries(
      figures.flatMap((figure, i) =>
        figure.dial === d && figure.key !== '' ? [[figure.key, design[i] as number]] : [],
      ),
    );
    if (dial.stock === undefined || Object.keys(wanted).length === 0) return [];
    const { places, list } = dial.stock;
    return [nearestInStock(stock, list, { places, scenario }, wanted).says];
  });
}
