/*
 * What must hold for the balance of any vehicle on any ground.
 *
 * Seen red: the slope of equal torque by the moment arms left out, and that of a lock behind an open split; the
 * reaction of the drive left out of the rows; every centre of mass 1 mm off.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { DriveShare, Mechanism } from '../../sim/mechanism/mechanism.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import { Balance } from '../../sim/statics/balance.ts';
import { crawlOver } from '../../sim/statics/crawl.ts';
import type { Thrust } from '../../sim/statics/footing.ts';
import { Solver } from '../../sim/statics/solve.ts';
import { standAt } from '../../sim/statics/stand.ts';
import { mirrored, someGround, someRig } from '../rigs/chance.ts';
import { froude } from '../rigs/froude.ts';
import { drawnOver, loadsAt } from '../rigs/passage.ts';
import { groundOf, type Rig, scenarioOf } from '../rigs/vehicle.ts';

const place = fc.tuple(someRig, someGround).map(([rig, ground]) => ({ ...rig, ...ground }));
const seeded = (numRuns: number) => ({ seed: 1967, numRuns });
/** A share between −1 and 1. */
const swing = fc.double({ min: -1, max: 1, noNaN: true });

const parts = (scenario: Scenario) => {
  const ground = groundOf(scenario.ground);
  return { mechanism: compile(scenario), ground, course: courseOf(scenario, ground) };
};

const open = (mechanism: Mechanism): DriveShare => ({
  kind: 'open',
  branches: mechanism.wheels.map((_, wheel) => ({ kind: 'wheel', wheel })),
});
const halves = (mechanism: Mechanism): DriveShare => ({
  kind: 'open',
  branches: [
    { kind: 'wheel', wheel: 0 },
    { kind: 'locked', branches: mechanism.wheels.slice(1).map((_, i) => ({ kind: 'wheel', wheel: i + 1 })) },
  ],
});

const worstOf = (gaps: Iterable<number>) => Math.max(...[...gaps].map(Math.abs));
const gapsOf = (a: readonly number[], b: readonly number[]) => a.map((v, i) => v - (b[i] as number));

/** A balance of forces somewhere near where the rig stands, moved by `shares` of a few millimetres and hundredths of a radian. */
function near(rig: Rig, thrust: Thrust, shares: readonly number[]) {
  const { mechanism, ground, course } = parts(scenarioOf(rig));
  const found = standAt(mechanism, ground, course.start);
  if (found.kind !== 'stands') throw new Error(found.kind);
  const balance = new Balance(mechanism, ground, {
    thrust,
    sense: thrust.kind === 'driven' ? 1 : 0,
    relaxed: true,
  });
  const y = new Float64Array(balance.count);
  y.set(found.unknowns.subarray(0, balance.chain.size));
  for (let i = 0; i < balance.chain.size; i++)
    y[i] =
      (y[i] as number) + (shares[i % shares.length] as number) * (balance.chain.turns[i] ? 0.02 : 0.0015);
  if (balance.thrustRow >= 0) y[balance.thrustRow] = 0.4 * (shares[0] as number);
  return { balance, y, station: course.start };
}

/** Energy of height, springs and tyres of a balance that was just evaluated, J. */
function energyOf({ mechanism, chain, state }: Balance, stored: number, y: Float64Array): number {
  const height = mechanism.bodies.reduce((sum, { mass, centre }, b) => {
    const i = chain.last[b] as number;
    return (
      sum +
      mass *
        mechanism.gravity *
        ((state.z[i] as number) + (state.sin[i] as number) * centre.x + (state.cos[i] as number) * centre.z)
    );
  }, 0);
  const elements = mechanism.elements.reduce((sum, { coordinate, count, law }) => {
    if (coordinate.kind !== 'joint') throw new Error('rigs drawn by chance have springs along joints only');
    return (
      sum +
      count * law.energy(y[chain.ofJoint[coordinate.joint] as number] as number, new Float64Array(law.memory))
    );
  }, 0);
  return height + elements + stored;
}

