/*
 * What would help: each change is computed anew and does what it says.
 * Seen red: the ratio of the front final drive left as it is; a stronger part that stays on the list; a change that is
 * reported without crossing again.
 */
import { describe, expect, it } from 'vitest';
import { performanceOf } from '../../../sim/driveline/performance.ts';
import { compile } from '../../../sim/index.ts';
import { type Alternative, alternativesOf } from '../../../sim/ledger/alternatives.ts';
import { crossRegardless } from '../../../sim/ledger/crossing.ts';
import { firstToGive, keyOf } from '../../../sim/ledger/ledger.ts';
import { partIn, ready, shafts, shipped } from './truck.ts';

const stations = 200;
const { scenario, ground } = shafts();
const today = crossRegardless(scenario, ground, stations);
const list = alternativesOf(scenario, ground, { stations, today });
const named = (kind: string, from: readonly Alternative[] = list): Alternative => {
  const found = from.find((each) => each.kind === kind);
  if (found === undefined) throw new Error(`no ${kind} among ${from.map((each) => each.kind)}`);
  return found;
};
const first = firstToGive(today.ledger.lines);
const usedBy = (alternative: Alternative) =>
  crossRegardless(alternative.scenario, ground, stations).ledger.lines.find(
    (line) => first && keyOf(line) === keyOf(first),
  )?.use;

describe('what would help a joint that gives first', () => {
  it('is nothing when nothing gives', () => {
    const motors = ready(shipped('cairn-6x6-motors'));
    expect(alternativesOf(motors.scenario, motors.ground, { stations })).toEqual([]);
  });

  it('is a stronger part, as strong as what it carries, and the next joint gives then', () => {
    const stronger = named('stronger-part');
    expect(stronger.first?.of).toBe('rear joint at the beam');
    expect(stronger.holds).toBe(false);
    const document = shipped('cairn-6x6-shafts');
    partIn(document, 'rear joint at the transfer').rating = stronger.sets[0]?.value;
    const back = ready(document);
    const again = crossRegardless(back.scenario, back.ground, stations);
    expect(firstToGive(again.ledger.lines)?.of).toBe('rear joint at the beam');
  });

  it('is more reduction after it: it just holds then, and the top speed falls by as much', () => {
    const more = named('more-reduction');
    expect(usedBy(more)).toBeGreaterThan(0.99);
    expect(usedBy(more)).toBeLessThanOrEqual(1);
    const ratio = (vehicle: typeof scenario) =>
      compile(vehicle).driveline?.parts.find((p) => p.name === 'rear final drive')?.law.ratio ?? 0;
    const factor = ratio(more.scenario) / ratio(scenario);
    expect(factor).toBeGreaterThan(1.05);
    const speed = performanceOf(today.mechanism)?.topSpeed ?? 0;
    // a motor turns a little faster when it has less to pull: the line falls by a few per cent over this range
    expect((more.topSpeed ?? 0) * factor).toBeGreaterThan(0.98 * speed);
    expect((more.topSpeed ?? 0) * factor).toBeLessThan(1.05 * speed);
  });

  it('is reduction at the hubs, at the same speed', () => {
    const behind = named('reduction-behind');
    expect(usedBy(behind)).toBeLessThanOrEqual(1);
    // one more mesh takes some of the motor's torque and so of its speed
    expect(behind.topSpeed ?? 0).toBeCloseTo(performanceOf(today.mechanism)?.topSpeed ?? 0, 1);
  });

  it('is a motor for each axle, heavier by a motor and lighter by the gears that go', () => {
    const motors = named('motor-per-axle');
    expect(motors.holds).toBe(true);
    const parts = compile(motors.scenario).driveline?.parts ?? [];
    expect(parts.filter((p) => p.sort === 'motor')).toHaveLength(3);
    expect(parts.some((p) => p.sort === 'joint' || p.sort === 'shaft')).toBe(false);
    expect(motors.mass).toBeCloseTo(compile(motors.scenario).mass, 12);
  });

  it('is less mass, as the greatest mass says', () => {
    const less = named('less-mass');
    expect(less.mass).toBeLessThan(today.mechanism.mass);
    expect(less.holds).toBe(true);
  });

  it('is told with its cost: mass, speed, and what is nearest to its limit then', () => {
    for (const each of list) {
      expect(each.says).toMatch(/\.$/);
      expect(each.first).toBeDefined();
      expect(each.topSpeed).toBeGreaterThan(0);
    }
  });
});

describe('changes that apply elsewhere', () => {
  it('turns a lock where there is a differential, and lowers a bogie pivot where that helps', () => {
    const changed = shafts((document) => {
      const parts = document.vehicle.driveline.parts;
      parts.push({
        name: 'centre',
        kind: 'differential',
        from: 'transfer gears',
        mode: 'locked',
        rating: '5 N m',
      });
      for (const part of parts)
        if (part.from === 'transfer gears' && part.name !== 'centre') part.from = 'centre';
      document.vehicle.members[1].pivot.z = '85 mm';
    });
    const found = alternativesOf(changed.scenario, changed.ground, { stations });
    expect(named('locks', found).sets[0]?.value).toBe('open');
    for (const each of found.filter(({ kind }) => kind === 'lower-pivot')) expect(each.says).toMatch(/lower/);
  });

  it('asks a motor that is too weak for a stronger one', () => {
    const weak = shafts((document) => {
      partIn(document, 'motors').stallTorque = '0.12 N m';
      for (const part of document.vehicle.driveline.parts) if (part.rating) part.rating = '50 N m';
    });
    const found = alternativesOf(weak.scenario, weak.ground, { stations });
    const stronger = named('stronger-part', found);
    expect(stronger.says).toMatch(/^motors with .* at standstill instead of 120 N·mm/);
    expect(stronger.holds).toBe(true);
  });
});
