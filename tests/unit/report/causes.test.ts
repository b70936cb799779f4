import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { place } from '../../../shared/geometry/vec.ts';
import { column, poseAt } from '../../../shared/recording.ts';
import { heightAt } from '../../../sim/ground/query.ts';
import { appraise, compile, crawl, layGround, loadScenario, type Scenario } from '../../../sim/index.ts';
import { bellyCause, nearestStation } from '../../../sim/report/causes/belly.ts';
import { endCause, gripCause } from '../../../sim/report/causes/grip.ts';
import { memberCause } from '../../../sim/report/causes/member.ts';
import { pitchCause } from '../../../sim/report/causes/pitch.ts';
import { leastOf } from '../../../sim/report/moments.ts';

function shipped(
  name: string,
  change: (document: Record<string, unknown>) => void = () => undefined,
): Scenario {
  const text = readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8');
  const document = JSON.parse(text) as Record<string, unknown>;
  change(document);
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/** The scenario with one criterion only. */
const asking = (name: string, criterion: object): Scenario =>
  shipped(name, (document) => {
    document.criteria = [criterion];
  });

const verdictOf = (scenario: Scenario) => appraise(scenario, crawl(scenario)).verdicts[0];

/** A run with its arm's droop stop so near that it is met. */
function shortDroop() {
  const { vehicle, ...rest } = shipped('corrie-6x6');
  const members = vehicle.members.map((m) => (m.name === 'rear-arm' ? { ...m, droop: 0.06 } : m));
  return { ...rest, vehicle: { ...vehicle, members } } as Scenario;
}

describe('the cause of a belly that comes near to the ground', () => {
  it('names the piece under its nearest place, and the wheels on both sides', () => {
    expect(verdictOf(asking('corrie-6x6', { kind: 'belly-clearance', least: '5 mm' }))?.cause).toBe(
      "Nearest to it is the ground at 750 mm, part of 'Step', between the middle wheel and the front wheel; the chassis pitches 6.3° nose-up.",
    );
  });

  it.each(['corrie-6x6', 'fell-4x4', 'tarn-8x8', 'drumlin-6x6-full'])(
    'finds on %s the place whose gap is the recorded clearance',
    (name) => {
      const scenario = shipped(name);
      const [mechanism, ground, recording] = [compile(scenario), layGround(scenario), crawl(scenario)];
      const least = leastOf(column(recording, 'clearance'));
      if (least === undefined) throw new Error('no clearance');
      const pose = poseAt(recording, mechanism.belly.body, least.frame);
      const belly = mechanism.belly.points.map((p) => place(pose, p));
      const x = nearestStation(belly, ground) ?? Number.NaN;
      const after = belly.findIndex((p) => p.x >= x - 1e-12);
      const [a, b] = [belly[Math.max(0, after - 1)], belly[after]];
      if (a === undefined || b === undefined) throw new Error('beside the belly');
      const t = b.x > a.x ? (x - a.x) / (b.x - a.x) : 0;
      // the same sums in another order: rounding of some metres
      expect(a.z + t * (b.z - a.z) - heightAt(ground, x)).toBeCloseTo(least.value, 9);
    },
  );

  it('is left out where the ground is not known', () => {
    const scenario = shipped('corrie-6x6');
    expect(bellyCause({ mechanism: compile(scenario), recording: crawl(scenario) }, 10)).toBeUndefined();
  });
});

describe('the cause of a pitch', () => {
  it('tells what the ground does and what travel adds', () => {
    expect(verdictOf(asking('scree-6', { kind: 'pitch', up: '5 deg' }))?.cause).toBe(
      'The front wheel is 45.4 mm higher than as drawn against the rear wheel; their travels add 15 mm to that.',
    );
  });

  it('says what travel takes up where it does', () => {
    const scenario = shipped('corrie-6x6');
    const [mechanism, recording] = [compile(scenario), crawl(scenario)];
    const found = Array.from({ length: recording.frames }, (_, f) => pitchCause({ mechanism, recording }, f));
    expect(found.some((cause) => cause?.includes('travels take up'))).toBe(true);
  });

  it('says nothing of a level vehicle', () => {
    const scenario = shipped('corrie-6x6');
    expect(pitchCause({ mechanism: compile(scenario), recording: crawl(scenario) }, 0)).toBeUndefined();
  });
});

describe('the cause of a stop that is met', () => {
  const scenario = shortDroop();
  const mechanism = compile(scenario);
  const recording = crawl(scenario, { regardless: true });

  it('tells what the wheel on it carries', () => {
    const hit = recording.events.find((e) => e.kind === 'stop-hit' && e.member === 'rear-arm');
    if (hit === undefined) throw new Error('no stop is met');
    const frame = column(recording, 'time').findIndex((t) => t >= hit.time);
    const share =
      (column(recording, 'load', 2)[frame] ?? 0) / (recording.standing.loads[2] ?? Number.POSITIVE_INFINITY);
    expect(share).toBeLessThan(0.9);
    const cause = memberCause({ mechanism, recording }, recording.members.indexOf('rear-arm'), frame);
    expect(cause).toMatch(
      /^The rear wheel on it (carries [\d.]+ % of its standing load|is off the ground) there\.$/,
    );
    const told = Number(/carries ([\d.]+) %/.exec(cause ?? '')?.[1]);
    expect(Math.abs(told - 100 * share)).toBeLessThan(0.1);
  });

  it('tells how far apart the wheels of a beam are', () => {
    const tarn = shipped('tarn-8x8');
    const run = { mechanism: compile(tarn), recording: crawl(tarn) };
    const beam = run.recording.members.indexOf('front-bogie');
    const apart = column(run.recording, 'motion', beam);
    const most = apart.indexOf(Math.max(...apart));
    expect(memberCause(run, beam, most)).toMatch(
      /^The first wheel on it lies [\d.]+ mm higher against the second wheel than as drawn, and carries [\d.]+ % /,
    );
  });

  it('has nothing to say of a member without wheels', () => {
    const run = { mechanism, recording };
    const rod = mechanism.members.findIndex(({ kind }) => kind === 'rod');
    expect(rod).toBeGreaterThanOrEqual(0);
    expect(memberCause(run, rod, 0)).toBeUndefined();
  });
});

describe('the cause of a use of grip', () => {
  it('holds the force along the contact against what friction allows', () => {
    const scenario = asking('corrie-6x6', { kind: 'grip-use', most: '50 %' });
    const verdict = verdictOf(scenario);
    const told = /with ([\d.]+) N, and its grip of [\d.]+ allows ([\d.]+) N/.exec(verdict?.cause ?? '');
    expect(told).not.toBeNull();
    // two digits each: their ratio is within 10 % of the use
    const ratio = Number(told?.[1]) / Number(told?.[2]);
    expect(Math.abs(ratio / (verdict?.value ?? Number.NaN) - 1)).toBeLessThan(0.1);
  });

  it('says nothing of a wheel that neither drives nor is held back', () => {
    const scenario = shipped('corrie-6x6');
    const run = { mechanism: compile(scenario), recording: crawl(scenario) };
    const idle = {
      ...run,
      recording: { ...run.recording, block: new Float64Array(run.recording.block.length) },
    };
    expect(gripCause(idle, 0, 0)).toBeUndefined();
  });

  it('names the wheels at their limit where a run ends short of its goal', () => {
    const slippery = shipped('corrie-6x6', (document) => {
      const { wheels } = document.vehicle as { wheels: { tyre: Record<string, unknown> }[] };
      for (const { tyre } of wheels) tyre.grip = 0.25;
      document.criteria = [{ kind: 'reaches' }];
    });
    const recording = crawl(slippery);
    expect(recording.end.kind).toBe('stuck');
    expect(appraise(slippery, recording).verdicts[0]?.cause).toMatch(/^At the end at the limit of grip: /);
    expect(endCause({ mechanism: compile(slippery), recording })).toBeDefined();
  });
});

describe('the cause of an uneven bogie', () => {
  it('is that of its light wheel', () => {
    const verdict = verdictOf(asking('scree-6', { kind: 'load-spread', most: '10 %' }));
    expect(verdict?.cause).toMatch(/^Of the middle wheel: It lost \d/);
  });
});

describe('the cause of a mass', () => {
  it('names the heaviest bodies', () => {
    const scenario = asking('corrie-6x6', { kind: 'mass', most: '1 kg' });
    const { bodies } = compile(scenario);
    const heaviest = [...bodies].sort((a, b) => b.mass - a.mass)[0];
    expect(verdictOf(scenario)?.cause).toMatch(
      new RegExp(`^The heaviest, .*: ${heaviest?.name} [\\d.]+ k?g`),
    );
  });
});
