/**
 * The committed JSON Schema, tried with a validator that knows nothing of this project: ajv (draft 2020-12 dialect).
 * The schema language: JSON Schema, draft 2020-12, json-schema.org.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../sim/scenario/read.ts';
import { type Loose, smallTruck } from '../unit/small-truck.ts';

const root = new URL('../../', import.meta.url);
const json = (path: string | URL) => JSON.parse(readFileSync(new URL(path, root), 'utf8')) as Loose;

// Strict mode refuses words that no draft knows; `unit` and `dimension` are ours, for forms.
const ajv = new Ajv2020({ strict: true, strictTypes: false, allErrors: true });
ajv.addVocabulary(['unit', 'dimension']);
const validate = ajv.compile(json('shared/schema/scenario.schema.json'));

const demos = readdirSync(new URL('scenarios/', root)).filter((name) => name.endsWith('.json'));

describe('the committed JSON Schema, by an independent validator', () => {
  it('takes every scenario that ships, as our own reader does', () => {
    expect(demos.length).toBeGreaterThanOrEqual(5);
    const refused = demos.filter((name) => !validate(json(`scenarios/${name}`)));
    expect(refused).toEqual([]);
  });

  it('takes the small truck of the tests', () => {
    expect(validate(smallTruck()), JSON.stringify(validate.errors)).toBe(true);
  });

  it.each<[string, (truck: Loose) => void]>([
    [
      'an unknown key',
      (t) => {
        t.vehicle.wheels[0].radios = 1;
      },
    ],
    [
      'a missing key',
      (t) => {
        delete t.vehicle.wheels[0].radius;
      },
    ],
    [
      'an unknown kind',
      (t) => {
        t.vehicle.members[0].kind = 'sledge';
      },
    ],
    [
      'a key of another kind',
      (t) => {
        t.vehicle.members[0].pivot = { x: 0, z: 0 };
      },
    ],
    [
      'a wrong type',
      (t) => {
        t.vehicle.wheels[0].radius = true;
      },
    ],
    [
      'text without a number',
      (t) => {
        t.vehicle.wheels[0].radius = 'wide';
      },
    ],
    [
      'a number out of range',
      (t) => {
        t.vehicle.wheels[0].radius = 0;
      },
    ],
    [
      'another format',
      (t) => {
        t.format = 'x';
      },
    ],
    [
      'a newer version',
      (t) => {
        t.version = 2;
      },
    ],
    [
      'no wheels',
      (t) => {
        t.vehicle.wheels = [];
      },
    ],
    [
      'three wheels on a line',
      (t) => {
        t.vehicle.wheels[0].count = 3;
      },
    ],
    [
      'half a spring',
      (t) => {
        t.vehicle.elements[0].count = 0.5;
      },
    ],
  ])('refuses %s, as our own reader does', (_, spoil) => {
    const truck = smallTruck();
    spoil(truck);
    expect(validate(truck)).toBe(false);
    expect(readScenario(truck, { file: () => undefined }).ok).toBe(false);
  });
});
