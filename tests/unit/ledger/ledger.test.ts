/*
 * The ledger: every line with its worst station, use and margin; sorted; the first to give along the way.
 * Seen red: unknown lines sorted first; `firstToGive` by use instead of by station; harmless stops that give; a rating that
 * is not divided among equal parts.
 */
import { describe, expect, it } from 'vitest';
import { column } from '../../../shared/recording.ts';
import type { LedgerLine } from '../../../shared/report.ts';
import { appraise, compile, crawl } from '../../../sim/index.ts';
import { crossRegardless } from '../../../sim/ledger/crossing.ts';
import { firstToGive, isOver, ledgerOf } from '../../../sim/ledger/ledger.ts';
import { partIn, ready, shafts, shipped } from './truck.ts';

const ledgerFor = (change?: Parameters<typeof shafts>[0]) => {
  const { scenario, ground } = shafts(change);
  return crossRegardless(scenario, ground, 200);
};
const lineFor = (lines: readonly LedgerLine[], sort: string, of: string, quantity?: string): LedgerLine => {
  const found = lines.find(
    (l) => l.sort === sort && l.of === of && (quantity === undefined || l.quantity === quantity),
  );
  if (found === undefined) throw new Error(`no line ${sort} ${of}`);
  return found;
};

describe('the ledger of a crossing', () => {
  const { ledger, mechanism, recording } = ledgerFor();
  const { lines } = ledger;

  it('has grip, motor, battery, gears, shafts, joints, pins, arms, bars, tipping, belly and stops', () => {
    const sorts = new Set(lines.map((line) => line.sort));
    for (const sort of [
      'grip',
      'motor',
      'supply',
      'gear',
      'shaft',
      'joint',
      'pin',
      'arm',
      'bar',
      'tipping',
      'belly',
      'stop',
    ] as const)
      expect(sorts, sort).toContain(sort);
  });

  it('comes sorted by use, what is not known last', () => {
    const uses = lines.map(({ use }) => use ?? -1);
    expect(uses).toEqual([...uses].sort((a, b) => b - a));
  });

  it('holds what one part carries against what one may carry, at a station of the recording', () => {
    for (const line of lines.filter((l) => l.use !== null && l.limit !== null)) {
      // use = carries/limit by definition, both told with all digits
      expect(line.use, line.says).toBeCloseTo(line.carries / (line.limit ?? 1), 9);
      const { frame, station } = line.moment ?? { frame: -1, station: Number.NaN };
      expect(column(recording, 'station')[frame]).toBe(station);
    }
  });

  it('holds the travel of members against their stops, each way on its own', () => {
    const motion = column(
      recording,
      'motion',
      mechanism.members.findIndex((m) => m.name === 'rear-beam'),
    );
    const degree = Math.PI / 180;
    expect(lineFor(lines, 'stop', 'rear-beam', 'bump travel').use).toBeCloseTo(
      Math.max(...motion) / (18 * degree),
      9,
    );
    expect(lineFor(lines, 'stop', 'rear-beam', 'droop travel').use).toBeCloseTo(
      -Math.min(...motion) / (18 * degree),
      9,
    );
  });

  it('follows the torque of both axles of the beam back through one bevel pair to the rear joints', () => {
    const joint = lineFor(lines, 'joint', 'rear joint at the beam', 'torque');
    const frame = joint.moment?.frame ?? 0;
    const torque = (wheel: string) =>
      column(
        recording,
        'torque',
        mechanism.wheels.findIndex((w) => w.name === wheel),
      )[frame] ?? 0;
    // 12:20 teeth; what one bevel mesh passes is in the compiled part; the shaft between loses nothing
    const { driving } = mechanism.driveline?.parts.find((p) => p.name === 'rear final drive')?.law ?? {
      driving: 0,
    };
    const expected = (torque('middle') + torque('rear')) / ((20 / 12) * driving);
    expect(joint.carries).toBeCloseTo(expected, 9);
  });

  it('gives a joint less room the more it bends, and says how its rating is known', () => {
    const joint = lineFor(lines, 'joint', 'rear joint at the beam', 'torque');
    // 60 mm and 0.58 kg on the scale: 0.3413 N·m straight; the cosine of its angle is left
    expect(joint.limit).toBeLessThan(0.06 * 0.58 * 9.80665);
    expect(joint.limit).toBeGreaterThan(0.95 * 0.06 * 0.58 * 9.80665);
    expect(joint).toMatchObject({ how: 'measured', spread: 0.1 });
    expect(joint.says).toMatch(/measured, ± 10 %/);
  });

  it('says which part is the first to give, where, and by how much', () => {
    expect(firstToGive(lines)?.of).toBe('rear joint at the transfer');
    expect(ledger.says).toMatch(
      /^Rear joint at the transfer carries \d+ N·mm at station \d+ mm and may carry \d+ N·mm \(1\d\d %.*\).*: it is the first to give\.$/,
    );
  });
});

