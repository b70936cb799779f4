import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column } from '../../../shared/recording.ts';
import { drive, loadScenario } from '../../../sim/index.ts';
import { drawnOf } from '../../../src/workers/drawn.ts';
import { telling } from '../../../src/workers/telling.ts';
import { drawnFrom } from '../../../src/workers/told.ts';

const folder = new URL('../../../scenarios/', import.meta.url);
const shipped = readdirSync(folder).filter((name) => name.endsWith('.json'));

describe('what a worker tells of a document', () => {
  it.each(shipped)('can be handed over, and draws %s as the window would by itself', (name) => {
    const read = loadScenario(readFileSync(new URL(name, folder), 'utf8'));
    if (!read.ok) throw new Error(name);
    const drawn = drawnOf(read.value);
    const recording = drive(read.value);
    const told = drawnFrom(structuredClone(telling(drawn, recording, read.problems)));
    const { mechanism, ...rest } = told;
    const { mechanism: own, ...ownRest } = drawn;
    expect(rest).toEqual(ownRest);
    expect({ ...mechanism, elements: [] }).toMatchObject({
      mass: own.mass,
      joints: own.joints,
      wheels: own.wheels,
    });
    own.elements.forEach((element, e) => {
      // dry friction is drawn as a sign of its own, whatever it does
      if (element.law.memory > 0) return;
      const travel = column(recording, 'elementTravel', e);
      const efforts = [...travel].map((x) => element.law.spring(x, new Float64Array(8)));
      const traced = [...travel].map(
        (x) => mechanism.elements[e]?.law.spring(x, new Float64Array(0)) ?? Number.NaN,
      );
      const most = Math.max(1e-9, ...efforts.map(Math.abs));
      // 64 straight pieces over the travel of the run: a stop or dry friction that sets in within one of them is off by
      // less than that piece's share, and a picture shows no more
      const off = Math.max(...efforts.map((effort, i) => Math.abs(effort - (traced[i] as number))));
      expect(off / most).toBeLessThan(0.05);
    });
  });
});
