/*
 * Documents that are sound by every field and would never end, fill the memory, or let figures run away. Seen red: each
 * without its mend, the endless run by its time limit.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { columnHeads } from '../../shared/recording.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { namesOf } from '../../sim/frames/frames.ts';
import { appraise, compile, drive, loadScenario, standOn } from '../../sim/index.ts';
import { told } from './bad-input/told.ts';
import { type Loose, smallTruck } from './small-truck.ts';

function read(change: (truck: Loose) => void) {
  const truck = smallTruck();
  change(truck);
  const found = loadScenario(truck);
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join('; '));
  return found.value;
}

describe('a recording that would not fit into memory', () => {
  it('is refused on reading, with what would fit', () => {
    const truck = smallTruck();
    truck.run = { time: '1 h', frames: 2000 };
    const scenario = read(() => undefined);
    const columns = columnHeads(namesOf(compile(scenario))).length;
    const most = Math.floor(limits.recordedFigures / columns / 3600);
    expect(told(truck)).toEqual([
      expect.stringMatching(
        new RegExp(`^error: run: may last 3600 s, .*MB; at most 512 MB .*ask for at most ${most} frames`),
      ),
    ]);
    truck.run.frames = most;
    expect(told(truck)).toEqual(['reads']);
  });
});

describe('a part so light for its spring that the run would take years', () => {
  it('ends at once and says which', () => {
    const scenario = read((truck) => {
      truck.vehicle.wheels[2].massPerWheel = 1e-25;
      truck.vehicle.wheels[2].inertiaPerWheel = 1e-30;
    });
    const recording = drive(scenario);
    expect(recording.end).toMatchObject({ kind: 'diverged', quantity: 'the number of substeps' });
    expect(recording.end.kind === 'diverged' && recording.end.cause).toMatch(
      /^rear .* is so stiff for its mass/,
    );
    expect(recording.block.every(Number.isFinite)).toBe(true);
    expect(appraise(scenario, recording).end?.kind).toBe('diverged');
  });
});

describe('a run whose figures run away between two frames', () => {
  it('keeps what it met meanwhile out of the events', () => {
    // 5e-324 kg is the smallest double: its inverse is infinite in the first substep
    const file = new URL('../../scenarios/scree-6.json', import.meta.url);
    const document = JSON.parse(readFileSync(file, 'utf8')) as Loose;
    document.vehicle.masses[0].mass = 5e-324;
    document.run = { ...document.run, frames: 2000, time: 0.02 };
    const found = loadScenario(document);
    if (!found.ok) throw new Error('the spoilt scenario does not read');
    const { end, events } = drive(found.value);
    expect(end.kind).toBe('diverged');
    const figures = events.flatMap((event) => Object.values(event).filter((v) => typeof v === 'number'));
    expect(figures.every(Number.isFinite)).toBe(true);
  });
});

describe('a wheel heavier than its tyre can carry', () => {
  it('finds no balance, and says so in finite figures', () => {
    const scenario = read((truck) => {
      const wheel = (name: string, x: number, radius: number, massPerWheel: number, count: number) => ({
        name,
        at: { x, z: radius },
        radius,
        count,
        massPerWheel,
        tyre: { stiffnessPerWheel: count === 1 ? 220_461.68856028706 : 391_260.25875268364 },
      });
      truck.vehicle.masses = [
        { name: 'frame', mass: 8000, at: { x: -2.6022132213489586, z: 1.8668575417250395 }, inertia: 32_000 },
      ];
      truck.vehicle.members = [];
      truck.vehicle.elements = [];
      truck.vehicle.wheels = [
        wheel('front', 0, 1.2056845964863898, 160, 4),
        wheel('rear', -3.8006313104182485, 0.895447707735002, 24_000, 1),
      ];
      truck.vehicle.drive.speed = -6;
      const level = { kind: 'flat', length: 12.62832225477323 };
      truck.ground = [level, { kind: 'bumps', count: 3, spacing: 5, radius: 2 }, level];
      truck.criteria = [];
    });
    expect(standOn(scenario)).toMatchObject({ kind: 'none', residual: expect.toSatisfy(Number.isFinite) });
  });
});
