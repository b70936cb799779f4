/*
 * Strength entries that make no sense are told with their place and what to do.
 * Seen red: names not checked; an entry given twice; figures that the element has too.
 */
import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { loadScenario } from '../../../sim/index.ts';
import { materialNames } from '../../../sim/strength/material.ts';
import { strengthKinds } from '../../../sim/strength/registry.ts';
import { materialSources } from '../../../sim/strength/sources.ts';
import { readWith } from './vehicles.ts';

const pin = { kind: 'pin', of: 'middle-arm', material: 'mild-steel', diameter: '3 mm', lug: '3 mm' };
const bar = { kind: 'bar', of: 'middle torsion bars', material: 'music-wire' };

const problemOf = (...parts: Record<string, unknown>[]) => readWith('corrie', parts).problems[0];

describe('a strength entry', () => {
  it.each([
    ['a misspelt name', [{ ...pin, of: 'middle-arn' }], '[0].of', 'did you mean "middle-arm"?'],
    ['a guide called a pin', [{ ...pin, of: 'front-axle' }], '[0].of', 'known: middle-arm'],
    [
      'a spring that is no torsion bar',
      [{ ...bar, of: 'front springs' }],
      '[0].of',
      'known: middle torsion bars',
    ],
    ['the same part twice', [pin, pin], '[1].of', 'keep one'],
    ['a count that the element has', [{ ...bar, count: 2 }], '[0].count', 'leave it out'],
    [
      'a section that the element has',
      [{ ...bar, section: { shape: 'round', diameter: '2 mm' } }],
      '[0].section',
      'leave it out',
    ],
    [
      'a coil without its wire',
      [{ kind: 'coil', of: 'front springs', material: 'music-wire' }],
      '[0].wire',
      'diameter',
    ],
    [
      'a force for a stop that turns',
      [{ kind: 'stop', of: 'middle-arm', force: '3 N' }],
      '[0].force',
      'torque',
    ],
    ['a stop without a limit', [{ kind: 'stop', of: 'middle-arm' }], '[0].torque', 'energy'],
    [
      'a hole as high as its beam',
      [
        {
          kind: 'beam',
          of: 'middle-arm',
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
      of: 'front springs',
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
