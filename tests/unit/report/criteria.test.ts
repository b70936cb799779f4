import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Verdict } from '../../../shared/report.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { appraise } from '../../../sim/report/appraise.ts';
import { criterionKinds } from '../../../sim/report/criteria/registry.ts';
import type { CriterionKind } from '../../../sim/report/criterion.ts';
import { bodyOf, hop, recordingOf, truck, type Written, wheelOf } from './fixture.ts';

const kinds = criterionKinds as readonly unknown[] as readonly CriterionKind[];

/** The verdict on one criterion as a person writes it. */
function verdict(
  criterion: { readonly kind: string; readonly [field: string]: unknown },
  written: Written = {},
  mechanism: Mechanism = truck(),
): Verdict {
  const { kind, ...fields } = criterion;
  const read = kinds.find((each) => each.kind === kind)?.fields.parse(fields);
  const scenario = { title: 'a test', vehicle: { name: 'truck' }, criteria: [{ kind, ...read }] };
  return appraise(scenario, mechanism, recordingOf(mechanism, written)).verdicts[0] as Verdict;
}

const stuck = { kind: 'stuck', time: 0.9, station: 0.45, cause: 'no progress at full torque' } as const;

describe('wheel-load', () => {
  const asked = { kind: 'wheel-load', least: '20 %' };
  const dipTo = (load: number): Written => ({
    fill: { load: (_, wheel, frame) => (wheel === 1 && frame === 120 ? load : 20) },
  });

  it('passes with the least share, its wheel and both stations', () => {
    // Frame 120 is at 0.5 s and station 250 mm; the middle wheel is 65 mm behind.
    expect(verdict(asked, dipTo(7))).toMatchObject({
      asks: 'Every wheel keeps at least 20 % of its standing load',
      pass: true,
      value: 0.35,
      limit: 0.2,
      unit: '1',
      shown: '35 %',
      of: 'middle',
      moment: { frame: 120, time: 0.5, station: 0.25 },
      says: 'The middle wheel goes down to 35 % of its standing load at station 185 mm (vehicle at station 250 mm, 500 ms).',
    });
  });

  it('fails where a wheel left the ground, and says for how long', () => {
    expect(verdict(asked, { events: hop('middle', 0.5, 0.062, -0.065) })).toMatchObject({
      pass: false,
      value: 0,
      of: 'middle',
      says: 'The middle wheel goes down to 0 % of its standing load at station 185 mm, off the ground for 62 ms (vehicle at station 250 mm, 500 ms).',
    });
  });

  it('names the wheel that was off for longest when several were', () => {
    const events = [...hop('front', 0.2, 0.01, 0.2), ...hop('rear', 0.6, 0.03, -0.195)];
    expect(verdict(asked, { events })).toMatchObject({ of: 'rear', moment: { time: 0.6 } });
  });

  it('never shows a failed value as if it were the limit', () => {
    expect(verdict(asked, dipTo(3.998))).toMatchObject({ pass: false, shown: '19.99 %' });
    expect(verdict(asked, dipTo(4))).toMatchObject({ pass: true, shown: '20 %' });
  });

  it('says what may be why: a member at its droop stop, and the wheel that carries the load instead', () => {
    const written: Written = {
      fill: {
        load: (_, wheel, frame) => (frame === 120 ? ([20, 2, 37][wheel] ?? 0) : 20),
        motion: (_, member, frame) => (frame === 120 ? ([-0.015, -0.3][member] ?? 0) : 0),
      },
    };
    expect(verdict(asked, written).says).toMatch(
      /Meanwhile rear beam is at its droop stop and the rear wheel carries 185 % of its standing load\.$/,
    );
    expect(verdict({ kind: 'wheel-load', least: 0.05 }, written).says).not.toContain('Meanwhile');
  });

  it('looks only at the wheels that were named', () => {
    expect(verdict({ ...asked, wheels: ['front', 'rear'] }, dipTo(1))).toMatchObject({
      pass: true,
      asks: 'Each of the wheels front and rear keeps at least 20 % of its standing load',
      value: 1,
    });
  });

  it('fails for a wheel that the vehicle does not have, and says which it has', () => {
    expect(verdict({ ...asked, wheels: ['fornt'] })).toMatchObject({
      pass: false,
      value: null,
      shown: '—',
      says: 'The vehicle has no wheel called fornt; its wheels: front, middle and rear.',
    });
  });

  it('fails for a wheel that carries nothing when standing', () => {
    expect(verdict(asked, { standing: { loads: [30, 0, 30] } })).toMatchObject({
      pass: false,
      of: 'middle',
      says: 'The middle wheel carries nothing when standing, so it has no load to keep.',
    });
  });

  it('says how far the run went when it broke off', () => {
    expect(verdict(asked, { end: stuck }).says).toMatch(
      / Seen only up to station 450 mm: there the vehicle was stuck \(no progress at full torque\)\.$/,
    );
  });

  it('speaks of large vehicles in metres', () => {
    const large = truck({ size: 0.9 });
    expect(verdict(asked, dipTo(7), large).says).toContain('at station 0.185 m (vehicle at station 0.25 m');
  });
});

