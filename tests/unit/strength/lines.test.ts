/*
 * Lines of the ledger for the running gear, on shipped vehicles with figures added, against sums made here from the
 * recorded columns.
 * Seen red: forces of all equal ones taken for one; the safety factor left out; a part without figures called safe; the
 * worst of two limits not taken; moments of the first frame; the lug's material taken from the pin; the damping of a
 * bar's bearings counted.
 */
import { describe, expect, it } from 'vitest';
import { type Channel, column } from '../../../shared/recording.ts';
import { compile, drive, strengthLines } from '../../../sim/index.ts';
import { jointReports } from '../../../sim/joints/peaks.ts';
import { crossWith, lineOf, readWith } from './vehicles.ts';

const beam = { shape: 'rectangle', width: '6 mm', height: '16 mm' };
const tarn = crossWith('tarn', [
  {
    kind: 'pin',
    member: 'front-bogie',
    material: 'mild-steel',
    diameter: '3 mm',
    shear: 'single',
    lug: '4 mm',
    count: 2,
  },
  { kind: 'beam', member: 'rear-bogie', material: 'abs', section: beam, count: 2, safety: 3 },
]);
const corrie = crossWith('corrie', [
  {
    kind: 'rod',
    member: 'middle-rod',
    material: 'mild-steel',
    section: { shape: 'round', diameter: '2 mm' },
    count: 2,
  },
  {
    kind: 'pin',
    member: 'rear-rod',
    material: 'mild-steel',
    diameter: '2 mm',
    lug: '3 mm',
    lugMaterial: 'pom',
  },
  { kind: 'bar', element: 'middle torsion bars', material: 'music-wire' },
  {
    kind: 'coil',
    element: 'front springs',
    material: 'music-wire',
    wire: { diameter: '1.3 mm', coilDiameter: '10 mm' },
    freeLength: '40 mm',
    solidLength: '30 mm',
  },
]);

const worst = (run: typeof tarn, channel: Channel, name: string, names: readonly string[]) =>
  column(run.recording, channel, names.indexOf(name));

describe('the strength lines of a crossing', () => {
  it('are one for every pin, guide, rod, rod end, arm, bar and spring', () => {
    expect(corrie.lines.map(({ sort, of }) => `${sort} ${of}`)).toEqual([
      ...['front-axle', 'middle-arm', 'rear-arm', 'middle-housing', 'rear-housing'].map((of) => `pin ${of}`),
      ...['rod middle-rod', 'pin middle-rod', 'rod rear-rod', 'pin rear-rod'],
      ...['arm middle-arm', 'arm rear-arm'],
      ...['spring front springs', 'bar middle torsion bars', 'bar rear torsion bars'],
    ]);
  });

  it('call what has no figures unknown, with what it carried', () => {
    const line = lineOf(tarn, 'arm', 'front-bogie');
    expect(line).toMatchObject({ use: null, limit: null, unit: 'N·m', path: 'vehicle.members[0]' });
    expect(line.carries).toBe(Math.max(...worst(tarn, 'bending', 'front-bogie', tarn.recording.beams)));
    expect(line.says).toContain('is not known');
    expect(tarn.lines.filter((l) => l.use === null).length).toBe(2);
  });

  it('count the shear of one of two pins, after the safety factor', () => {
    const [x, z] = (['pinX', 'pinZ'] as const).map((c) =>
      worst(tarn, c, 'front-bogie', tarn.recording.joints),
    );
    const forces = Array.from(x ?? [], (fx, f) => Math.hypot(fx, z?.[f] ?? 0));
    const most = Math.max(...forces);
    const line = lineOf(tarn, 'pin', 'front-bogie');
    // one section of 3 mm carries half: 0.577·235/2 MPa allowed
    const stress = most / 2 / (Math.PI * 0.0015 ** 2);
    expect(line.carries / stress).toBeCloseTo(1, 12);
    expect((line.use ?? 0) / (stress / ((0.577 * 235e6) / 2))).toBeCloseTo(1, 12);
    expect(line).toMatchObject({ quantity: 'shear stress', how: 'estimate', spread: 0.1, unit: 'Pa' });
    expect(line.moment?.frame).toBe(forces.indexOf(most));
    expect(line.moment?.station).toBe(column(tarn.recording, 'station')[forces.indexOf(most)]);
    expect(line.says).toContain('mild-steel, safety factor 2, estimate ±10 %');
    expect(line.path).toBe('vehicle.strength.parts[0]');
  });

  it('add axial stress to bending, with the factor that the entry wants', () => {
    const bending = worst(tarn, 'bending', 'rear-bogie', tarn.recording.beams);
    const axial = worst(tarn, 'axial', 'rear-bogie', tarn.recording.beams);
    const stresses = Array.from(
      bending,
      (m, f) => (6 * m) / (6e-3 * 16e-3 ** 2) + Math.abs(axial[f] ?? 0) / 96e-6,
    );
    const line = lineOf(tarn, 'arm', 'rear-bogie');
    expect(line.carries / (Math.max(...stresses) / 2)).toBeCloseTo(1, 9);
    expect((line.limit ?? 0) / (42e6 / 3)).toBeCloseTo(1, 12);
    expect(line).toMatchObject({ quantity: 'bending stress', how: 'typical', spread: 0.3 });
    expect(line.says).toContain('test yours');
  });

  it('judge a rod by what pushes it where that is worse', () => {
    const tension = worst(corrie, 'rodTension', 'middle-rod', corrie.recording.rods);
    const line = lineOf(corrie, 'rod', 'middle-rod');
    expect(line).toMatchObject({ quantity: 'compression', unit: 'N' });
    expect(line.carries / (-Math.min(...tension) / 2)).toBeCloseTo(1, 12);
    // Johnson, l = √(61² + 20²) mm, l/k = 128.4 < √(2π²·210e9/235e6) = 132.8; worked apart: 392.98 N, over 2
    const slender = Math.hypot(61, 20) / 0.5;
    const critical = Math.PI * (235 - (235 * slender) ** 2 / (4 * Math.PI ** 2 * 210e3));
    expect((line.limit ?? 0) / (critical / 2)).toBeCloseTo(1, 9);
  });

  it('take the softer of pin and lug for the pressure between them', () => {
    const line = lineOf(corrie, 'pin', 'rear-rod');
    expect(line).toMatchObject({ quantity: 'bearing pressure', how: 'typical' });
    expect((line.limit ?? 0) / 32.5e6).toBeCloseTo(1, 12);
    expect(line.says).toContain('pom');
  });

  it('read the section of a bar from its element, and agree with the joint report', () => {
    const line = lineOf(corrie, 'bar', 'middle torsion bars');
    const rows = jointReports(corrie.mechanism, corrie.recording).filter(
      (r) => r.of === 'middle torsion bars',
    );
    const stress = rows.find((r) => r.quantity === 'stress');
    expect(line.carries / (stress?.value ?? 0)).toBeCloseTo(1, 12);
    expect(line.moment).toEqual(stress?.moment);
    // music wire of 2.5 mm, 45 % of its tensile strength, over 1.2
    expect((line.limit ?? 0) / ((0.45 * 2211e6 * 2.5 ** -0.145) / 1.2)).toBeCloseTo(1, 12);
    expect(line.says).toMatch(/twisted up to \d.*repeated loads: .* of its endurance.*stores up to .* each/);
  });

  it('tell when a coil spring comes near its solid length', () => {
    const line = lineOf(corrie, 'spring', 'front springs');
    const travel = column(corrie.recording, 'elementTravel', 0);
    // two springs of 1.1 N/mm, preloaded by 10 N each: pressed by 10/1.1 mm as drawn
    expect(line).toMatchObject({ quantity: 'way to solid length', unit: 'm', how: 'given' });
    expect(line.carries / (Math.max(...travel) + 0.01 / 1.1)).toBeCloseTo(1, 9);
    expect(line.use).toBeGreaterThan(1);
  });

  it('are there for a vehicle without strength figures too, all of them unknown', () => {
    const bare = strengthLines({ ...tarn.mechanism, strength: { parts: [] } }, tarn.recording);
    expect(bare.map(({ sort, of }) => [sort, of])).toEqual(tarn.lines.map(({ sort, of }) => [sort, of]));
    expect(bare.every(({ use }) => use === null)).toBe(true);
  });
});

