/*
 * What a study costs. Bars: a crossing of 200 stations again within 8 ms, 16 ms at the 99th percentile; a map of 60 × 40
 * such crossings within 10 s on two cores (half of what one takes: the parts share nothing), its first coarse picture
 * within 0.3 s. The table says milliseconds; the map is timed on its first level and on every twentieth row.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { bench, describe } from 'vitest';
import {
  Field,
  influencesOf,
  loadScenario,
  type MapAsk,
  mapOver,
  pivotPlane,
  pivotsOf,
  Study,
} from '../../sim/index.ts';
import { settingsFor } from '../../sim/studies/knob.ts';

const file = fileURLToPath(new URL('../../scenarios/corrie-6x6.json', import.meta.url));
const read = loadScenario(readFileSync(file, 'utf8'));
const [pivot] = read.ok ? pivotsOf(read.value) : [];
if (!read.ok || pivot === undefined) throw new Error('the scenario of the bench cannot be read');
const scenario = read.value;
const plane = pivotPlane(scenario, pivot);
const study = new Study({ scenario });

/** The pivot wanders as it does under a hand. */
let turn = 0;
const dragged = () => {
  turn += 0.1;
  const to = ({ knob }: typeof plane.x, k: number) => ({ knob, to: knob.now + 0.01 * Math.sin(k * turn) });
  return settingsFor([to(plane.x, 1), to(plane.z, 1.3)]);
};

describe('the flagship while its pivot is dragged, 200 stations', () => {
  bench(
    'crossing, measure and all verdicts',
    () => {
      study.at(dragged());
    },
    { warmupIterations: 50 },
  );
});

const ask: MapAsk = { scenario, x: { ...plane.x, steps: 60 }, z: { ...plane.z, steps: 40 } };

describe('the map of its pivot, 60 × 40 crossings', () => {
  bench(
    'first coarse picture, one of two parts',
    () => {
      const rows = mapOver(ask, { part: 0, of: 2 });
      // four rows on the coarsest level
      for (let n = 0; n < 2; n++) rows.next();
    },
    { warmupIterations: 1 },
  );
  bench(
    'a twentieth of all of it, one core',
    () => {
      const field = new Field(ask);
      for (const tile of mapOver(ask, { part: 0, of: 20 })) field.add(tile);
    },
    { warmupIterations: 1 },
  );
});

describe('what matters most to it', () => {
  bench(
    'every figure, by derivatives',
    () => {
      influencesOf({ scenario });
    },
    { warmupIterations: 1 },
  );
});
