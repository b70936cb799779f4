/* Seen red: 'from' and 'to' compared the wrong way round; clashes not looked for; a pitch counted from `from`. */
import { describe, expect, it } from 'vitest';
import { figureOf } from '../../../sim/tuning/dial.ts';
import { readStudy } from '../../../sim/tuning/read.ts';
import { bars, boundOf, type Json, studyOf } from './study.ts';

const one = (number: Json) => bars({ vary: [number] });
const preload = 'vehicle.elements[middle torsion bars].preload';

/** The values of the only number of a study, SI. */
function valuesOf(number: Json): number[] {
  const [dial] = studyOf(one(number)).dials;
  if (dial === undefined || dial.values.kind !== 'list') throw new Error('no list of values');
  return dial.values.values.map((_, i) => figureOf(dial, i));
}

describe('the numbers of a study', () => {
  it('are read in the units of their places, with today beside them', () => {
    const [diameter, load] = studyOf(bars()).dials;
    expect(diameter).toMatchObject({
      name: 'bars',
      unit: 'm',
      now: 0.0025,
      values: { kind: 'list', values: [0.002, 0.0025] },
    });
    expect(load).toMatchObject({ unit: 'N·m', now: 0.35, values: { kind: 'list', values: [0.3, 0.4, 0.5] } });
  });

  it.each<[string, Json, number[]]>([
    ['steps from the lower end', { of: preload, from: 0.1, to: '0.45 N m', step: 0.1 }, [0.1, 0.2, 0.3, 0.4]],
    [
      'a number of values with both ends',
      { of: preload, from: 0.1, to: 0.4, steps: 4 },
      [0.1, 0.2, 0.3, 0.4],
    ],
    [
      'multiples of a pitch counted from the origin of the drawing',
      { of: 'vehicle.masses[battery].at.x', from: '-21 mm', to: '9 mm', pitch: '8 mm' },
      [-0.016, -0.008, 0, 0.008],
    ],
    ['a list', { of: preload, values: ['300 N mm', 0.2] }, [0.3, 0.2]],
  ])('take %s', (_, number, values) => {
    expect(valuesOf(number)).toEqual(values);
  });

  it('may turn what belongs together by its name', () => {
    const [dial] = studyOf(
      one({ knob: 'middle-arm and rear-arm: pivot z', from: '70 mm', to: '80 mm' }),
    ).dials;
    expect(dial).toMatchObject({ now: 0.077, unit: 'm', values: { kind: 'range', from: 0.07, to: 0.08 } });
  });

  it('may be whole numbers, and words', () => {
    const [count] = studyOf(one({ of: 'vehicle.elements[front springs].count', from: 1, to: 4 })).dials;
    expect(count).toMatchObject({ now: 2, unit: '1', values: { kind: 'integer', from: 1, to: 4 } });
    const [sharing] = studyOf(one({ of: 'vehicle.drive.sharing', values: ['open', 'locked'] })).dials;
    expect(sharing).toMatchObject({ now: 1, unit: '', values: { kind: 'list', values: ['open', 'locked'] } });
  });
});

describe('a study is refused', () => {
  it.each<[string, Json, RegExp]>([
    ['a range upside down', one({ of: preload, from: 0.5, to: 0.3 }), /^vary\[0\]: runs from .* down to/],
    ['a range of one value', one({ of: preload, from: 0.5, to: 0.5 }), /^vary\[0\]: begins and ends at/],
    ['an empty list', one({ of: preload, values: [] }), /^vary\[0\]\.values: is an empty list/],
    [
      'a value twice',
      one({ of: preload, values: [0.3, '300 N mm'] }),
      /^vary\[0\]\.values\[1\]: stands in the list twice/,
    ],
    ['no values', one({ of: preload }), /says nothing, or too much/],
    ['both ways at once', one({ of: preload, from: 0, to: 1, values: [1] }), /says nothing, or too much/],
    ['two kinds of steps', one({ of: preload, from: 0, to: 1, step: 0.1, steps: 3 }), /more than one of/],
    [
      'a pitch that no value meets',
      one({ of: 'vehicle.masses[cab].at.x', from: '1 mm', to: '7 mm', pitch: '8 mm' }),
      /no multiple of 8 mm/,
    ],
    ['a wrong unit', one({ of: preload, from: '3 mm', to: 1 }), /^vary\[0\]\.from: .*torque/],
    [
      'a place that is not there',
      one({ of: 'vehicle.elements[middle].preload', from: 0, to: 1 }),
      /^vary\[0\]\.of: .*no entry called 'middle'/,
    ],
    [
      'a value out of range',
      one({ of: 'vehicle.wheels[front].tyre.grip', from: 0, to: 9 }),
      /^vary\[0\]\.to: is 9, must be at most 3/,
    ],
    ['a knob that does not exist', one({ knob: 'middle-arm: lenght', from: 0, to: 1 }), /^vary\[0\]\.knob: /],
    ['neither place nor knob', one({ from: 0, to: 1 }), /must say what varies/],
    [
      'one place twice',
      bars({
        vary: [
          { of: preload, values: [0.3] },
          { name: 'again', of: preload, values: [0.4] },
        ],
      }),
      /^vary\[1\]: sets what vary\[0\] sets too: vehicle/,
    ],
    ['a measure that does not exist', bars({ goals: [{ measure: 'leastLoad' }] }), /^goals\[0\]\.measure: /],
    ['a measure of a drive without one', bars({ goals: [{ measure: 'timeTaken' }] }), /needs a driven run/],
    [
      'a wheel that is not there',
      bars({ criteria: [{ kind: 'wheel-load', least: 0.2, wheels: ['fifth'] }] }),
      /no wheel called 'fifth'/,
    ],
    ['an unknown way to search', bars({ method: { kind: 'best' } }), /^method\.kind: /],
    ['an unknown key', bars({ efort: 3 }), /^efort: /],
    ['grounds without weight', bars({ grounds: [{ weight: 0 }] }), /^grounds: all have the weight 0/],
    ['another format', bars({ format: 'axlewright-scenario' }), /^format: /],
    ['a newer version', bars({ version: 2 }), /^version: is 2, newer/],
  ])('for %s', (_, document, words) => {
    const { study, problems } = boundOf(document);
    expect(study).toBeUndefined();
    expect(problems.map((p) => `${p.path}: ${p.message}`)).toContainEqual(expect.stringMatching(words));
  });

  it('with all its problems at once', () => {
    const { problems } = boundOf(
      bars({
        vary: [
          { of: preload, from: 1, to: 0 },
          { knob: 'x', values: [] },
        ],
        goals: [{ measure: 'y' }],
      }),
    );
    expect(problems.map((p) => p.path)).toEqual(['vary[0]', 'vary[1].knob', 'goals[0].measure']);
  });

  it('when it is no object', () => {
    expect(readStudy('[]')).toMatchObject({
      ok: false,
      problems: [{ message: 'is a list, an object was wanted' }],
    });
    expect(readStudy('{')).toMatchObject({ ok: false });
  });
});

it('rough ground is driven when nothing else is said', () => {
  const rough = { kind: 'rough', class: 'D', length: '2 m' };
  expect(studyOf(bars()).by).toBe('crawl');
  const grounds = [{ ground: [{ kind: 'flat', length: '1 m' }] }, { ground: [rough] }];
  const { study, problems } = boundOf(bars({ grounds }));
  expect(problems).toEqual([]);
  expect(study?.by).toBe('drive');
});
