import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, loadScenario, standOn } from '../../sim/index.ts';
import { standingRemarks } from '../../sim/statics/remarks.ts';

function flagship(change: (document: { vehicle: { elements: Record<string, unknown>[] } }) => void) {
  const document = JSON.parse(
    readFileSync(new URL('../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
  );
  change(document);
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

function remarksOf(scenario: ReturnType<typeof flagship>) {
  const stood = standOn(scenario);
  if (stood.kind !== 'stands') throw new Error(stood.kind);
  return standingRemarks(compile(scenario), stood.standing);
}

describe('a standing vehicle', () => {
  it('gives no remarks when it stands as its builder wants it', () => {
    expect(remarksOf(flagship(() => undefined))).toEqual([]);
  });

  it('is remarked on when springs too soft let it down on a stop, with the force that is missing', () => {
    const soft = flagship((document) => {
      Object.assign(document.vehicle.elements[0] as object, { rate: '0.05 N/mm', preload: '2 N' });
    });
    const remarks = remarksOf(soft);
    expect(remarks.map((p) => p.message)).toEqual([
      "'front-axle' rests on its bump stop when the vehicle stands",
    ]);
    // 2 springs of 10 N hold it as drawn within 0.1 mm; these give 2 N each, so 16 N are missing (the flagship's own
    // standing travel of 0.12 mm on 2.2 N/mm is 0.26 N of it)
    expect(remarks[0]?.hint).toMatch(/^its springs would have to give 1[56](\.\d+)? N more/);
  });

  it('stands lighter when an item is taken off, and leans on its rear wheels on a slope', () => {
    const scenario = flagship(() => undefined);
    const loads = (options: Parameters<typeof standOn>[1]) => {
      const stood = standOn(scenario, options);
      if (stood.kind !== 'stands') throw new Error(stood.kind);
      return stood.standing.loads;
    };
    const sum = (list: readonly number[]) => list.reduce((total, load) => total + load, 0);
    expect(sum(loads({ without: ['dump body'] }))).toBeCloseTo((6 - 1.1) * 9.80665, 6);
    expect(sum(loads({ slope: 0.2 }))).toBeCloseTo(6 * 9.80665, 6);
    expect(loads({ slope: 0.2 })[0]).toBeLessThan(loads({})[0] as number);
  });

  it('slides where the slope is steeper than its grip, and says what grip it wants', () => {
    const stood = standOn(
      flagship(() => undefined),
      { slope: 0.75 },
    );
    // a parked vehicle on an even slope needs tan(slope), whatever its loads (law of friction)
    expect(stood).toMatchObject({ kind: 'slides', has: 0.8 });
    if (stood.kind === 'slides') expect(stood.wants).toBeCloseTo(Math.tan(0.75), 6);
  });

  it('is held on a slope by the torque that the slope asks for, and rolls with less', () => {
    const scenario = flagship(() => undefined);
    const parked = standOn(scenario, { slope: 0.2 });
    if (parked.kind !== 'stands') throw new Error(parked.kind);
    // friction W·sin(slope) on the common radius of all wheels: their loaded levers are 55 mm less 1 to 2 mm of tyre
    const whole = 6 * 9.80665 * Math.sin(0.2) * 0.055;
    const held = (share: number) => {
      const torque = (share * whole) / 3;
      return standOn(scenario, { slope: 0.2, torques: { front: torque, middle: torque, rear: torque } });
    };
    // held level at one point, a slope leaves (W·sin − f)/cos: half of W·tan each way. Levers are 2 to 4 % under 55 mm,
    // so the friction is that much more: 0.1 of the half each way covers it
    const left = (share: number) => {
      const stood = held(share);
      if (stood.kind !== 'rolls') throw new Error(stood.kind);
      return stood.force / (0.5 * 6 * 9.80665 * Math.tan(0.2));
    };
    expect(Math.abs(left(0.5) + 1)).toBeLessThan(0.1);
    expect(Math.abs(left(1.5) - 1)).toBeLessThan(0.2);
  });
});