describe('forces are slopes', () => {
  it('virtual work: a small move of any freedom costs the energy that its force says', () => {
    fc.assert(
      fc.property(place, fc.array(swing, { minLength: 7, maxLength: 7 }), (rig, shares) => {
        const { balance, y, station } = near(rig, { kind: 'none' }, shares);
        const energyAt = (i: number, by: number) => {
          const moved = y.slice();
          moved[i] = (moved[i] as number) + by;
          balance.evaluate(moved, station);
          return energyOf(balance, balance.storedInTyres(), moved);
        };
        balance.evaluate(y, station);
        const forces = [...balance.residual];
        const step = 1e-6;
        const gaps = forces.map((force, i) => force + (energyAt(i, step) - energyAt(i, -step)) / (2 * step));
        // differences of some 10 J to 1e-16 over 2e-6: 1e-9 of a newton, and the ground hidden behind other ground,
        // which a tyre does not tell apart: up to 1 % of one wheel's force, rarely met on ground as gentle as this
        expect(worstOf(gaps)).toBeLessThan(1e-6 * balance.weight);
      }),
      seeded(24),
    );
  });

  it('along a crossing without friction the pull that is missing is the slope of the energy', () => {
    fc.assert(
      fc.property(place, (rig) => {
        const { balance, y, station } = near(rig, { kind: 'none' }, [0]);
        const solver = new Solver(balance);
        const at = (x: number) => {
          const found = y.slice();
          expect(solver.newton(found, x).found).toBe(true);
          return {
            energy: energyOf(balance, balance.storedInTyres(), found),
            pull: -balance.wheels.reduce((sum, w) => sum + w.fx, 0),
          };
        };
        const step = 2e-5;
        const slope = (at(station + step).energy - at(station - step).energy) / (2 * step);
        // the second derivative of the pull over the step squared: some W/r² · 1e-10; and balance to 1e-9
        expect(Math.abs(slope - at(station).pull)).toBeLessThan(2e-5 * balance.weight);
      }),
      seeded(16),
    );
  });

  it('the tangent is the slope of the residual, free, locked, open and in a tree, parked', () => {
    const thrusts: ((m: Mechanism) => Thrust)[] = [
      () => ({ kind: 'none' }),
      () => ({ kind: 'parked' }),
      (m) => ({ kind: 'driven', share: m.drive.share }),
      (m) => ({ kind: 'driven', share: open(m) }),
      (m) => ({ kind: 'driven', share: halves(m) }),
    ];
    fc.assert(
      fc.property(
        place,
        fc.array(swing, { minLength: 7, maxLength: 7 }),
        fc.constantFrom(0, 1, 2, 3, 4, 4),
        (rig, shares, kind) => {
          const { mechanism } = parts(scenarioOf(rig));
          const { balance, y, station } = near(
            rig,
            (thrusts[kind] as (m: Mechanism) => Thrust)(mechanism),
            shares,
          );
          balance.evaluate(y, station);
          const tangent = balance.tangent.slice();
          const n = balance.count;
          const step = 1e-7;
          const gaps: number[] = [];
          for (let j = 0; j < n; j++) {
            const column = [step, -step].map((by) => {
              const moved = y.slice();
              moved[j] = (moved[j] as number) + by;
              balance.evaluate(moved, station);
              return balance.residual.slice();
            }) as [Float64Array, Float64Array];
            for (let i = 0; i < n; i++)
              gaps.push(
                ((column[0][i] as number) - (column[1][i] as number)) / (2 * step) -
                  (tangent[i * n + j] as number),
              );
          }
          // against the largest entry, k·r of a tyre or so; a patch that begins within the step bends the slope
          expect(worstOf(gaps) / worstOf(tangent)).toBeLessThan(2e-5);
        },
      ),
      seeded(90),
    );
  });
});