describe('what gives first', () => {
  it('is what gives first on the way, not what is furthest over its limit later', () => {
    // the front wheels climb first and load their own drive most; the middle ones climb later, and theirs is weaker
    const { ledger } = ledgerFor((document) => {
      for (const part of document.vehicle.driveline.parts) if (part.rating) part.rating = '50 N m';
      partIn(document, 'front final drive').rating = '0.43 N m';
      partIn(document, 'middle final drive').rating = '0.15 N m';
    });
    const first = firstToGive(ledger.lines);
    const most = ledger.lines[0];
    expect(most?.of).toBe('middle final drive');
    expect(first?.of).toBe('front final drive');
    expect(first?.use ?? 0).toBeLessThan(most?.use ?? 0);
    for (const line of ledger.lines)
      if (line.gives) expect(first?.gives?.frame).toBeLessThanOrEqual(line.gives.frame);
  });

  it('is never a part without a rating: it comes last and is called unknown', () => {
    const { ledger } = ledgerFor((document) => {
      for (const part of document.vehicle.driveline.parts) delete part.rating;
      delete document.vehicle.strength;
    });
    const unknown = ledger.lines.filter(({ use }) => use === null);
    expect(unknown.map(({ of }) => of)).toContain('rear joint at the transfer');
    expect(ledger.lines.indexOf(unknown[0] as LedgerLine)).toBe(ledger.lines.length - unknown.length);
    expect(unknown.every((line) => line.limit === null && !isOver(line))).toBe(true);
    expect(ledger.says).toMatch(/\d+ parts have no rating: unknown, not safe\./);
  });

  it('is not a stop that may be met, and is one that may not', () => {
    const tight = (document: Parameters<typeof shipped>[0] | ReturnType<typeof shipped>) => {
      document.vehicle.members[1].bump = '8 deg';
      for (const part of document.vehicle.driveline.parts) if (part.rating) part.rating = '50 N m';
    };
    const kept = ledgerFor(tight);
    const stop = lineFor(kept.ledger.lines, 'stop', 'rear-beam', 'bump travel');
    expect(stop.use).toBeGreaterThan(1);
    expect(firstToGive(kept.ledger.lines)?.of).toBe('rear-beam');
    const met = ledgerFor((document) => {
      tight(document);
      document.criteria = [];
    });
    expect(lineFor(met.ledger.lines, 'stop', 'rear-beam', 'bump travel')).toMatchObject({ harmless: true });
    expect(firstToGive(met.ledger.lines)).toBeUndefined();
  });

  it('is the end of the balance itself where nothing else ends the crossing', () => {
    const { ledger, recording } = ledgerFor((document) => {
      // its load is so high up and so far back that no thrust holds it on the face
      document.vehicle.masses[2].at = { x: '-300 mm', z: '700 mm' };
      document.vehicle.masses[2].mass = '2 kg';
      document.ground[1].height = '90 mm';
      for (const part of document.vehicle.driveline.parts) if (part.rating) part.rating = '50 N m';
      for (const wheel of document.vehicle.wheels) wheel.tyre.grip = 3;
    });
    expect(['tipped', 'stuck']).toContain(recording.end.kind);
    const end = ledger.lines.find((line) => line.of === 'vehicle');
    expect(end?.gives).toBeDefined();
    expect(ledger.says).toMatch(/Seen only up to station \d+ mm/);
  });
});

describe('the ledger of a report', () => {
  it('tells what was met up to where a crawl got stuck, and that it was', () => {
    const { scenario } = shafts((document) => {
      partIn(document, 'motors').stallTorque = '0.12 N m';
    });
    const recording = crawl(scenario, { stations: 200 });
    const { ledger } = appraise(scenario, recording);
    expect(recording.end).toMatchObject({ kind: 'stuck', by: 'torque' });
    expect(ledger?.says).toMatch(
      /Seen only up to station \d+ mm: there the vehicle was stuck \(motors needs/,
    );
    expect(lineFor(ledger?.lines ?? [], 'motor', 'motors').use).toBeGreaterThan(1);
  });

  it('is there with a drive line or strength figures, and left out without them', () => {
    const { scenario } = ready(shipped('cairn-6x6-motors'));
    expect(appraise(scenario, crawl(scenario, { stations: 60 })).ledger?.lines.length).toBeGreaterThan(10);
    const bare = shipped('cairn-6x6-motors');
    delete bare.vehicle.driveline;
    delete bare.vehicle.strength;
    bare.vehicle.drive.torquePerWheel = '0.5 N m';
    bare.criteria = [];
    const { scenario: plain } = ready(bare);
    expect(appraise(plain, crawl(plain, { stations: 60 })).ledger).toBeUndefined();
  });

  it('lets wheels behind motors of their own spin, and ends where one spins behind an open differential', () => {
    const lineOf = (sharing: string) => {
      const document = shipped('cairn-6x6-motors');
      delete document.vehicle.driveline;
      document.vehicle.drive = { ...document.vehicle.drive, sharing, torquePerWheel: '2 N m' };
      document.criteria = [];
      const { scenario } = ready(document);
      const recording = crawl(scenario, { stations: 200, regardless: true });
      return ledgerOf(compile(scenario), recording).lines.filter((line) => line.sort === 'grip');
    };
    expect(lineOf('motors').every((line) => line.harmless)).toBe(true);
    expect(lineOf('locked').some((line) => line.harmless)).toBe(false);
    expect(lineOf('open').some((line) => line.gives !== undefined)).toBe(true);
  });
});
