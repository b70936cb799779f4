/*
 * What the forces in joints cost: a crawl of 200 stations with and without them (promised: within 8 ms on one core for
 * the flagship, warm), one set of sums, and one frame found again from a recording.
 */
import { readFileSync } from 'node:fs';
import { bench, describe } from 'vitest';
import { compile, crawl, layGround, loadScenario } from '../../sim/index.ts';
import { Replay } from '../../sim/joints/replay.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';

for (const name of ['corrie-6x6', 'tarn-8x8', 'fell-4x4', 'scree-6', 'drumlin-6x6-full']) {
  const read = loadScenario(readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(`${name} does not read`);
  const scenario = read.value;
  const mechanism = compile(scenario);
  const ground = layGround(scenario);
  const { start, until } = courseOf(scenario, ground);
  const over = (forces: boolean) =>
    void crawlOver(mechanism, ground, { start, until, stations: 200, regardless: true, forces });
  const recording = crawl(scenario, { stations: 200, regardless: true });
  const replay = new Replay(mechanism, recording);
  let frame = 0;

  describe(`${name}, ${recording.frames} stations`, () => {
    bench('crawl with the forces in joints', () => over(true));
    bench('crawl without', () => over(false));
    bench('one frame found again', () => {
      frame = (frame + 1) % recording.frames;
      replay.at(frame);
    });
  });
}
