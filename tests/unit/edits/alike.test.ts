import { describe, expect, test } from 'vitest';
import { loadScenario } from '../../../sim/index.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { alikeWheels, isOneOfWheels } from '../../../src/edits/alike.ts';
import { setValue } from '../../../src/edits/change.ts';
import { shipped } from './shipped.ts';

const corrie = shipped('corrie-6x6');
const wheel = (document: Json, i: number, key: string) => valueAt(document, ['vehicle', 'wheels', i, key]);

describe('The wheels of one axle', () => {
  test('are given to all: size, mass and tyre; each keeps its name, place and carrier', () => {
    const changed = setValue(corrie, ['vehicle', 'wheels', 1, 'radius'], '46 mm').document;
    const { document, says } = alikeWheels(changed, ['vehicle', 'wheels', 1]);
    expect(says).toContain('middle');
    for (const i of [0, 1, 2]) {
      for (const key of ['name', 'on', 'at', 'count'])
        expect(wheel(document, i, key)).toEqual(wheel(corrie, i, key));
      for (const key of ['radius', 'massPerWheel', 'tyre'])
        expect(wheel(document, i, key)).toEqual(wheel(changed, 1, key));
    }
    expect(loadScenario(document).ok).toBe(true);
  });

  test('are not taken from what is no axle line', () => {
    expect(isOneOfWheels(corrie, ['vehicle', 'members', 0])).toBe(false);
    const { document, remarks } = alikeWheels(corrie, ['vehicle', 'members', 0]);
    expect(document).toBe(corrie);
    expect(remarks).toHaveLength(1);
  });
});
