/*
 * The crawl against planck driven slowly by the same drive line, from motor to wheels: two solvers that share the tree of
 * parts and the vehicle, and nothing of how they move. The differentials are open, so that the tree alone decides on the
 * torques; how a lock winds up depends on the way that lies behind, which no balance knows. Bands, speed and grip as in
 * statics-slowly.test.ts.
 *
 * Seen red: reactions of the drive left out; gears that lose nothing (4×4).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import { record } from '../../sim/dynamics/drive.ts';
import { compile, layGround, loadScenario } from '../../sim/index.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import type { DrivelineInput } from '../rigs/drive-line.ts';
import { agreementOf, passageOf } from '../rigs/passage.ts';

/** A motor, a gearbox and open differentials down to a bevel pair on each axle, or on what carries it. */
const openTo = (axles: readonly { readonly name: string; readonly on: string }[]): DrivelineInput =>
  ({
    parts: [
      // slow and strong, so that it holds its speed downhill: with its throttle closed a motor brakes along its line
      { name: 'motor', kind: 'motor', stallTorque: '2 N m', noLoadSpeed: '500 rpm', inertia: 1e-7 },
      { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: 6 },
      { name: 'centre', kind: 'differential', from: 'gearbox' },
      ...axles.map(({ name, on }) => ({
        name: `${name} final`,
        kind: 'reduction',
        mesh: 'bevel',
        from: 'centre',
        on,
        teeth: [10, 30],
        wheels: [name],
      })),
    ],
  }) as never;

describe('the crawl agrees with planck driven slowly by the same drive line, each load within 0.5 % of the weight', () => {
  it.each([
    {
      name: 'corrie-6x6',
      part: 0.5,
      band: 0.3,
      on: { front: 'front-axle', middle: 'middle-housing', rear: 'rear-housing' },
    },
    { name: 'fell-4x4', part: 0.25, band: 0.3, on: {} },
    { name: 'tarn-8x8', part: 0.5, band: 0.3, on: {} },
  ])(
    '$name, outside $band wheel radii behind a change of contacts',
    ({ name, part, band, on }) => {
      const text = readFileSync(new URL(`../../scenarios/${name}.json`, import.meta.url), 'utf8');
      const document = JSON.parse(text);
      const { torquePerWheel: _none, sharing: _tree, ...drive } = document.vehicle.drive;
      document.vehicle.drive = drive;
      document.vehicle.driveline = openTo(
        document.vehicle.wheels.map((w: { name: string; on?: string }) => ({
          name: w.name,
          on: (on as Record<string, string>)[w.name] ?? w.on ?? 'chassis',
        })),
      );
      const read = loadScenario(document);
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const ground = layGround(read.value);
      const course = courseOf(read.value, ground);
      const whole = compile(read.value);
      const speed = 0.02 * Math.sqrt(whole.gravity * whole.size);
      const mechanism = {
        ...whole,
        wheels: whole.wheels.map((w) => ({ ...w, tyre: { ...w.tyre, grip: 3 } })),
        drive: { ...whole.drive, speed, acceleration: speed },
      };
      const until = course.start + part * (course.until - course.start);
      const crawl = crawlOver(mechanism, ground, {
        start: course.start,
        until,
        stations: 800,
        regardless: true,
      });
      expect(crawl.end.kind).toBe('arrived');
      const run = record(mechanism, ground, { ...course, until, time: (2 * (until - course.start)) / speed });
      expect(run.end.kind).toBe('arrived');
      const loads = mechanism.wheels.map((_, w) => column(run, 'load', w));
      const driven = {
        stations: [...column(run, 'station')],
        loads: [...Array(run.frames).keys()].map((f) => loads.map((of) => of[f] as number)),
      };
      const passage = passageOf(crawl, mechanism, ground);
      const agreement = agreementOf(
        passage,
        driven,
        mechanism.mass * mechanism.gravity,
        band * mechanism.size,
      );
      expect(agreement.greatest, `at ${agreement.where.toFixed(4)} m`).toBeLessThan(0.005);
      expect(agreement.mean).toBeLessThan(0.001);
      // what the motor gives, by the greatest that it gives: in the mean, for the drive speeds up and slows down
      const given = (of: typeof run) => [...column(of, 'sourceTorque')].map((torque) => [torque]);
      const pull = agreementOf(
        { ...passage, loads: given(crawl) },
        { ...driven, loads: given(run) },
        Math.max(...given(crawl).flat()),
        band * mechanism.size,
      );
      expect(pull.mean).toBeLessThan(0.01);
    },
    90_000,
  );
});