describe('time-off-ground', () => {
  const asked = { kind: 'time-off-ground', longest: '50 ms' };
  it('passes when no wheel leaves the ground', () => {
    expect(verdict(asked)).toMatchObject({
      pass: true,
      value: 0,
      limit: 0.05,
      shown: '0 ms',
      says: 'No wheel leaves the ground.',
    });
  });
  it('passes at the very limit and fails above it', () => {
    expect(verdict(asked, { events: hop('rear', 0.5, 0.05) }).pass).toBe(true);
    expect(verdict(asked, { events: hop('rear', 0.5, 0.062, -0.195) })).toMatchObject({
      asks: 'No wheel is off the ground longer than 50 ms',
      pass: false,
      value: 0.062,
      of: 'rear',
      says: 'The rear wheel is off the ground for 62 ms from station 55 mm on (vehicle at station 250 mm, 500 ms).',
    });
  });
  it('counts a wheel that is still up at the end', () => {
    const events = hop('front', 0.5, 9, 0.2).slice(0, 1);
    const end = { kind: 'tipped', time: 0.9, station: 0.45 } as const;
    const written = { frames: 216, events, end };
    expect(verdict(asked, written)).toMatchObject({
      pass: false,
      says: 'The front wheel is off the ground for 400 ms from station 450 mm on, until the end (vehicle at station 250 mm, 500 ms). Seen only up to station 450 mm: there the vehicle tipped over.',
    });
  });
  it('asks that wheels stay down altogether when the limit is 0', () => {
    expect(verdict({ kind: 'time-off-ground', longest: 0, wheels: ['front'] })).toMatchObject({
      asks: 'The front wheel does not leave the ground',
      pass: true,
    });
  });
});

describe('no-stop-hit', () => {
  const hit = (member: string, time: number, side: 'bump' | 'droop') =>
    ({ kind: 'stop-hit', member, side, time, station: 0.5 * time }) as const;
  it('passes when nothing hits', () => {
    expect(verdict({ kind: 'no-stop-hit' })).toMatchObject({
      asks: 'Nothing hits its stop',
      pass: true,
      value: 0,
      shown: 'no hits',
      says: 'Nothing hits its stop.',
    });
  });
  it('fails with the first hit, and counts the others', () => {
    expect(verdict({ kind: 'no-stop-hit' }, { events: [hit('front axle', 0.5, 'bump')] })).toMatchObject({
      pass: false,
      value: 1,
      of: 'front axle',
      says: 'Front axle hits its bump stop (vehicle at station 250 mm, 500 ms).',
    });
    const events = [
      hit('front axle', 0.5, 'bump'),
      hit('rear beam', 0.6, 'droop'),
      hit('front axle', 0.7, 'bump'),
    ];
    expect(verdict({ kind: 'no-stop-hit' }, { events })).toMatchObject({
      shown: '3 hits',
      says: 'Front axle hits its bump stop (vehicle at station 250 mm, 500 ms); 3 hits in all, later rear beam too.',
    });
  });
  it('looks only at the members that were named', () => {
    const written = { events: [hit('front axle', 0.5, 'bump')] };
    expect(verdict({ kind: 'no-stop-hit', members: ['rear beam'] }, written).pass).toBe(true);
    expect(verdict({ kind: 'no-stop-hit', members: ['beam'] }, written)).toMatchObject({
      pass: false,
      says: 'The vehicle has no member called beam; its members: front axle and rear beam.',
    });
  });
});

