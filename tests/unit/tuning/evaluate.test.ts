/* Seen red: weights left out of the mean; `short` of a halt 0; the signs of goals as they are. */
import { describe, expect, it } from 'vitest';
import { Study } from '../../../sim/studies/study.ts';
import { scenarioOf } from '../../../sim/tuning/dial.ts';
import { Tryout } from '../../../sim/tuning/evaluate.ts';
import { shortfall } from '../../../sim/tuning/judge.ts';
import { told } from '../../../sim/tuning/rank.ts';
import { shipped } from '../studies/shipped.ts';
import { bars, type Json, studyOf } from './study.ts';

const noDrive = () => {
  throw new Error('nothing is to be driven here');
};
const tryout = (changes: Json = {}) => new Tryout(studyOf(bars(changes)), noDrive);
const crawl = { by: 'crawl' } as const;

describe('a design', () => {
  it('comes to what a crossing of its scenario comes to, read and crossed by itself', () => {
    const study = studyOf(bars());
    const outcome = new Tryout(study, noDrive).at([0, 2], crawl);
    const scenario = scenarioOf(shipped('corrie-6x6'), study.dials, [0, 2]);
    expect(
      scenario.vehicle.elements
        .filter((e) => e.kind === 'torsion-bar')
        .map((e) => [e.bar?.section, e.preload]),
    ).toEqual([
      [{ shape: 'round', diameter: 0.002 }, 0.5],
      [{ shape: 'round', diameter: 0.002 }, 0.35],
    ]);
    const answer = new Study({ scenario, stations: 60 }).at();
    expect(outcome.goals).toEqual([answer.value]);
    expect(outcome.holds).toBe(answer.holds);
    expect(outcome.short.flatMap((s, c) => (s > 0 && c < scenario.criteria.length ? [c] : []))).toEqual(
      answer.fails,
    );
  });

  it('comes to the same whatever was tried before', () => {
    const tries = tryout();
    const first = tries.at([1, 1], crawl);
    tries.at([0, 0], crawl);
    tries.at([1, 2], crawl);
    expect(tries.at([1, 1], crawl)).toEqual(first);
  });

  it('that is no vehicle fails with its reason and stops nothing', () => {
    // behind the rear wheel of the beam, at −285 mm
    const vary = [{ of: 'vehicle.members[bogie].pivot.x', from: '-300 mm', to: '-200 mm' }];
    const tries = new Tryout(studyOf(bars({ vary }), shipped('scree-6')), noDrive);
    const outcome = tries.at([-0.3], crawl);
    expect(outcome).toMatchObject({ failed: true, holds: false, goals: [null] });
    expect(outcome.why).toMatch(/outside/);
    expect(told(studyOf(bars()).goals, outcome)).toEqual({ goals: null, violation: 0 });
    expect(tries.at([-0.2], crawl).failed).toBeUndefined();
  });

  it('that stops for want of grip says how much of the way is left', () => {
    const vary = [
      { of: ['front', 'middle', 'rear'].map((w) => `vehicle.wheels[${w}].tyre.grip`), values: [0.05, 0.8] },
    ];
    const tries = tryout({ vary });
    const stuck = tries.at([0], crawl);
    expect(stuck.holds).toBe(false);
    expect(stuck.why).toMatch(/grip/);
    const left = stuck.short.at(-1) ?? 0;
    expect(left).toBeGreaterThan(0.1);
    expect(left).toBeLessThanOrEqual(1);
    expect(tries.at([1], crawl).short.at(-1)).toBe(0);
  });
});

describe('several grounds', () => {
  const low = {
    name: 'low',
    weight: 3,
    ground: [
      { kind: 'flat', length: '0.75 m' },
      { kind: 'step', height: '10 mm', length: '1.25 m' },
    ],
  };
  const high = {
    name: 'high',
    weight: 1,
    ground: [
      { kind: 'flat', length: '0.75 m' },
      { kind: 'step', height: '30 mm', length: '1.25 m' },
    ],
  };
  const alone = (ground: Json) => tryout({ grounds: [ground] }).at([1, 1], crawl);

  it('give the mean by their weights, or the worst; what must hold must hold on each', () => {
    const goals = [{ measure: 'leastLoadShare' }, { measure: 'leastLoadShare', over: 'worst' }];
    const both = tryout({ grounds: [low, high], goals }).at([1, 1], crawl);
    const [l, h] = [alone(low).goals[0] ?? 0, alone(high).goals[0] ?? 0];
    expect(l).toBeGreaterThan(h);
    expect(both.goals[0]).toBeCloseTo((3 * l + h) / 4, 12);
    expect(both.goals[1]).toBe(h);
    expect(both.short).toEqual(alone(high).short.map((s, c) => Math.max(s, alone(low).short[c] ?? 0)));
    expect(both.grounds?.map((g) => g.goals[0])).toEqual([l, h]);
  });
});

it('a shortfall is 0 at the limit, a half where the gap is as large as the limit, and never 1', () => {
  expect([shortfall(0, 0.2), shortfall(-1, 0.2), shortfall(0.2, 0.2), shortfall(1, 0)]).toEqual([
    0, 0, 0.5, 0.5,
  ]);
  expect(shortfall(1e6, 0.2)).toBeLessThan(1);
});

it('goals are told to a search with more turned into less', () => {
  const { goals } = studyOf(bars({ goals: [{ measure: 'leastLoadShare' }, { measure: 'mass' }] }));
  const sound = { goals: [0.3, 6], short: [0], violation: 0, holds: true };
  expect(told(goals, sound)).toEqual({ goals: [-0.3, 6], violation: 0 });
});
