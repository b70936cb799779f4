/*
 * What the engine costs. Every row of the table is wall time over runs. The lines above it take processor time, which
 * other work on the machine leaves alone, and turn it into the figures that the project promises: flagship at least 40
 * times faster than real time on one core, events and recording included, and 20,000 frames of it under 40 MB.
 */
import { readFileSync } from 'node:fs';
import { bench, describe } from 'vitest';
import { column } from '../../shared/recording.ts';
import { settle } from '../../sim/dynamics/settle.ts';
import { snapshotOf } from '../../sim/dynamics/snapshot.ts';
import { Frames } from '../../sim/frames/frames.ts';
import { compile, drive, layGround, loadScenario, stand } from '../../sim/index.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { findTouch, makeTouch } from '../../sim/tyre/touch.ts';
import { groundOf } from '../rigs/vehicle.ts';

/** A scenario that ships. */
function shipped(name: string) {
  const read = loadScenario(readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(`${name} does not read`);
  return read.value;
}

const names = ['corrie-6x6', 'tarn-8x8', 'fell-4x4', 'scree-6', 'drumlin-6x6-full'];
const flagship = shipped('corrie-6x6');

const say = (line: string) => process.stdout.write(`${line}\n`);
const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
/** A few whole runs are enough: each is thousands of substeps. */
const runs = { iterations: 5, time: 0, warmupIterations: 1, warmupTime: 0 };

describe('a whole drive: setting down, driving, events, recording', () => {
  for (const name of names) {
    const scenario = shipped(name);
    const model = column(drive(scenario), 'time').at(-1) ?? 0;
    /** Processor time of each run, ms. */
    const spent: number[] = [];
    bench(
      `${name}, ${model.toFixed(1)} s of model time`,
      () => {
        const before = process.cpuUsage();
        drive(scenario);
        const { user, system } = process.cpuUsage(before);
        spent.push((user + system) / 1e3);
      },
      {
        ...runs,
        teardown: (_task, mode) => {
          const last = spent.slice(-5);
          const times = (ms: number) => ((model * 1e3) / ms).toFixed(1);
          if (mode === 'run')
            say(
              `  ${name}: ${times(median(last))} × real time on one core, ${times(Math.min(...last))} at best`,
            );
        },
      },
    );
  }
});

describe('standing', () => {
  const mechanism = compile(flagship);
  const ground = layGround(flagship);
  const { start } = courseOf(flagship, ground);
  bench('flagship let come to rest, as before a drive', () => void settle(mechanism, ground, start), runs);
  bench('flagship by the equilibrium solver', () => void stand(flagship));
});

describe('a tyre finds its contacts', () => {
  const touch = makeTouch();
  const rough = groundOf([{ kind: 'rough', length: 6, class: 'D', seed: 1, scale: 16 }]);
  const step = groundOf([
    { kind: 'flat', length: 1 },
    { kind: 'step', height: 0.03, length: 1 },
  ]);
  bench('on the level', () => findTouch(touch, step, 0.5, 0.0525, 0.055));
  bench('level and step at once', () => findTouch(touch, step, 0.947, 0.0525, 0.055));
  let station = 0;
  bench('rolling over rough ground', () => {
    station = station > 5 ? 1 : station + 0.00037;
    findTouch(touch, rough, station, 0.0525, 0.055);
  });
});

describe('recording', () => {
  const mechanism = compile(flagship);
  const ground = layGround(flagship);
  const { plant } = settle(mechanism, ground, courseOf(flagship, ground).start);
  const snapshot = snapshotOf(plant, 0, 0, undefined);
  const frames = new Frames(mechanism, true);
  for (let n = 0; n < 20_000; n++) frames.add(snapshot);
  // with the columns for the forces, which this bench leaves empty
  const megabytes = frames.pack().block.byteLength / 1e6;
  bench('one frame looked at and added, forces in joints left out', () => {
    const few = new Frames(mechanism, true);
    few.add(snapshotOf(plant, 0, 0, undefined));
  });
  bench('20,000 frames of the flagship packed into columns', () => void frames.pack(), {
    ...runs,
    teardown: (_task, mode) => {
      if (mode === 'run') say(`  20,000 frames of the flagship: ${megabytes.toFixed(1)} MB`);
    },
  });
});
