import type { Stock } from '../../../sim/stock/stock.ts';
import { type BoundStudy, bindStudy } from '../../../sim/tuning/bind.ts';
import { readStudy } from '../../../sim/tuning/read.ts';
import { shipped } from '../studies/shipped.ts';

/** Fields of a study that tests change. */
export type Json = Record<string, unknown>;

/** A study of the flagship's bars: two thicknesses of each, and a preload. */
export function bars(changes: Json = {}): Json {
  return {
    format: 'axlewright-study',
    version: 1,
    title: 'Bars',
    scenario: 'corrie-6x6',
    vary: [
      {
        name: 'bars',
        of: [
          'vehicle.elements[middle torsion bars].bar.section.diameter',
          'vehicle.elements[rear torsion bars].bar.section.diameter',
        ],
        values: ['2 mm', '2.5 mm'],
      },
      {
        name: 'middle preload',
        of: 'vehicle.elements[middle torsion bars].preload',
        from: '0.3 N m',
        to: 0.5,
        steps: 3,
      },
    ],
    run: { stations: 60, confirm: 0 },
    method: { kind: 'full-grid' },
    ...changes,
  };
}

const nothing = { file: () => undefined };

/** What reading and binding say of a study: the bound one, or its problems as 'path: message'. */
export function boundOf(document: Json, scenario = shipped('corrie-6x6'), stock?: Stock) {
  const read = readStudy(document);
  if (!read.ok) return { study: undefined, problems: read.problems };
  const bound = bindStudy(read.value, {
    scenario,
    source: nothing,
    own: nothing,
    other: () => undefined,
    ...(stock === undefined ? {} : { stock }),
  });
  return { study: bound.ok ? bound.value : undefined, problems: bound.problems };
}

/** A study that is sound. */
export function studyOf(document: Json, scenario = shipped('corrie-6x6'), stock?: Stock): BoundStudy {
  const { study, problems } = boundOf(document, scenario, stock);
  if (study === undefined) throw new Error(problems.map((p) => `${p.path}: ${p.message}`).join('\n'));
  return study;
}