it('leaves the damping of its bearings out of the torque of a bar in a drive', () => {
  const read = readWith('corrie', [{ kind: 'bar', element: 'middle torsion bars', material: 'music-wire' }]);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const moving = drive({ ...read.value, run: { ...read.value.run, time: 4 } });
  const travel = column(moving, 'elementTravel', 2);
  const rate = (79.3e9 * Math.PI * 0.0025 ** 4) / 32 / 0.096;
  // of one bar: the preload and its rate, over π·d³/16
  const stress = (0.35 + rate * Math.max(...travel)) / ((Math.PI * 0.0025 ** 3) / 16);
  const line = lineOf({ lines: strengthLines(compile(read.value), moving) }, 'bar', 'middle torsion bars');
  expect(line.carries / stress).toBeCloseTo(1, 9);
});

describe('a full-size truck', () => {
  const drumlin = crossWith('drumlin', [
    {
      kind: 'leaf',
      element: 'front leaf springs',
      material: 'spring-steel',
      leaves: { count: 10, width: '90 mm', thickness: '16 mm', span: '1.6 m' },
    },
    {
      kind: 'guide',
      member: 'front-axle',
      material: 'mild-steel',
      engaged: '200 mm',
      width: '120 mm',
      count: 2,
    },
    { kind: 'stop', member: 'rear-bogie', torque: '1 kN m' },
  ]);

  it('has the bending stress of one leaf of one spring', () => {
    const effort = column(drumlin.recording, 'elementEffort', 0);
    const most = Math.max(...effort.map(Math.abs)) / 2;
    // 6·(F·L/4)/(n·b·t²)
    const stress = (6 * most * 0.4) / (10 * 0.09 * 0.016 ** 2);
    expect(lineOf(drumlin, 'spring', 'front leaf springs').carries / stress).toBeCloseTo(1, 12);
  });

  it('presses its guides by force and moment', () => {
    const read = (c: Channel) => worst(drumlin, c, 'front-axle', drumlin.recording.joints);
    const [x, z, m] = [read('pinX'), read('pinZ'), read('pinMoment')];
    const pressures = Array.from(
      x,
      (fx, f) => Math.hypot(fx, z[f] ?? 0) / (0.2 * 0.24) + (6 * Math.abs(m[f] ?? 0)) / (0.2 ** 2 * 0.24),
    );
    expect(lineOf(drumlin, 'pin', 'front-axle').carries / Math.max(...pressures)).toBeCloseTo(1, 12);
  });

  it('has a line of its own for the limit of a stop', () => {
    expect(lineOf(drumlin, 'stop', 'rear-bogie', 'torque at the stop')).toMatchObject({
      limit: 1000,
      how: 'given',
    });
  });
});