describe('reaches', () => {
  it('passes when the run arrived', () => {
    const end = { kind: 'arrived', time: 4.8, station: 2.4 } as const;
    expect(verdict({ kind: 'reaches' }, { end })).toMatchObject({
      asks: 'The vehicle reaches the end of its run',
      pass: true,
      value: 2.4,
      limit: null,
      says: 'The vehicle reaches station 2400 mm after 4.8 s.',
    });
  });
  it('passes from the frame that was there, when a station is asked', () => {
    // 200 mm are reached at 0.4 s: frame 96.
    expect(verdict({ kind: 'reaches', station: '200 mm' }, { end: stuck })).toMatchObject({
      asks: 'The vehicle reaches station 200 mm',
      pass: true,
      moment: { frame: 96, time: 0.4 },
    });
  });
  it('follows a vehicle that drives backwards', () => {
    const backwards = truck({
      drive: { speed: -0.5, acceleration: 0.5, share: { kind: 'locked', branches: [] } },
    });
    const written: Written = {
      fill: { station: (t) => 2 - 0.5 * t },
      end: { kind: 'stuck', time: 1, station: 1.5, cause: 'no grip' },
    };
    expect(verdict({ kind: 'reaches', station: '1.8 m' }, written, backwards)).toMatchObject({
      pass: true,
      moment: { frame: 96 },
    });
    expect(verdict({ kind: 'reaches', station: '1.4 m' }, written, backwards)).toMatchObject({
      pass: false,
      value: 1.5,
    });
  });
  it('counts a goal as reached that the run ended at, to the last digit', () => {
    const end = { kind: 'arrived', time: 2, station: 1 - 1e-12 } as const;
    expect(verdict({ kind: 'reaches', station: 1 }, { end }).pass).toBe(true);
  });
  it('fails with the cause', () => {
    const got = (end: NonNullable<Written['end']>) => verdict({ kind: 'reaches' }, { frames: 100, end });
    expect(got(stuck)).toMatchObject({
      pass: false,
      value: 0.45,
      says: 'The vehicle gets only to station 450 mm: after 900 ms the vehicle was stuck (no progress at full torque).',
    });
    expect(got({ kind: 'tipped', time: 0.9, station: 0.45 }).says).toContain('the vehicle tipped over');
    expect(got({ kind: 'time-up', time: 0.9, station: 0.45 }).says).toContain('the time was up');
    expect(
      got({
        kind: 'diverged',
        time: 0.9,
        station: 0.45,
        quantity: 'speed',
        body: 'rear beam',
        cause: 'substep too long',
      }).says,
    ).toContain('the computation broke down (speed of rear beam: substep too long)');
  });
});

