import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column, type Recording } from '../../../shared/recording.ts';
import { appraise, compile, crawl, drive, loadScenario, type Scenario } from '../../../sim/index.ts';
import { supportsOf } from '../../../sim/joints/support.ts';
import { lostLoad } from '../../../sim/report/lost-load.ts';

function shipped(name: string): Scenario {
  const read = loadScenario(
    readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8'),
  );
  if (!read.ok) throw new Error(name);
  return read.value;
}

describe('the load of an axle line, taken apart', () => {
  it.each([
    // springs on a guide, arms with bars and torque rods, two beams, a rocker, an axle on rods
    ['corrie-6x6', 1e-6],
    ['tarn-8x8', 1e-6],
    ['fell-4x4', 1e-6],
    ['scree-6', 1e-6],
    ['drumlin-6x6-full', 1e-6],
  ] as const)('leaves nothing over in a crawl of %s', (name, tolerance) => {
    const scenario = shipped(name);
    const mechanism = compile(scenario);
    const recording = crawl(scenario);
    const weight = mechanism.mass * mechanism.gravity;
    let looked = 0;
    for (let frame = 0; frame < recording.frames; frame += 7)
      mechanism.wheels.forEach((_, w) => {
        const parts = supportsOf(mechanism, recording, w, frame);
        if (parts === undefined) return;
        looked += 1;
        // in balance nothing is left for inertia: the solver's own residual is 1e-8 of the weight, and levers enlarge it
        expect(Math.abs(parts.at(-1)?.load ?? 0)).toBeLessThan(tolerance * weight);
        const sum = parts.reduce((all, { load }) => all + load, 0);
        expect(sum).toBeCloseTo(column(recording, 'groundZ', w)[frame] as number, 6);
      });
    expect(looked).toBeGreaterThan(50);
  });

  it('names the bars of a light arm, and how far it hangs down', () => {
    const scenario = shipped('corrie-6x6');
    const verdict = appraise(scenario, crawl(scenario)).verdicts.find(({ kind }) => kind === 'wheel-load');
    expect(verdict?.of).toBe('rear');
    expect(verdict?.cause).toMatch(
      /^It lost 15 N against the start of the run: 13 N in rear torsion bars, as it hangs 8\.3 mm lower\.$/,
    );
  });

  it('names the drive where it turns the beam under a light wheel', () => {
    const scenario = shipped('scree-6');
    const verdict = appraise(scenario, drive(scenario)).verdicts.find(({ kind }) => kind === 'wheel-load');
    expect(verdict?.cause).toMatch(/to the drive, whose pull and torque turn what carries it/);
    expect(verdict?.cause).toMatch(/come back through the rear wheel\.$/);
  });

  it('names the stop that holds a wheel up, and where it was met', () => {
    const { vehicle, ...rest } = shipped('corrie-6x6');
    const members = vehicle.members.map((m) => (m.name === 'rear-arm' ? { ...m, droop: 0.06 } : m));
    const short = { ...rest, vehicle: { ...vehicle, members } } as Scenario;
    const mechanism = compile(short);
    const recording = crawl(short, { regardless: true });
    const hit = recording.events.find((e) => e.kind === 'stop-hit' && e.member === 'rear-arm');
    expect(hit).toBeDefined();
    const rear = recording.wheels.indexOf('rear');
    expect(lostLoad({ mechanism, recording }, rear, lightest(recording, rear))).toMatch(
      /to the droop stop of rear-arm, met with the vehicle at \d+ mm/,
    );
  });

  it('says nothing of a wheel that lost nothing', () => {
    const scenario = shipped('corrie-6x6');
    const recording = crawl(scenario);
    expect(lostLoad({ mechanism: compile(scenario), recording }, 0, 0)).toBeUndefined();
  });
});

function lightest(recording: Recording, wheel: number): number {
  const loads = column(recording, 'load', wheel);
  return loads.indexOf(Math.min(...loads));
}
