/* Documents that are sound by every field and would never end, or fill the memory. Seen red without each bound. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { columnHeads } from '../../shared/recording.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { namesOf } from '../../sim/frames/frames.ts';
import { appraise, compile, drive, loadScenario } from '../../sim/index.ts';
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