describe('belly-clearance', () => {
  const asked = { kind: 'belly-clearance', least: '5 mm' };
  const least = (gap: number): Written => ({
    fill: { clearance: (_, __, frame) => (frame === 120 ? gap : 0.05) },
  });
  it('passes, fails and touches', () => {
    expect(verdict(asked, least(0.0081))).toMatchObject({
      asks: 'The belly keeps at least 5 mm above the ground',
      pass: true,
      shown: '8.1 mm',
      says: 'The belly comes down to 8.1 mm above the ground (vehicle at station 250 mm, 500 ms).',
    });
    expect(verdict(asked, least(0.0031))).toMatchObject({ pass: false, value: 0.0031, limit: 0.005 });
    expect(verdict(asked, least(-0.002)).says).toContain('The belly runs 2 mm into the ground');
    expect(verdict(asked, { events: [{ kind: 'body-touch', time: 0.5, station: 0.25 }] }).says).toContain(
      'The belly touches the ground',
    );
  });
  it('fails when the vehicle has no belly line, and says where to draw one', () => {
    const bare = truck({ belly: { body: 0, points: [] } });
    expect(verdict(asked, {}, bare)).toMatchObject({
      pass: false,
      value: null,
      says: expect.stringContaining('vehicle.bodywork.belly'),
    });
  });
});

describe('pitch', () => {
  const asked = { kind: 'pitch', up: '10 deg', down: '5 deg' };
  const wave = (up: number, down: number): Written => ({
    frames: 3,
    fill: { pitch: (_, __, frame) => [0, (up * Math.PI) / 180, (-down * Math.PI) / 180][frame] ?? 0 },
  });
  it('holds both ways to their own limits', () => {
    expect(verdict(asked, wave(9, 4))).toMatchObject({
      asks: 'The chassis pitches at most 10° nose-up and 5° nose-down',
      pass: true,
    });
    expect(verdict(asked, wave(9, 7))).toMatchObject({
      pass: false,
      shown: '7° nose-down',
      moment: { frame: 2 },
    });
    expect(verdict(asked, wave(12, 4))).toMatchObject({
      pass: false,
      shown: '12° nose-up',
      moment: { frame: 1 },
    });
  });
  it('does not hold the way that was not asked', () => {
    expect(verdict({ kind: 'pitch', up: '10 deg' }, wave(3, 40)).pass).toBe(true);
  });
  it('needs at least one limit', () => {
    const fields = kinds.find((kind) => kind.kind === 'pitch')?.fields as z.ZodObject;
    expect(fields.safeParse({}).success).toBe(false);
    expect(fields.safeParse({ down: 0.1 }).success).toBe(true);
  });
});

describe('grip-use', () => {
  it('names the wheel that used most', () => {
    const fill = {
      gripUse: (_: number, wheel: number, frame: number) => (wheel === 2 && frame === 120 ? 0.95 : 0.3),
    };
    expect(verdict({ kind: 'grip-use', most: '90 %' }, { fill })).toMatchObject({
      asks: 'No wheel uses more than 90 % of its grip',
      pass: false,
      value: 0.95,
      of: 'rear',
      says: 'The rear wheel uses 95 % of its grip at station 55 mm (vehicle at station 250 mm, 500 ms).',
    });
    expect(verdict({ kind: 'grip-use', most: '90 %', wheels: ['front'] }, { fill }).pass).toBe(true);
  });
});

describe('load-spread', () => {
  const asked = { kind: 'load-spread', most: '60 %' };
  const tilt = (extra: number): Written => ({
    fill: { load: (_, wheel, frame) => (frame === 120 ? 20 + extra * (wheel === 1 ? 1 : -1) : 20) },
  });
  it('compares the wheels of a bogie', () => {
    expect(verdict(asked, tilt(5))).toMatchObject({ pass: true, value: 0.5, of: 'rear beam' });
    expect(verdict(asked, tilt(8))).toMatchObject({
      pass: false,
      value: 0.8,
      says: "On rear beam the middle wheel carries 80 % of the bogie's mean standing load more than the rear wheel (vehicle at station 250 mm, 500 ms).",
    });
  });
  it('knows a bogie by its member', () => {
    expect(verdict({ ...asked, members: ['rear beam'] }, tilt(8)).pass).toBe(false);
    expect(verdict({ ...asked, members: ['front axle'] }, tilt(8)).says).toBe(
      'The vehicle has no bogie called front axle; its bogies: rear beam.',
    );
  });
  it('fails without a bogie', () => {
    const single = truck({
      bodies: [bodyOf('chassis', -1)],
      wheels: [wheelOf('only', 1, 0, 0)],
      members: [],
    });
    expect(verdict(asked, {}, single)).toMatchObject({ pass: false, value: null });
  });
});

