/*
 * What must hold for the chain of any drive line: power in is power out and losses, nothing gains power, torques scale.
 * Seen red: the efficiency of driving taken for power that flows back; the second motor of a shaft left at its own speed;
 * a share of the first motor given twice.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DriveChain } from '../../sim/driveline/chain.ts';
import type { Driveline, DrivePart } from '../../sim/driveline/driveline.ts';
import { type PartLaw, straightThrough } from '../../sim/driveline/part.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';

const share = fc.double({ min: 0.3, max: 1, noNaN: true });
const law = fc
  .record({
    ratio: fc.double({ min: 0.2, max: 30, noNaN: true }),
    driving: share,
    backDriving: fc.oneof(share, fc.constant(0)),
    split: fc.constantFrom('none', 'open', 'locked', 'limited'),
    bends: fc.option(fc.double({ min: 0, max: 0.6, noNaN: true }), { nil: undefined }),
    phase: fc.double({ min: 0, max: 3, noNaN: true }),
  })
  .map(({ ratio, driving, backDriving, split, bends, phase }): PartLaw => {
    if (bends !== undefined)
      return {
        ...straightThrough,
        driving,
        backDriving,
        angled: { joint: 'cardan', phase, fixed: bends, derate: Math.cos },
      };
    if (split !== 'none') return { ...straightThrough, split: { mode: split, bias: 2, preload: 0 } };
    return { ...straightThrough, ratio, driving, backDriving };
  });

/** Up to twelve parts behind one or two motors; each hangs on an earlier one, each axle line on any. */
const tree = fc
  .record({
    laws: fc.array(law, { minLength: 1, maxLength: 12 }),
    picks: fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), { minLength: 20, maxLength: 20 }),
    radii: fc.array(fc.double({ min: 0.03, max: 0.6, noNaN: true }), { minLength: 1, maxLength: 5 }),
    motors: fc.integer({ min: 1, max: 2 }),
    strengths: fc.tuple(share, share),
  })
  .map(({ laws, picks, radii, motors, strengths }) => {
    const parts: DrivePart[] = [];
    const add = (law: PartLaw, inputs: number[], sort: DrivePart['sort']) =>
      parts.push({
        name: `p${parts.length}`,
        kind: sort,
        sort,
        index: parts.length,
        inputs,
        outputs: [],
        wheels: [],
        body: 0,
        at: undefined,
        count: 1,
        mass: 0,
        law,
        rating: undefined,
        axisIn: 'across',
        axisOut: 'across',
        ends: undefined,
        angledBy: law.angled?.fixed === undefined ? undefined : { kind: 'fixed', angle: law.angled.fixed },
      });
    for (let m = 0; m < motors; m++)
      add(
        {
          ...straightThrough,
          motor: { stallTorque: strengths[m] as number, noLoadSpeed: 100, inertia: 0 },
        },
        [],
        'motor',
      );
    laws.forEach((each, i) => {
      // on the first motor's own shaft, or on any part behind the motors
      const pick = Math.floor((picks[i] as number) * (parts.length - motors + 1));
      const from = pick === 0 ? 0 : motors + pick - 1;
      add(each, i === 0 ? [...Array(motors).keys()] : [from], 'gear');
    });
    const lastPart = radii.map((_, w) => motors + Math.floor((picks[12 + w] as number) * laws.length));
    const whole = parts.map((part, p) => ({
      ...part,
      outputs: parts.flatMap((other, o) => (other.inputs.includes(p) ? [o] : [])),
      wheels: lastPart.flatMap((last, w) => (last === p ? [w] : [])),
    }));
    const driveline: Driveline = { parts: whole, lastPart, supply: undefined };
    const mechanism = {
      wheels: radii.map((radius) => ({ radius })),
      drive: { speed: 0.7 },
    } as unknown as Mechanism;
    return new DriveChain(mechanism, driveline);
  });

/** N·m, to the milli. */
const torques = fc.array(
  fc.integer({ min: -50_000, max: 50_000 }).map((milli) => milli / 1000),
  { minLength: 5, maxLength: 5 },
);
const sense = fc.constantFrom(1 as const, -1 as const);
const runs = { seed: 1931, numRuns: 1000 };

describe('the chain of any drive line', () => {
  it('takes from its sources what goes to the wheels and what its parts lose', () => {
    fc.assert(
      fc.property(tree, torques, sense, (chain, asked, way) => {
        chain.solve(asked, way);
        const lost = chain.loss.reduce((sum, each) => sum + each, 0);
        const { parts } = chain.driveline;
        const turned = parts.reduce(
          (sum, _, p) => sum + Math.abs((chain.out[p] as number) * (chain.speed[p] as number)),
          0,
        );
        const rolled = asked.reduce(
          (sum, torque, w) => sum + Math.abs(torque * (chain.turns.wheels[w] ?? 0)),
          0,
        );
        // 1e-9 of all power that goes round: rounding of a few dozen sums
        expect(Math.abs(chain.sourcePower - chain.wheelPower - lost)).toBeLessThanOrEqual(
          1e-9 * (turned + 0.7 * rolled),
        );
      }),
      runs,
    );
  });

  it('gains power in no part but by the difference of a differential', () => {
    fc.assert(
      fc.property(tree, torques, sense, (chain, asked, way) => {
        chain.solve(asked, way);
        chain.driveline.parts.forEach(({ law: { split } }, p) => {
          if (split === undefined) expect(chain.loss[p]).toBeGreaterThanOrEqual(0);
        });
      }),
      runs,
    );
  });

  it('ripples by no more than all its joints together, and never below what it carries', () => {
    fc.assert(
      fc.property(tree, torques, sense, (chain, asked, way) => {
        chain.solve(asked, way);
        const { parts } = chain.driveline;
        const bends = parts.reduce((all, _, p) => all / Math.cos(chain.angle[p] as number), 1);
        const same = asked.map(Math.abs);
        chain.solve(same, 1);
        parts.forEach((_, p) => {
          const carried = Math.abs(chain.out[p] as number);
          expect(chain.peak[p]).toBeGreaterThanOrEqual(carried * (1 - 1e-12));
          expect(chain.peak[p]).toBeLessThanOrEqual(carried * bends * (1 + 1e-9) + 1e-12);
        });
      }),
      runs,
    );
  });

  it('carries twice as much for twice the torque', () => {
    fc.assert(
      fc.property(tree, torques, sense, (chain, asked, way) => {
        chain.solve(asked, way);
        const once = Float64Array.from(chain.out);
        chain.solve(
          asked.map((torque) => 2 * torque),
          way,
        );
        for (const [p, torque] of once.entries()) expect(chain.out[p]).toBeCloseTo(2 * torque, 9);
      }),
      runs,
    );
  });
});
