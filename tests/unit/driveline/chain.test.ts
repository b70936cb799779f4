/*
 * The static chain: torques from the wheels to the sources, losses by the way that power flows, sharing, joints.
 * Seen red: driving efficiency used for power that flows back; shares of motors swapped; a phase turned by 90 degrees.
 */
import { describe, expect, it } from 'vitest';
import { chainOf, type DriveChain } from '../../../sim/driveline/chain.ts';
import type { Loose } from '../small-truck.ts';
import { oneMotor, truckWith } from './document.ts';

const built = (driveline: Loose, spoil?: (truck: Loose) => void): DriveChain => {
  const chain = chainOf(truckWith(driveline, spoil));
  if (!chain) throw new Error('there is no drive line');
  return chain;
};
const at = (chain: DriveChain, name: string): number =>
  chain.driveline.parts.findIndex((part) => part.name === name);

describe('torques of one motor with two axle drives', () => {
  it('go through ratios and efficiencies up to the motor', () => {
    const chain = built(oneMotor());
    chain.solve([0.3, 0.2, 0.1], 1);
    // bevel pairs 3:1 at 93 % (typical), gearbox 6:1 at 90 %
    expect(chain.into[at(chain, 'front final')]).toBeCloseTo(0.3 / (3 * 0.93), 12);
    expect(chain.out[at(chain, 'gearbox')]).toBeCloseTo(0.6 / (3 * 0.93), 12);
    expect(chain.out[at(chain, 'motor')]).toBeCloseTo(0.6 / (3 * 0.93 * 6 * 0.9), 12);
  });

  it('lose on the way back too: less of them reaches the motor', () => {
    const chain = built(oneMotor());
    chain.solve([-0.3, -0.2, -0.1], 1);
    expect(chain.out[at(chain, 'motor')]).toBeCloseTo((-0.6 * 0.93 * 0.9) / 18, 12);
  });

  it('drive backwards as they drive forward', () => {
    const chain = built(oneMotor());
    chain.solve([-0.3, -0.2, -0.1], -1);
    expect(chain.out[at(chain, 'motor')]).toBeCloseTo(-0.6 / (3 * 0.93 * 6 * 0.9), 12);
    expect(chain.sourcePower).toBeGreaterThan(chain.wheelPower);
  });

  it('are held by a worm that locks itself', () => {
    const driveline = oneMotor();
    driveline.parts[1] = { name: 'gearbox', kind: 'reduction', mesh: 'worm', from: 'motor', teeth: [1, 30] };
    driveline.parts[0].axis = 'across';
    const chain = built(driveline);
    chain.solve([-0.3, -0.2, -0.1], 1);
    expect(chain.out[at(chain, 'motor')]).toBeCloseTo(0, 15);
    expect(chain.out[at(chain, 'gearbox')]).toBeLessThan(0);
  });
});

describe('two motors on one shaft', () => {
  const two = (second: Loose): Loose => {
    const driveline = oneMotor();
    driveline.parts.push({ ...driveline.parts[0], name: 'second', ...second });
    driveline.parts[1].from = ['motor', 'second'];
    return driveline;
  };

  it('share alike when they are alike', () => {
    const chain = built(two({}));
    chain.solve([0.3, 0.2, 0.1], 1);
    expect(chain.out[at(chain, 'second')]).toBeCloseTo(chain.out[at(chain, 'motor')] as number, 15);
  });

  it('share in proportion to what they have at standstill', () => {
    // without a stall current the line is taken as it stands
    const bare = two({ stallTorque: '60 N mm' });
    for (const part of bare.parts) delete part.stallCurrent;
    const chain = built(bare);
    chain.solve([0.3, 0.2, 0.1], 1);
    expect(
      (chain.out[at(chain, 'motor')] as number) / (chain.out[at(chain, 'second')] as number),
    ).toBeCloseTo(2, 12);
  });
});

