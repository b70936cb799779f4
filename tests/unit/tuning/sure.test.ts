/* Seen red: spreads about the scenario's value instead of the design's; draws written before the design's own figures. */
import { describe, expect, it } from 'vitest';
import { MonteCarlo } from '../../../sim/chance/monte-carlo.ts';
import { figureAt } from '../../../sim/studies/knob.ts';
import { scenarioOf } from '../../../sim/tuning/dial.ts';
import { Tryout } from '../../../sim/tuning/evaluate.ts';
import { buyWords, freed } from '../../../sim/tuning/freed.ts';
import { takenBy } from '../../../sim/tuning/from-stock.ts';
import { uncertainOf } from '../../../sim/tuning/sure.ts';
import { drawer } from './drawer.ts';
import { bars, boundOf, type Json, studyOf } from './study.ts';

const noDrive = () => {
  throw new Error('nothing is to be driven here');
};
const spreads = [
  { of: 'vehicle.elements[middle torsion bars].preload', spread: '0.35 N m ± 10 %' },
  { of: 'vehicle.masses[cab].at.x', spread: '-10 mm ± 2 mm' },
];
const unsure = (changes: Json = {}) => studyOf(bars({ sure: { spreads }, ...changes }));

describe('what chance draws of a design', () => {
  it('lies about the value of the design: forces by the same share, places by the same way', () => {
    const [preload, place] = uncertainOf(unsure(), [0, 2]);
    expect(preload).toMatchObject({ middle: 0.5, form: { kind: 'normal' } });
    expect(preload?.form.deviation).toBeCloseTo(0.025, 12);
    expect(place?.middle).toBeCloseTo(-0.01, 12);
    expect(place?.form.deviation).toBeCloseTo(0.001, 12);
    const vary = [{ of: 'vehicle.masses[cab].at.x', values: ['-10 mm', '30 mm'] }];
    const [, moved] = uncertainOf(unsure({ vary }), [1]);
    expect(moved?.middle).toBeCloseTo(0.03, 12);
    expect(moved?.form.deviation).toBeCloseTo(0.001, 12);
  });

  it('is put over the figures of the design', () => {
    const study = unsure();
    const tries = new Tryout(study, noDrive);
    const path = ['vehicle', 'elements', 2, 'preload'];
    const draw = [{ path, value: 0.3 }];
    // design [·, 2] has 0.5 N·m, drawn down to 0.3, which is design [·, 0]
    expect(tries.at([1, 2], { by: 'crawl', draw })).toEqual(tries.at([1, 0], { by: 'crawl' }));
    expect(figureAt(scenarioOf(study.scenario, study.dials, [1, 2]), path)).toBe(0.5);
  });

  it('holds the loads of wheels at even stations, where they are asked for', () => {
    const tries = new Tryout(unsure(), noDrive);
    const { rows } = tries.at([1, 1], { by: 'crawl', rows: true });
    expect(rows?.map((row) => row.length)).toEqual([120, 120, 120]);
    const sum = (rows ?? []).reduce((all, row) => all + (row[0] ?? Number.NaN), 0);
    // before the step the wheels carry the weight: 6.0 kg, by the five digits that are kept
    expect(sum).toBeGreaterThan(0.99 * 6 * 9.8);
    expect(sum).toBeLessThan(1.01 * 6 * 9.82);
  });

  it('needs something with a spread', () => {
    const { problems } = boundOf(bars({ sure: {} }));
    expect(problems.map((p) => `${p.path}: ${p.message}`)).toEqual([
      expect.stringMatching(/^sure: needs figures with a spread/),
    ]);
    const wrong = boundOf(
      bars({
        sure: {
          spreads: [
            { of: 'vehicle.name', spread: '1 kg ± 2 %' },
            { of: spreads[1]?.of, spread: '3 mm' },
          ],
        },
      }),
    );
    expect(wrong.problems.map((p) => `${p.path}: ${p.message}`)).toEqual([
      'sure.spreads[0].of: is no figure',
      'sure.spreads[1].spread: has no spread',
      expect.stringMatching(/^sure: /),
    ]);
  });
});

