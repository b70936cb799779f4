import { describe, expect, it } from 'vitest';
import { describeField, keysAt } from '../../shared/schema/describe.ts';
import { memberKinds } from '../../sim/members/registry.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { smallTruck } from './small-truck.ts';

const about = (...path: (string | number)[]) => describeField(scenarioDocument, smallTruck(), path);

describe('what the schema says of a field', () => {
  it('a figure: what it is, its unit, dimension and limits', () => {
    expect(about('vehicle', 'wheels', 0, 'radius')).toEqual({
      description: 'Unloaded radius. Unit: m, or text with a unit.',
      unit: 'm',
      dimension: 'length',
      range: { above: 0, most: 10 },
      optional: false,
      takes: 'figure',
    });
  });

  it('a figure that is absent has its standard value', () => {
    expect(about('vehicle', 'wheels', 0, 'tyre', 'grip')).toMatchObject({
      dimension: 'ratio',
      range: { least: 0, most: 3 },
      standard: 0.8,
      optional: true,
    });
    expect(about('gravity')).toMatchObject({ standard: 9.80665, unit: 'm/s²' });
    expect(about('run', 'until')).toMatchObject({ optional: true, dimension: 'length', range: {} });
  });

  it('fields of an entry follow its kind', () => {
    expect(about('vehicle', 'members', 1, 'pivot', 'x')).toMatchObject({ dimension: 'length' });
    expect(about('vehicle', 'members', 1, 'bump')).toMatchObject({ dimension: 'angle', optional: true });
    expect(about('vehicle', 'members', 0, 'bump')).toMatchObject({ dimension: 'length', optional: true });
    expect(about('vehicle', 'members', 0, 'pivot')).toBeUndefined();
    expect(about('ground', 1, 'height')).toMatchObject({ dimension: 'length' });
  });

  it('an entry has the title of its kind and the choice of all kinds', () => {
    expect(about('vehicle', 'members', 1)).toMatchObject({
      title: 'Bogie beam',
      takes: 'choice',
      choices: memberKinds.map((k) => k.kind),
    });
    expect(about('vehicle', 'members', 1, 'kind')).toMatchObject({ choices: ['bogie-beam'] });
  });

  it('an element that acts between points has those, one on a member has that', () => {
    const truck = smallTruck();
    expect(keysAt(scenarioDocument, truck, ['vehicle', 'elements', 0, 'on'])).toEqual(['member']);
    truck.vehicle.elements[0].on = {
      from: { on: 'chassis', x: 0, z: 0 },
      to: { on: 'front-axle', x: 0, z: 0 },
    };
    expect(keysAt(scenarioDocument, truck, ['vehicle', 'elements', 0, 'on'])).toEqual(['from', 'to']);
    expect(
      describeField(scenarioDocument, truck, ['vehicle', 'elements', 0, 'on', 'from', 'x']),
    ).toMatchObject({ dimension: 'length' });
  });

  it('counts, texts, truths, lists and objects', () => {
    expect(about('vehicle', 'wheels', 0, 'count')).toMatchObject({
      takes: 'choice',
      choices: [1, 2, 4],
      standard: 2,
      unit: '1',
    });
    expect(about('vehicle', 'elements', 0, 'count')).toMatchObject({
      takes: 'number',
      standard: 1,
      unit: '1',
    });
    expect(about('vehicle', 'name')).toMatchObject({ takes: 'text', optional: false });
    expect(about('vehicle', 'wheels')).toMatchObject({ takes: 'list' });
    expect(about('vehicle', 'drive')).toMatchObject({ takes: 'object' });
  });

  it('nothing of a place that does not exist', () => {
    expect(about('vehicle', 'pivot')).toBeUndefined();
    expect(about('vehicle', '__proto__')).toBeUndefined();
    expect(about('vehicle', 'wheels', 0, 'radius', 'x')).toBeUndefined();
  });
});
