/*
 * Forces in joints close every free body: on all shipped scenarios, on vehicles and grounds drawn by chance.
 *
 * The bar is 10⁻⁶ of the weight (moments: of the weight at the smallest wheel radius); equilibria are found to 10⁻⁹ of
 * it, and a body collects what its few joints leave.
 *
 * Seen red: the opposite sign of a pin force on the parent; an element's couple left out on the parent; weight of wheels
 * counted twice; reactions of the drive torque turned round; a guide's moment taken about the wrong point.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { column, type Recording } from '../../shared/recording.ts';
import { crawl, loadScenario, type Scenario } from '../../sim/index.ts';
import { Replay } from '../../sim/joints/replay.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import { someGround, someRig } from '../rigs/chance.ts';
import { worstLeft } from '../rigs/free-body.ts';
import { groundOf, scenarioOf } from '../rigs/vehicle.ts';

const shipped = Object.entries(
  import.meta.glob<string>('../../scenarios/*.json', { query: '?raw', import: 'default', eager: true }),
);

function read(text: string): Scenario {
  const loaded = loadScenario(text);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return loaded.value;
}

/** Crosses a rig's ground, grip or not. */
function crossed(scenario: Scenario): Recording {
  const ground = groundOf(scenario.ground);
  const { start, until } = courseOf(scenario, ground);
  return crawlOver(compile(scenario), ground, { start, until, stations: 60, regardless: true });
}

/** Largest bending moment that a diagram begins or ends with less the couples there, N·m: a free end carries none. */
function steps(recording: Recording, replay: Replay, beam: number, frame: number): number {
  replay.at(frame);
  const points = replay.diagram(beam);
  const slope = points.slice(1).map((p, i) => {
    const before = points[i] as (typeof points)[number];
    const way = before.way - p.way;
    // along one stretch the moment goes with the shear force
    return way > 1e-6 ? Math.abs((before.bending - p.bending) / way - before.shear) : 0;
  });
  const most = Math.max(...points.map((p) => Math.abs(p.bending)));
  return Math.max(Math.abs(most - (column(recording, 'bending', beam)[frame] as number)), ...slope);
}

describe.each(shipped)('the forces in the joints of %s', (_name, text) => {
  const scenario = read(text);
  const mechanism = compile(scenario);
  const recording = crawl(scenario, { stations: 200, regardless: true });

  it('balance every body at every station', () => {
    const { force, moment } = worstLeft(mechanism, recording);
    expect(recording.frames).toBeGreaterThan(150);
    expect(force).toBeLessThan(1e-6);
    expect(moment).toBeLessThan(1e-6);
    expect(Math.max(...column(recording, 'unbalanced'))).toBeLessThan(1e-6);
  });

  it('make diagrams whose moment goes with their shear force and whose greatest is the recorded one', () => {
    const replay = new Replay(mechanism, recording);
    const weight = mechanism.mass * mechanism.gravity;
    // slopes are differences of moments over ways of at least a micrometre
    recording.beams.forEach((_, beam) => {
      for (let frame = 0; frame < recording.frames; frame += 10)
        expect(steps(recording, replay, beam, frame)).toBeLessThan(1e-7 * weight);
    });
  });
});

describe('the forces in the joints of any vehicle', () => {
  it('balance every body on any ground', () => {
    let stations = 0;
    fc.assert(
      fc.property(fc.tuple(someRig, someGround), ([rig, ground]) => {
        const scenario = scenarioOf({ ...rig, ...ground, drive: { speed: 0.2 } });
        const recording = crossed(scenario);
        const { force, moment } = worstLeft(compile(scenario), recording);
        stations += recording.frames;
        return force < 1e-6 && moment < 1e-6;
      }),
      { seed: 1959, numRuns: 40, endOnFailure: true },
    );
    // most of them do get across
    expect(stations).toBeGreaterThan(40 * 40);
  });
});
