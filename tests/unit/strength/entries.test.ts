/*
 * Strength entries that make no sense are told with their place and what to do.
 * Seen red: names not checked; an entry given twice; figures that the element has too.
 */
import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { compile, loadScenario } from '../../../sim/index.ts';
import { materialNames } from '../../../sim/strength/material.ts';
import { strengthKinds } from '../../../sim/strength/registry.ts';
import { materialSources } from '../../../sim/strength/sources.ts';
import { readWith } from './vehicles.ts';

const pin = { kind: 'pin', member: 'middle-arm', material: 'mild-steel', diameter: '3 mm', lug: '3 mm' };
const bar = { kind: 'bar', element: 'middle torsion bars', material: 'music-wire' };

const problemOf = (...parts: Record<string, unknown>[]) => readWith('corrie', parts).problems[0];

describe('an axle on rods', () => {
  const rod = {
    kind: 'rod',
    member: 'front-axle',
    material: 'mild-steel',
    section: { shape: 'round', diameter: '3 mm' },
  };

  it('has a lower and an upper rod, each with an entry of its own', () => {
    const read = readWith('fell', [
      { ...rod, rod: 'lower' },
      { ...rod, rod: 'upper' },
      { ...pin, member: 'front-axle', rod: 'upper' },
    ]);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(compile(read.value).strength?.parts.map(({ target, of }) => `${target} ${of}`)).toEqual([
      'rod front-axle lower rod',
      'rod front-axle upper rod',
      'pin front-axle upper rod',
    ]);
  });

  it('asks which one is meant', () => {
    const [problem] = readWith('fell', [rod]).problems;
    expect(problem).toMatchObject({ path: 'vehicle.strength.parts[0].rod', hint: "give 'lower' or 'upper'" });
  });
});

describe('a strength entry', () => {
  it.each([
    ['a misspelt name', [{ ...pin, member: 'middle-arn' }], '[0].member', 'did you mean "middle-arm"?'],
    ['a guide called a pin', [{ ...pin, member: 'front-axle' }], '[0].member', 'known: middle-arm'],
    [
      'a spring that is no torsion bar',
      [{ ...bar, element: 'front springs' }],
      '[0].element',
      'known: middle torsion bars',
    ],
    ['a rod of a member that has none', [{ ...pin, rod: 'lower' }], '[0].rod', 'leave it out'],
    ['the same part twice', [pin, pin], '[1]', 'keep one'],
    ['a count that the element has', [{ ...bar, count: 2 }], '[0].count', 'leave it out'],
    [
      'a section that the element has',
      [{ ...bar, section: { shape: 'round', diameter: '2 mm' } }],
      '[0].section',
      'leave it out',
    ],
    [
      'a coil without its wire',
      [{ kind: 'coil', element: 'front springs', material: 'music-wire' }],
      '[0].wire',
      'diameter',
    ],
    [
      'a force for a stop that turns',
      [{ kind: 'stop', member: 'middle-arm', force: '3 N' }],
      '[0].force',
      'torque',
    ],
    ['a stop without a limit', [{ kind: 'stop', member: 'middle-arm' }], '[0].torque', 'energy'],
    [
      'a hole as high as its beam',
      [
        {
          kind: 'beam',
          member: 'middle-arm',
          material: 'pom',
          section: { shape: 'rectangle', width: '3 mm', height: '6 mm' },
          hole: '6 mm',
        },
      ],
      '[0].hole',
      'smaller',
    ],
  ])('with %s is told', (_name, parts, place, hint) => {
    const problem = problemOf(...parts);
    expect(problem?.path).toBe(`vehicle.strength.parts${place}`);
    expect(problem?.hint).toContain(hint);
    expect(problem?.severity).toBe('error');
  });

  it('is told beside other mistakes of the document, but not for a member that could not be read', () => {
    const document = structuredClone(corrie) as { vehicle: { members: object[]; strength?: object } };
    document.vehicle.strength = { parts: [pin] };
    Object.assign(document.vehicle.members[1] as object, { bump: 'far' });
    expect(loadScenario(document).problems.map((p) => p.path)).toEqual(['vehicle.members[1].bump']);
    document.vehicle.strength = { parts: [{ ...bar, count: 2 }] };
    expect(loadScenario(document).problems.map((p) => p.path)).toEqual([
      'vehicle.members[1].bump',
      'vehicle.strength.parts[0].count',
    ]);
  });

  it('is refused with a solid length longer than its free length', () => {
    const coil = {
      kind: 'coil',
      element: 'front springs',
      material: 'music-wire',
      freeLength: '20 mm',
      solidLength: '30 mm',
    };
    expect(problemOf({ ...coil, wire: { diameter: '1 mm', coilDiameter: '10 mm' } })?.message).toContain(
      'shorter',
    );
  });
});

it('every material has its source, and every kind a sample that reads', () => {
  for (const name of materialNames) expect(materialSources[name]).toMatch(/from memory|no source/);
  for (const { fields, sample } of strengthKinds) expect(fields.safeParse(sample).success).toBe(true);
});