describe('travel-used', () => {
  const asked = { kind: 'travel-used', most: '90 %' };
  const rise = (travel: number): Written => ({
    fill: { motion: (_, member, frame) => (member === 0 && frame === 120 ? travel : 0) },
  });
  it('holds travel to both sides against the stops', () => {
    expect(verdict(asked, rise(0.017))).toMatchObject({
      asks: 'No member uses more than 90 % of its travel',
      pass: true,
      shown: '85 %',
    });
    expect(verdict(asked, rise(-0.0144))).toMatchObject({
      pass: false,
      of: 'front axle',
      says: 'Front axle uses 96 % of its droop travel, 14.4 mm of 15 mm (vehicle at station 250 mm, 500 ms).',
    });
  });
  it('passes when nothing limits the travel of any member', () => {
    const free = truck({ members: truck().members.map(({ bump: _b, droop: _d, ...member }) => member) });
    expect(verdict(asked, rise(1), free)).toMatchObject({ pass: true, value: null });
  });
});

describe('time', () => {
  it('holds the time of a run that arrived', () => {
    const end = { kind: 'arrived', time: 4.8, station: 2.4 } as const;
    expect(verdict({ kind: 'time', most: '5 s' }, { end })).toMatchObject({
      pass: true,
      value: 4.8,
      says: 'The run takes 4.8 s.',
    });
    expect(verdict({ kind: 'time', most: '4 s' }, { end })).toMatchObject({ pass: false });
  });
  it('fails for one that never arrived, however early it broke off', () => {
    expect(verdict({ kind: 'time', most: '5 s' }, { end: stuck })).toMatchObject({
      pass: false,
      says: 'The vehicle never arrives: after 900 ms the vehicle was stuck (no progress at full torque).',
    });
  });
});

describe('every criterion', () => {
  it('reads its sample, asks in a sentence without a full stop, and answers in sentences', () => {
    for (const kind of kinds) {
      const got = verdict({ kind: kind.kind, ...(kind.sample as object) });
      expect(got.asks, kind.kind).toMatch(/^[A-Z].*[^.]$/);
      expect(got.says, kind.kind).toMatch(/\.$/);
      expect(got.shown, kind.kind).not.toBe('');
    }
  });

  it('describes every field, with a unit for every figure', () => {
    for (const kind of kinds) {
      const schema = z.toJSONSchema(kind.fields, { io: 'input' });
      for (const [name, field] of Object.entries(schema.properties ?? {})) {
        expect((field as { description?: string }).description, `${kind.kind}.${name}`).toMatch(/\S/);
      }
    }
  });

  it('refuses a key that it does not know, and a figure of the wrong dimension', () => {
    for (const kind of kinds)
      expect(kind.fields.safeParse({ ...(kind.sample as object), lest: 1 }).success, kind.kind).toBe(false);
    const wheelLoad = kinds.find((kind) => kind.kind === 'wheel-load');
    expect(wheelLoad?.fields.safeParse({ least: '20 mm' }).success).toBe(false);
  });

  it('lives through a run of one frame', () => {
    for (const kind of kinds) {
      const got = verdict({ kind: kind.kind, ...(kind.sample as object) }, { frames: 1 });
      expect(got.says, kind.kind).not.toMatch(/NaN|undefined|Infinity|—/);
    }
  });

  it('has a name of its own', () => {
    expect(new Set(kinds.map((kind) => kind.kind)).size).toBe(kinds.length);
  });
});
