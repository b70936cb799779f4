/* Seen red: the old ground for a changed one; a range not looked at; grip beyond its limit let through as crossing. */
import { describe, expect, it } from 'vitest';
import { appraise, crawl, loadScenario, type Scenario } from '../../../sim/index.ts';
import { measureKinds } from '../../../sim/report/measures/registry.ts';
import { findPath, putAt } from '../../../sim/scenario/path.ts';
import { chooseMeasure, measuresOfCrossings, otherMeasures } from '../../../sim/studies/choice.ts';
import type { Setting } from '../../../sim/studies/knob.ts';
import { Study } from '../../../sim/studies/study.ts';
import { scenarioOf } from '../../rigs/vehicle.ts';
import { shipped, textOf } from './shipped.ts';

const scenario = shipped('corrie-6x6');
const study = new Study({ scenario, stations: 60 });

const setting = (path: string, value: number): Setting => {
  const found = findPath(scenario, path);
  if (!found.ok) throw new Error(`no ${path}`);
  return { path: found.value, value };
};

/** The same by the long way: the document changed, read again, crossed and reported. */
function reported(settings: readonly Setting[]) {
  const document = settings.reduce<unknown>(
    (d, { path, value }) => putAt(d, path, value),
    JSON.parse(textOf('corrie-6x6')),
  );
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return appraise(read.value, crawl(read.value, { stations: 60, regardless: true }));
}

describe('a crossing with changed figures', () => {
  it.each([
    ['as it is', []],
    [
      'with the pivot moved',
      [
        setting('vehicle.members[middle-arm].pivot.x', -0.345),
        setting('vehicle.members[rear-arm].pivot.x', -0.345),
      ],
    ],
    ['with thinner bars', [setting('vehicle.elements[middle torsion bars].bar.section.diameter', 0.0019)]],
    ['on a lower step', [setting('ground[step].height', 0.025)]],
  ] as const)('%s comes to what reading the changed document comes to', (_, settings) => {
    const report = reported(settings);
    const answer = study.at(settings);
    const least = report.measures.find(({ name }) => name === 'leastLoadShare');
    expect(answer.value).toBe(least?.value);
    expect(answer.of).toBe(least?.of);
    expect(answer.station).toBe(least?.moment?.station);
    expect(answer.fails).toEqual(report.verdicts.flatMap(({ pass, index }) => (pass ? [] : [index])));
    expect(answer.holds).toBe(report.pass);
  });

  it('goes on where grip would not do, and says so', () => {
    const slippery = [0, 1, 2].map((n) => setting(`vehicle.wheels[${n}].tyre.grip`, 0.4));
    const answer = study.at(slippery);
    expect(answer.value).toBe(study.at().value);
    expect(answer.holds).toBe(false);
    expect(answer.why).toMatch(/needs a grip of .* and has 0\.400/);
    const reaches = scenario.criteria.findIndex(({ kind }) => kind === 'reaches');
    expect(answer.fails).toContain(reaches);
    // and the same vehicle, stopped there, does not get across
    const stopped = slippery.reduce<Scenario>(
      (s, { path, value }) => putAt(s, path, value) as Scenario,
      scenario,
    );
    expect(crawl(stopped, { stations: 60 }).end.kind).toBe('stuck');
  });

  it.each([
    [
      'a radius below nothing',
      [setting('vehicle.wheels[front].radius', -0.01)],
      /wheels\[front\]\.radius must be above 0/,
    ],
    [
      'an arm without length',
      [
        setting('vehicle.members[middle-arm].end.x', -0.33),
        setting('vehicle.members[middle-arm].end.z', 0.077),
      ],
      /lies on the pivot/,
    ],
    [
      'all its mass ahead of its wheels',
      [setting('vehicle.masses[frame and motor].at.x', 2)],
      /centre of gravity/,
    ],
    [
      'a figure that is none',
      [setting('vehicle.members[middle-arm].pivot.x', Number.NaN)],
      /not a finite number/,
    ],
  ] as const)('has no answer for %s, and says why', (_, settings, why) => {
    const answer = study.at(settings);
    expect(answer).toMatchObject({ value: null, holds: false });
    expect(answer.why).toMatch(why);
  });

  it('has no answer for a vehicle that cannot stand, and says so', () => {
    const axle = (name: string, x: number) => ({
      name,
      at: { x, z: 0.05 },
      radius: 0.05,
      mass: 0.1,
      stiffness: 8000,
    });
    const pulls = [{ name: 'rope', at: { x: 0, z: 0.6 }, force: 0.1, angle: Math.PI }];
    const cart = scenarioOf({
      mass: 2,
      cg: { x: -0.1, z: 0.05 },
      axles: [axle('front', 0), axle('rear', -0.2)],
      drive: { speed: 0.1 },
      run: { start: 50, until: 50.1, pulls },
    });
    const roped = new Study({ scenario: cart, stations: 3 });
    expect(roped.at().value).not.toBeNull();
    // 2 kg on 100 mm between its middle and the rear wheels: over from 1.96 N·m on, 3.3 N at 600 mm
    const answer = roped.at([{ path: ['run', 'pulls', 0, 'force'], value: 5 }]);
    expect(answer.value).toBeNull();
    expect(answer.why).toMatch(/tips over/);
  });
});

describe('what a study looks at', () => {
  it('is every measure that a run can give, by the kind that gives it, or one that a crossing has nothing of', () => {
    const vehicle = study.vehicle();
    if (!vehicle.ok) throw new Error(vehicle.why);
    const run = { mechanism: vehicle.mechanism, recording: study.cross(vehicle) };
    const given = measureKinds.flatMap((kind) => kind.measure(run).map(({ name }) => [name, kind.name]));
    const others: readonly string[] = otherMeasures;
    const listed = Object.entries(measuresOfCrossings).map(([name, [kind]]) => `${name} of ${kind}`);
    const wanted = given
      .filter(([name]) => !others.includes(name ?? ''))
      .map(([name, kind]) => `${name} of ${kind}`);
    expect([...new Set(wanted)].sort()).toEqual(listed.sort());
  });

  it('is the worst of all where a measure is given for each', () => {
    const value = (measure: string) => new Study({ scenario, stations: 60, measure }).at().value;
    const each = ['front', 'middle', 'rear'].map(
      (wheel) => value(`wheelLeastLoadShare[${wheel}]`) ?? Number.NaN,
    );
    expect(value('wheelLeastLoadShare')).toBe(Math.min(...each));
    expect(value('leastLoadShare')).toBe(Math.min(...each));
  });

  it('may be the value of a criterion', () => {
    const first = new Study({ scenario, stations: 60, measure: 'criteria[0]' });
    expect(first.at().value).toBe(study.at().value);
    expect(first.choice.better).toBe('more');
  });

  it.each([
    ['leastLoadShar', /did you mean "leastLoadShare"/],
    ['energyResidual', /there are leastLoadShare/],
    ['criteria[7]', /criteria\[0\] to criteria\[4\]/],
    ['', /no measure/],
  ])("refuses '%s' and says what there is", (text, words) => {
    const chosen = chooseMeasure(text, scenario);
    expect(chosen.ok).toBe(false);
    expect(chosen.problems.map((p) => `${p.message} (${p.hint})`).join()).toMatch(words);
    expect(() => new Study({ scenario, measure: text })).toThrow(RangeError);
  });
});
