import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import { appraise, compile, drive, loadScenario, type Scenario, stand } from '../../sim/index.ts';

/**
 * Every file in scenarios/ is a demo in the app, a picture and a test at once: adding one adds all three. What must come
 * out stands here, one line per scenario, as the criteria that it fails on purpose (so that there is something to tune).
 */
const failsOnPurpose: Record<string, readonly string[]> = {
  'cairn-6x6-motors': [],
  'cairn-6x6-shafts': ['part-use'],
  'corrie-6x6': ['wheel-load', 'time-off-ground'],
  'drumlin-6x6-full': [],
  'fell-4x4': [],
  'scree-6': ['wheel-load'],
  'tarn-8x8': [],
};

const folder = new URL('../../scenarios/', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.json'));

function read(file: string): Scenario {
  const read = loadScenario(readFileSync(new URL(file, folder), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 2));
  expect(read.problems).toEqual([]);
  return read.value;
}

it('every shipped scenario has its expectation here, and the other way round', () => {
  expect(files.map((file) => file.replace('.json', '')).sort()).toEqual(Object.keys(failsOnPurpose).sort());
});

describe.each(files)('%s', (file) => {
  const scenario = read(file);
  const before = structuredClone(scenario);
  const recording = drive(scenario);
  const report = appraise(scenario, recording);

  it('is read, compiled and run without being changed', () => {
    compile(scenario);
    expect(scenario).toEqual(before);
  });

  it('arrives, and fails just what it is meant to fail', () => {
    expect(recording.end.kind).toBe('arrived');
    const failed = report.verdicts.filter((v) => !v.pass).map((v) => v.kind);
    expect(failed.sort()).toEqual([...(failsOnPurpose[file.replace('.json', '')] ?? [])].sort());
  });

  it('holds finite numbers only', () => {
    expect(recording.block.every(Number.isFinite)).toBe(true);
    expect(recording.block.length).toBe(recording.frames * recording.columns.length);
  });

  it('stands with loads that sum to its weight', () => {
    const { loads, residual } = stand(scenario);
    const mechanism = compile(scenario);
    // the search stops at an imbalance of 1e-8 of the weight
    expect(loads.reduce((sum, load) => sum + load, 0) / (mechanism.mass * mechanism.gravity)).toBeCloseTo(
      1,
      7,
    );
    expect(residual).toBeLessThan(1e-8);
  });

  it('accounts for its energy within 0.5 % of the work done', () => {
    const [work, energy, lost] = (['work', 'energy', 'lost'] as const).map((channel) =>
      column(recording, channel),
    );
    const most = Math.max(...(work as Float64Array));
    (work as Float64Array).forEach((done, f) => {
      // first-order integrator: the residual shrinks with the substep; 0.5 % is what we promise
      expect(Math.abs(done - (energy?.[f] ?? 0) - (lost?.[f] ?? 0))).toBeLessThan(0.005 * most);
    });
  });

  it('gives the same bytes twice', () => {
    const again = drive(scenario);
    expect(Buffer.from(again.block.buffer).equals(Buffer.from(recording.block.buffer))).toBe(true);
    expect(again.events).toEqual(recording.events);
  });
});