describe('a robust search', () => {
  it('judges a design by the percentile of what is drawn of it, the same draws for every design', () => {
    const method = { kind: 'robust-optimum', designs: 10, samples: 8, percentile: '75 %' };
    const study = unsure({ method });
    const tries = new Tryout(study, noDrive);
    const inner = { samples: 8, percentile: 0.75 };
    const robust = tries.at([1, 1], { by: 'crawl', inner });
    const draws = new MonteCarlo({
      uncertain: uncertainOf(study, [1, 1]),
      seed: 1,
      criteria: 0,
      width: 1,
      most: 8,
    });
    const values = Array.from(
      { length: 8 },
      (_, k) => tries.at([1, 1], { by: 'crawl', draw: draws.draw(k).settings }).goals[0] as number,
    );
    // six of eight are as good as this or better: the sixth from the top
    expect(robust.goals[0]).toBe([...values].sort((a, b) => b - a)[5]);
    expect(robust).toEqual(tries.at([1, 1], { by: 'crawl', inner }));
  });
});

describe('parts from stock', () => {
  const vary = [
    { name: 'middle', of: 'vehicle.elements[middle torsion bars]', stock: 'bars' },
    { name: 'rear', of: 'vehicle.elements[rear torsion bars]', stock: 'bars' },
  ];

  it('stand in the scenario with all their figures, and more than there are is no design', () => {
    const study = studyOf(bars({ vary }), undefined, drawer);
    const tries = new Tryout(study, noDrive);
    const scenario = scenarioOf(study.scenario, study.dials, [0, 1]);
    expect(
      scenario.vehicle.elements.filter((e) => e.kind === 'torsion-bar').map((e) => e.bar?.section),
    ).toEqual([
      { shape: 'round', diameter: 0.002 },
      { shape: 'round', diameter: 0.0025 },
    ]);
    expect(takenBy(study.dials, [0, 1])).toEqual([
      { list: 'bars', item: 'two', count: 2 },
      { list: 'bars', item: 'two and a half', count: 2 },
    ]);
    expect(tries.at([0, 1], { by: 'crawl' }).failed).toBeUndefined();
    // two of each, and each of both places takes two
    expect(tries.at([0, 0], { by: 'crawl' })).toMatchObject({
      failed: true,
      why: "it takes 4 of 'two', of which there are 2",
    });
  });

  it('may be let go, to say what to buy or make', () => {
    const study = studyOf(bars({ vary }), undefined, drawer);
    const free = freed(study);
    expect(free?.study.dials.map(({ name, unit }) => [name, unit])).toEqual([
      ['middle: rate', 'N·m/rad'],
      ['rear: rate', 'N·m/rad'],
    ]);
    if (free === undefined) throw new Error('nothing is taken from stock');
    const tries = new Tryout(free.study, noDrive);
    // the rate of the thicker rod: G·π·d⁴/(32·L), so that both ways come to the same crossing
    const rate = (79.3e9 * Math.PI * 0.0025 ** 4) / (32 * 0.096);
    const byRate = tries.at([rate, rate], { by: 'crawl' });
    expect(byRate.goals[0]).toBeCloseTo(
      new Tryout(study, noDrive).at(null, { by: 'crawl' }).goals[0] ?? 0,
      6,
    );
    const words = buyWords(study, free, [1.3 * rate, rate]);
    expect(words[0]).toMatch(
      /Nothing in stock does it for the torsion-bar 'middle torsion bars'; the nearest is 'two and a half'/,
    );
  });

  it('need a stock list', () => {
    const { problems } = boundOf(bars({ vary }));
    expect(problems.map((p) => p.path)).toEqual(['vary[0].stock', 'vary[1].stock']);
  });
});
