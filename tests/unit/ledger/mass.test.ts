/*
 * The greatest mass, put back as the vehicle's mass, brings the part that sets it to its limit.
 * Seen red: inertias that do not grow along; the mass that fails instead of the one that holds; wheels scaled too.
 */
import { describe, expect, it } from 'vitest';
import { compile } from '../../../sim/index.ts';
import { crossRegardless } from '../../../sim/ledger/crossing.ts';
import { massCurve } from '../../../sim/ledger/curve.ts';
import { keyOf } from '../../../sim/ledger/ledger.ts';
import { withMore } from '../../../sim/ledger/load.ts';
import { greatestMass } from '../../../sim/ledger/mass.ts';
import { ready, shafts, shipped } from './truck.ts';

describe('the greatest mass', () => {
  it('put back into the document gives 100 % on the part that sets it, within 0.1 %', () => {
    const { scenario, ground } = shafts();
    const found = greatestMass(scenario, ground);
    expect(found.setBy?.of).toBe('rear joint at the transfer');
    expect(found.mass).toBeLessThan(found.today);
    const document = shipped('cairn-6x6-shafts');
    for (const item of document.vehicle.masses) {
      item.mass = `${(found.factor ?? 1) * Number.parseFloat(item.mass)} ${item.mass.split(' ')[1]}`;
      if (item.inertia) item.inertia = `${(found.factor ?? 1) * Number.parseFloat(item.inertia)} kg m^2`;
    }
    const back = ready(document);
    const { ledger, mechanism } = crossRegardless(back.scenario, back.ground);
    expect(mechanism.mass).toBeCloseTo(found.mass ?? 0, 9);
    const line = ledger.lines.find((each) => found.setBy && keyOf(each) === keyOf(found.setBy));
    expect(Math.abs((line?.use ?? 0) - 1)).toBeLessThan(1e-3);
    expect(ledger.lines[0]?.of).toBe(found.setBy?.of);
  });

  it('is above today where everything holds, and scales mass items but no wheels and no motors', () => {
    const { scenario, ground } = ready(shipped('cairn-6x6-motors'));
    const found = greatestMass(scenario, ground, { stations: 200 });
    expect(found.mass).toBeGreaterThan(found.today);
    const heavy = compile(withMore(scenario, 'items', 1));
    expect(heavy.mass).toBeCloseTo(found.today + 1, 9);
    withMore(scenario, 'items', 1).vehicle.masses.forEach((item, i) => {
      const was = scenario.vehicle.masses[i];
      // the same shape of a heavier stuff: inertia goes with mass
      expect((item.inertia ?? 0) * (was?.mass ?? 0)).toBeCloseTo((was?.inertia ?? 0) * item.mass, 15);
    });
    expect(heavy.wheels.map((w) => w.mass)).toEqual(compile(scenario).wheels.map((w) => w.mass));
    expect(heavy.driveline?.parts.map((p) => p.mass)).toEqual(
      compile(scenario).driveline?.parts.map((p) => p.mass),
    );
  });

  it('put at a point far back is set by another axle or comes out lower than spread', () => {
    const { scenario, ground } = ready(shipped('cairn-6x6-motors'));
    const spread = greatestMass(scenario, ground, { stations: 200 });
    const behind = greatestMass(scenario, ground, { stations: 200, spread: { at: { x: -0.38, z: 0.15 } } });
    expect(behind.mass).not.toBeNull();
    expect(behind.mass ?? 0).toBeLessThan(spread.mass ?? 0);
    expect(behind.factor).toBeNull();
  });

  it('tells apart what no mass helps: a step that grip cannot climb', () => {
    const { scenario, ground } = shafts((document) => {
      for (const wheel of document.vehicle.wheels) wheel.tyre.grip = 0.4;
    });
    const found = greatestMass(scenario, ground, { stations: 200 });
    expect(found.unhelped.map(({ sort }) => sort)).toEqual(['grip', 'grip', 'grip']);
    // the joints depend on mass, and hold from some mass on
    expect(found.setBy?.sort).toBe('joint');
    expect(found.mass).toBeGreaterThan(0);
  });

  it('says that nothing sets it where nothing has a rating and motors have torque to spare', () => {
    const { scenario, ground } = ready(
      (() => {
        const document = shipped('cairn-6x6-motors');
        document.criteria = [];
        delete document.vehicle.strength;
        for (const part of document.vehicle.driveline.parts) {
          delete part.rating;
          if (part.kind === 'motor') Object.assign(part, { stallTorque: '50 N m', stallCurrent: '400 A' });
        }
        delete document.vehicle.driveline.battery.currentLimit;
        document.vehicle.bodywork.belly = [];
        return document;
      })(),
    );
    const found = greatestMass(scenario, ground, { stations: 100 });
    // balance itself may end at some mass; a known part may not set it
    expect(['balance', 'tipping', undefined]).toContain(found.setBy?.sort);
  });
});

describe('the largest step over mass', () => {
  const { scenario } = shafts();
  const curve = massCurve(scenario);

  it('has 12 points or more, falls as the vehicle gets heavier, and names what sets each', () => {
    expect(curve.points.length).toBeGreaterThanOrEqual(12);
    expect(curve.obstacle.kind).toBe('step-up');
    expect(curve.there).toBe(0.035);
    curve.points.slice(1).forEach((point, i) => {
      // sizes are to 0.2 %, and both neighbours may be off
      expect(point.size).toBeLessThan((curve.points[i]?.size ?? 0) * 1.005);
      expect(point.setBy).toBeDefined();
    });
  });

  it('meets the greatest mass for the step that is there', () => {
    const { ground } = shafts();
    const { mass } = greatestMass(scenario, ground);
    const [light, heavy] = [
      curve.points.findLast((p) => p.mass <= (mass ?? 0)),
      curve.points.find((p) => p.mass > (mass ?? 0)),
    ];
    // between the two points around it the curve passes 35 mm
    expect(light?.size).toBeGreaterThan(0.035 * 0.99);
    expect(heavy?.size).toBeLessThan(0.035 * 1.01);
  });
});