describe('a vehicle in balance', () => {
  it('carries its weight at every station, driven', () => {
    fc.assert(
      fc.property(place, (rig) => {
        const { mechanism, ground, course } = parts(
          scenarioOf({ ...rig, drive: { torquePerWheel: 100, speed: 0.3 } }),
        );
        const crawl = crawlOver(mechanism, ground, {
          start: course.start,
          until: course.start + 0.2,
          stations: 20,
          regardless: true,
        });
        expect(crawl.end.kind).toBe('arrived');
        const sums = [...column(crawl, 'station')].map((_, f) =>
          mechanism.wheels.reduce((sum, _w, w) => sum + (column(crawl, 'load', w)[f] as number), 0),
        );
        const weight = mechanism.mass * mechanism.gravity;
        expect(worstOf(sums.map((s) => s / weight - 1))).toBeLessThan(1e-8);
      }),
      seeded(12),
    );
  });

  it('has moments about any point that sum to nothing', () => {
    fc.assert(
      fc.property(place, swing, swing, (rig, px, pz) => {
        const { mechanism } = parts(scenarioOf(rig));
        const { balance, y, station } = near(rig, { kind: 'driven', share: mechanism.drive.share }, [0]);
        expect(new Solver(balance).sink(y, station).found).toBe(true);
        const { chain, state } = balance;
        const at = (body: number, x: number, z: number) => {
          const i = chain.last[body] as number;
          const [c, s] = [state.cos[i] as number, state.sin[i] as number];
          return {
            x: (state.x[i] as number) + c * x - s * z - px,
            z: (state.z[i] as number) + s * x + c * z - pz,
          };
        };
        let moment = 0;
        for (const [b, { mass, centre }] of mechanism.bodies.entries())
          moment -= mass * mechanism.gravity * at(b, centre.x, centre.z).x;
        for (const [w, { body, hub }] of mechanism.wheels.entries()) {
          const { fx, fz, torque } = balance.wheels[w] as (typeof balance.wheels)[number];
          const arm = at(body, hub.x, hub.z);
          // friction at the tread turns the wheel about its hub by what the drive holds against it
          moment += arm.x * fz - arm.z * fx + torque;
        }
        expect(Math.abs(moment)).toBeLessThan(1e-7 * balance.weight * mechanism.size);
      }),
      seeded(20),
    );
  });

  it('is found the same from any pose to begin with', () => {
    fc.assert(
      fc.property(place, fc.array(swing, { minLength: 8, maxLength: 8 }), (rig, shares) => {
        const { balance, y, station } = near(rig, { kind: 'none' }, [0]);
        const solver = new Solver(balance);
        expect(solver.newton(y, station).found).toBe(true);
        const expected = balance.wheels.map((w) => w.fz);
        // up to a wheel radius too high (or the tenth of one too low), leaning by up to 0.1 rad
        const far = y.map(
          (v, i) =>
            v +
            (i === 0
              ? 0.02 + 0.025 * (shares[0] as number)
              : 0.1 * (shares[i % 8] as number) * (balance.chain.turns[i] ? 1 : 0.05)),
        );
        expect(solver.sink(far, station).found).toBe(true);
        expect(
          worstOf(
            gapsOf(
              balance.wheels.map((w) => w.fz),
              expected,
            ),
          ),
        ).toBeLessThan(1e-6 * balance.weight);
      }),
      seeded(24),
    );
  });
});

