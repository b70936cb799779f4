/*
 * The crawl against a general-purpose physics engine: MuJoCo (Todorov, Erez & Tassa, IROS 2012; npm mujoco-js), which
 * shares nothing with this project. Vehicles and ground are written there by hand (tests/rigs/truck-worlds.ts).
 *
 * Its wheels are rigid circles that sink 30 µm; ours get tyres of 500 N/mm, which sink as much, so that springs and
 * pitch differ by parts in 10³ of a load. Bands of 0.3 wheel radii behind a change of contacts are left out, as in
 * statics-slowly.test.ts and for the same reason.
 *
 * Seen red: torsion bars of 2.6 for 2.5 mm; the reaction of the drive on the chassis instead of the beam.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { compile, layGround, loadScenario } from '../../sim/index.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import { moveOver, openEngine, sceneOf } from '../rigs/other-engine.ts';
import { agreementOf, drawnOver, passageOf } from '../rigs/passage.ts';
import { course, eightWheeler, sixWheeler } from '../rigs/truck-worlds.ts';

/** A shipped vehicle on hard tyres, without dry friction and rolling resistance, on the course of the other engine. */
function onCourse(name: string, height: number) {
  const document = JSON.parse(readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8'));
  const [, ...vertices] = course(height);
  const points = [{ x: 0, z: 0 }, ...vertices].map(({ x, z }) => ({ station: x, height: z }));
  const hard = { stiffnessPerWheel: '500 N/mm', loadPerWheel: '10 N', grip: 2, rolling: 0 };
  const { vehicle } = document;
  const read = loadScenario({
    ...document,
    vehicle: {
      ...vehicle,
      elements: vehicle.elements.filter((e: { kind: string }) => e.kind !== 'pivot-friction'),
      wheels: vehicle.wheels.map((w: { tyre: object }) => ({ ...w, tyre: { ...w.tyre, ...hard } })),
    },
    ground: [{ kind: 'table', points }],
    criteria: [],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const mechanism = compile(read.value);
  return { mechanism, ground: layGround(read.value), weight: mechanism.mass * mechanism.gravity };
}

let engine: Awaited<ReturnType<typeof openEngine>>;
beforeAll(async () => {
  engine = await openEngine();
}, 60_000);

const pace = { speed: 0.04, step: 5e-4, every: 0.002, stiffness: 2e4, damping: 700 };
const [from, until] = [0.5, 1.95];

describe('the crawl agrees with a general-purpose physics engine, each wheel load within 0.5 % of the weight', () => {
  it('for the six-wheeler with springs, bars and torque rods, drawn over the ground', () => {
    const { mechanism, ground, weight } = onCourse('corrie-6x6', 0.03);
    const scene = sceneOf(engine, sixWheeler(pace.step, from, course(0.03)));
    const drawn = moveOver(scene, ['front', 'middle', 'rear'], from, until, pace);
    scene.free();
    const agreement = agreementOf(
      drawnOver(mechanism, ground, from, until, 1500),
      drawn,
      weight,
      0.3 * mechanism.size,
    );
    expect(drawn.stations.at(-1)).toBeGreaterThan(until - 0.01);
    expect(agreement.greatest, `at ${agreement.where} m`).toBeLessThan(0.005);
    expect(agreement.mean).toBeLessThan(0.001);
    expect(agreement.out).toBeLessThan(0.2);
  });

  it('for the eight-wheeler on two beams, driven by a motor of equal torque at each axle', () => {
    const { mechanism, ground, weight } = onCourse('tarn-8x8', 0.03);
    const scene = sceneOf(engine, eightWheeler(pace.step, from, course(0.03)));
    const driven = moveOver(
      scene,
      ['first', 'second', 'third', 'fourth'],
      from,
      until,
      { ...pace, stiffness: 4e3, damping: 300 },
      0.05,
    );
    scene.free();
    const branches = mechanism.wheels.map((_, wheel) => ({ kind: 'wheel' as const, wheel }));
    const crawl = crawlOver(mechanism, ground, {
      start: from,
      until,
      stations: 1500,
      share: { kind: 'open', branches },
      regardless: true,
    });
    const agreement = agreementOf(passageOf(crawl, mechanism, ground), driven, weight, 0.3 * mechanism.size);
    expect(driven.stations.at(-1)).toBeGreaterThan(until - 0.01);
    expect(agreement.greatest, `at ${agreement.where} m`).toBeLessThan(0.005);
    expect(agreement.mean).toBeLessThan(0.001);
    expect(agreement.out).toBeLessThan(0.2);
  });
});
