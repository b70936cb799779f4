/*
 * Slopes: what holds, what slides, what climbs.
 *
 * Seen red: a locked wheel's roll taken without the turn of its carrier; bristles that forget 0.1 % a substep; grip 1.5 %
 * too low; the drive's reaction left out; gravity ½ % off.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column, type Recording } from '../../shared/recording.ts';
import { record } from '../../sim/dynamics/drive.ts';
import { type Command, Plant } from '../../sim/dynamics/plant.ts';
import { drive, loadScenario } from '../../sim/index.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { froude } from '../rigs/froude.ts';
import { g, groundOf, type Rig, scenarioOf, slope, standOf } from '../rigs/vehicle.ts';

const degree = Math.PI / 180;

describe('the flagship parked on 20 degrees with grip 0.8', () => {
  const document = JSON.parse(
    readFileSync(new URL('../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
  );
  const parked = loadScenario({
    ...document,
    vehicle: { ...document.vehicle, drive: { ...document.vehicle.drive, speed: 0 } },
    ground: [{ kind: 'ramp', length: 20, angle: '20 deg' }],
    run: { start: 10, time: 60, frames: 10 },
    criteria: [],
  });
  if (!parked.ok) throw new Error(JSON.stringify(parked.problems));

  const strayed = (recording: Recording) => {
    const stations = column(recording, 'station');
    return Math.max(...stations.map((s) => Math.abs(s - (stations[0] as number))));
  };

  it('moves less than 0.1 mm in 60 s', () => {
    const recording = drive(parked.value);
    expect(recording.end.kind).toBe('time-up');
    expect(recording.end.time).toBeCloseTo(60, 6);
    // the bar is 0.1 mm; slip is taken from places, so nothing creeps but rounding
    expect(strayed(recording)).toBeLessThan(1e-9);
    expect(recording.events).toEqual([]);
  });

  it('moves less than sixteen times that at full size', () => {
    const recording = drive(froude(parked.value, 16, 15_000));
    expect(recording.end.time).toBeCloseTo(240, 6);
    expect(strayed(recording)).toBeLessThan(1.6e-8);
  });
});

/** Two axles 320 mm apart, centre of gravity midway and 120 mm up; wheels of 120 mm. */
const truck = (more: Partial<Rig>): Rig => ({
  mass: 3,
  cg: { x: -0.16, z: 0.12 },
  axles: (
    [
      ['front', 0],
      ['rear', -0.32],
    ] as const
  ).map(([name, x]) => ({
    name,
    at: { x, z: 0.06 },
    radius: 0.06,
    mass: 0.05,
    stiffness: 2e4,
    load: 12,
    grip: 0.8,
    damping: 1,
  })),
  ...more,
});

describe('the steepest grade with grip 0.8', () => {
  // Gillespie, Wong: gradeability equations (places from memory), centre of gravity mid-wheelbase, h/L = 0.375. All
  // axles at one speed: atan μ. Rear: tan = μ(a/L)/(1 − μh/L). Front: tan = μ(b/L)/(1 + μh/L).
  it.each([
    { drives: 'all' as const, limit: 38.6598 },
    { drives: ['rear'], limit: 29.7449 },
    { drives: ['front'], limit: 17.1027 },
  ])('driven at $drives is $limit degrees', ({ drives, limit }) => {
    const climb = (angle: number) => {
      const rig = truck({
        ground: slope(angle * degree),
        drive: { driven: drives, torquePerWheel: 5, speed: 0.05, acceleration: 0.02 },
        run: { start: 50, until: 90, time: 4, frames: 100 },
      });
      const scenario = scenarioOf(rig);
      const ground = groundOf(scenario.ground);
      return record(compile(scenario), ground, courseOf(scenario, ground));
    };
    // one hundredth either way: tyres 0.6 mm deep lower h by ½ %, which is 0.2 % of a limit; speeding up at 0.02 m/s²
    // asks for 0.2 % of gravity
    const below = climb(0.99 * limit);
    const speed = column(below, 'speed').at(-1) as number;
    expect(below.end.kind).toBe('time-up');
    // forward along the slope at what the regulator holds under load: 5 % at full torque
    expect(speed / Math.cos(limit * degree) / 0.05).toBeGreaterThan(0.9);
    const above = climb(1.01 * limit);
    expect(above.end.kind).toBe('stuck');
    expect(above.end.kind === 'stuck' && above.end.cause).toMatch(/^grip at its limit/);
    expect(above.end.station).toBeLessThan(50);
  });
});

describe('down 15 degrees', () => {
  /** Acceleration down the slope, m/s², of a rig let go where it stands, between 0.1 and 0.5 s. */
  function letGo(rig: Rig, grip: number, command: Command): number {
    const { plant, standing } = standOf({ ...rig, ground: slope(15 * degree) });
    const slippery = {
      ...plant.mechanism,
      wheels: plant.mechanism.wheels.map((w) => ({ ...w, tyre: { ...w.tyre, grip } })),
    };
    const moving = new Plant(slippery, plant.ground, standing.poses);
    const h = 2e-4;
    const speeds: number[] = [];
    for (let n = 1; n <= 2500; n++) {
      moving.substep(h, command);
      if (n === 500 || n === 2500) speeds.push(-moving.reference().speed / Math.cos(15 * degree));
    }
    return ((speeds[1] as number) - (speeds[0] as number)) / 0.4;
  }

  it('solid discs roll at two thirds of what they would slide at', () => {
    // a = (2/3)·g·sin for a disc, I = ½mr²; here two discs of 1 kg and a frame of 20 g between their hubs, which adds
    // its mass without inertia: a = g·sin·M/(M + ΣI/r²). Elementary mechanics.
    const axles = truck({}).axles.map((a) => ({ ...a, mass: 1, stiffness: 1e5 }));
    const free = letGo(truck({ mass: 2.02, cg: { x: -0.16, z: 0.06 }, axles }), 0.8, {
      kind: 'drive',
      speed: 0,
      gain: 0,
    });
    // the rolling radius is that of the loaded tyre, 0.2 mm of 60 less: the spin counts 0.2 % more, its third of the mass
    expect(Math.abs(free / ((g * Math.sin(15 * degree) * 2.02) / 3.02) - 1)).toBeLessThan(0.005);
  });

  it('a block with grip 0.1 slides as the rest of its weight says', () => {
    // a = g(sin − μ·cos) = 1.5914416 m/s²: locked wheels are a block
    expect(Math.abs(letGo(truck({}), 0.1, { kind: 'park', drag: 0 }) / 1.5914416 - 1)).toBeLessThan(0.005);
  });
});