describe('joints', () => {
  /** Gearbox on the chassis, a shaft that falls by 20 degrees to the front axle, joints at both ends. */
  const jointed = (more: Loose = {}): Loose => {
    const driveline = oneMotor();
    const fall = Math.tan((20 * Math.PI) / 180);
    driveline.parts.splice(
      2,
      1,
      { name: 'joint a', kind: 'universal-joint', from: 'gearbox', efficiency: 1, rating: '1 N m', ...more },
      {
        name: 'front shaft',
        kind: 'shaft',
        from: 'joint a',
        ends: [
          { on: 'chassis', x: -0.1, z: 0.05 + 0.1 * fall },
          { on: 'front-axle', x: 0, z: 0.05 },
        ],
      },
      {
        name: 'joint b',
        kind: 'universal-joint',
        from: 'front shaft',
        on: 'front-axle',
        efficiency: 1,
        rating: '1 N m',
        mostAngle: '40 deg',
      },
    );
    driveline.parts.find((p: Loose) => p.name === 'front final').from = 'joint b';
    return driveline;
  };
  const degree = Math.PI / 180;

  it('take their angle from the ends of the shaft', () => {
    const chain = built(jointed());
    chain.solve([0.3, 0, 0], 1);
    expect(chain.angle[at(chain, 'joint a')]).toBeCloseTo(20 * degree, 12);
    expect(chain.angle[at(chain, 'joint b')]).toBeCloseTo(20 * degree, 12);
    expect(chain.angleUse(at(chain, 'joint b'))).toBeCloseTo(0.5, 12);
  });

  it('carry 1/cos of their angle', () => {
    const chain = built(jointed());
    chain.solve([0.3, 0, 0], 1);
    const b = at(chain, 'joint b');
    expect(chain.partUse(b)).toBeCloseTo(0.3 / (3 * 0.93) / Math.cos(20 * degree), 12);
  });

  it('let the shaft between them ripple, and take the ripple away from each other when aligned', () => {
    const chain = built(jointed());
    chain.solve([0.3, 0, 0], 1);
    const torque = 0.3 / (3 * 0.93);
    expect(chain.peak[at(chain, 'front shaft')]).toBeCloseTo(torque / Math.cos(20 * degree), 12);
    expect(chain.peak[at(chain, 'gearbox')]).toBeCloseTo(torque, 12);
  });

  it('add their ripple when their yokes are crossed', () => {
    const chain = built(jointed({ phase: '90 deg' }));
    chain.solve([0.3, 0, 0], 1);
    const torque = 0.3 / (3 * 0.93);
    expect(chain.peak[at(chain, 'gearbox')]).toBeCloseTo(torque / Math.cos(20 * degree) ** 2, 12);
  });

  it('count as unknown where nothing tells their angle', () => {
    const driveline = jointed();
    delete driveline.parts.find((p: Loose) => p.name === 'front shaft').ends;
    const chain = built(driveline);
    chain.solve([0.3, 0, 0], 1);
    expect(chain.partUse(at(chain, 'joint a'))).toBeNaN();
  });
});

describe('ratings', () => {
  it('are shared by equal ones, and unknown where nobody gives one', () => {
    const driveline = oneMotor();
    driveline.parts[4] = { ...driveline.parts[4], count: 2, rating: '0.4 N m' };
    const chain = built(driveline);
    chain.solve([0.4, 0.2, 0.2], 1);
    expect(chain.partUse(at(chain, 'front final'))).toBeCloseTo(0.5, 12);
    expect(chain.partUse(at(chain, 'rear final'))).toBeNaN();
    expect(chain.limit(at(chain, 'rear final'))).toBeUndefined();
  });

  it('of a motor are what it has at standstill', () => {
    const chain = built(oneMotor());
    chain.solve([0.3, 0.2, 0.1], 1);
    const motor = at(chain, 'motor');
    // the line bends down to 20 A·R/(R + 60 mΩ) at R = 7.4 V/20 A
    const amperes = 7.4 / (7.4 / 20 + 0.06);
    expect(chain.limit(motor)?.value).toBeCloseTo((0.12 * (amperes - 0.5)) / 19.5, 12);
    expect(chain.current[motor]).toBeCloseTo(((chain.out[motor] as number) / 0.12) * 19.5 + 0.5, 12);
  });
});