describe('a crossing', () => {
  const driven = place.map((rig): Rig & Required<Pick<Rig, 'ground' | 'run'>> => ({
    ...rig,
    drive: { torquePerWheel: 100, speed: 0.3 },
  }));
  const crawlOf = (scenario: Scenario, length: number) => {
    const { mechanism, ground, course } = parts(scenario);
    const crawl = crawlOver(mechanism, ground, {
      start: course.start,
      until: course.start + length,
      stations: 25,
      regardless: true,
    });
    const shares = mechanism.wheels.map((_, w) =>
      [...column(crawl, 'load', w)].map((load) => load / mechanism.mass / mechanism.gravity),
    );
    return { crawl, shares };
  };

  it('without friction is the same forward and backward', () => {
    fc.assert(
      fc.property(place, (rig) => {
        const { mechanism, ground, course } = parts(scenarioOf(rig));
        const there = drawnOver(mechanism, ground, course.start, course.start + 0.3, 60);
        const back = drawnOver(mechanism, ground, course.start + 0.3, course.start, 60);
        const gaps = there.stations.flatMap((station, i) =>
          gapsOf(there.loads[i] as number[], loadsAt(back, station)),
        );
        expect(worstOf(gaps)).toBeLessThan(1e-6 * mechanism.mass * mechanism.gravity);
      }),
      seeded(12),
    );
  });

  it('of a mirrored vehicle over mirrored ground the other way has the same loads', () => {
    fc.assert(
      fc.property(driven, (rig) => {
        const there = parts(scenarioOf(rig));
        const mirror = parts(scenarioOf(mirrored(rig)));
        const length = 0.2;
        const one = crawlOver(there.mechanism, there.ground, {
          start: there.course.start,
          until: there.course.start + length,
          stations: 25,
          regardless: true,
        });
        const two = crawlOver(mirror.mechanism, mirror.ground, {
          start: mirror.course.start,
          until: mirror.course.start - length,
          stations: 25,
          regardless: true,
        });
        expect(two.frames).toBe(one.frames);
        const gaps = there.mechanism.wheels.flatMap((_, w) =>
          gapsOf([...column(one, 'load', w)], [...column(two, 'load', w)]),
        );
        expect(worstOf(gaps)).toBeLessThan(1e-6 * there.mechanism.mass * there.mechanism.gravity);
      }),
      seeded(12),
    );
  });

  it('keeps its shares when lengths go with s, masses with m and all else with Froude', () => {
    fc.assert(
      fc.property(
        driven,
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.double({ min: 0.01, max: 1e4, noNaN: true }),
        (rig, s, m) => {
          const small = crawlOf(scenarioOf(rig), 0.2);
          const large = crawlOf(froude(scenarioOf(rig), s, m), 0.2 * s);
          expect(large.crawl.frames).toBe(small.crawl.frames);
          expect(
            worstOf(small.shares.flatMap((line, w) => gapsOf(line, large.shares[w] as number[]))),
          ).toBeLessThan(1e-6);
        },
      ),
      seeded(10),
    );
  });

  it('changes by a millionth where a figure of the vehicle does', () => {
    fc.assert(
      fc.property(driven, fc.constantFrom('mass', 'height', 'rate', 'radius'), (rig, figure) => {
        const touched: Rig = {
          ...rig,
          ...(figure === 'mass' ? { mass: rig.mass * (1 + 1e-6) } : {}),
          ...(figure === 'height' ? { cg: { ...rig.cg, z: rig.cg.z * (1 + 1e-6) } } : {}),
          axles: rig.axles.map((a) => (figure === 'radius' ? { ...a, radius: a.radius * (1 + 1e-6) } : a)),
          elements: (rig.elements ?? []).map((e) =>
            figure === 'rate' && 'rate' in e ? { ...e, rate: (e.rate as number) * (1 + 1e-6) } : e,
          ) as NonNullable<Rig['elements']>,
        };
        const [one, two] = [crawlOf(scenarioOf(rig), 0.2), crawlOf(scenarioOf(touched), 0.2)];
        fc.pre(one.crawl.events.every((e) => e.kind !== 'snap'));
        expect(two.crawl.frames).toBe(one.crawl.frames);
        // radii in the loads: 50 nm under tyres of 8 N/mm is 4e-5 of a load
        expect(
          worstOf(one.shares.flatMap((line, w) => gapsOf(line, two.shares[w] as number[]))),
        ).toBeLessThan(2e-4);
      }),
      seeded(16),
    );
  });
});
