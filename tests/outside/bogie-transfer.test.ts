/*
 * What drive torque and pivot height do to the loads within a driven bogie, against the moments of the whole bogie about
 * its pivot (elementary statics). With the pull F, half base a, pivot height h, wheel radius r and a gear train from a
 * shaft at the pivot (ratio i = wheel torque over shaft torque, s = +1 for shaft and wheel turning alike, −1 otherwise):
 *   N_f − N_r = −(F/a)·(h − s·r/i);  s·r/i is 0 for motors on the beam, r for torque held by the chassis.
 *
 * Seen red: shares of reactions left out; the pivot 1 mm off; turns of bodies further down reversed; a map shrunk by a
 * tenth.
 */
import { describe, expect, it } from 'vitest';
import type { Pose } from '../../shared/geometry/vec.ts';
import { bogieTransfers, type Pulling } from '../../sim/joints/bogie-transfer.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import { type Scenario, scenarioDocument } from '../../sim/scenario/schema.ts';
import { Field, mapOver } from '../../sim/studies/map.ts';
import { pivotNamed } from '../../sim/studies/pivots.ts';
import { pivotPlane } from '../../sim/studies/planes.ts';
import { documentOf, type Rig } from '../rigs/vehicle.ts';

const [r, a] = [0.04, 0.05];
const wheel = { radius: r, mass: 0.02, stiffness: 2e5, load: 10, damping: 1 };

type Reaction = Scenario['vehicle']['wheels'][number]['reaction'];

/** A driven bogie behind a front axle that is hard to roll, on level ground; its pivot `height` m above the ground. */
function truck(height: number, reaction: Reaction, more: Partial<Rig> = {}): Scenario {
  const document = documentOf({
    mass: 3,
    cg: { x: -0.15, z: 0.06 },
    axles: [
      { ...wheel, name: 'front', at: { x: 0, z: r }, rolling: 0.3 },
      { ...wheel, name: 'leading', at: { x: -0.25, z: r }, on: 'beam' },
      { ...wheel, name: 'trailing', at: { x: -0.35, z: r }, on: 'beam' },
    ],
    members: [
      {
        name: 'beam',
        kind: 'bogie-beam',
        pivot: { x: -0.3, z: height },
        front: { x: -0.25, z: r },
        rear: { x: -0.35, z: r },
      },
    ],
    masses: [{ on: 'beam', mass: 0.05, at: { x: -0.3, z: r }, inertia: 1e-4 }],
    drive: { driven: ['leading', 'trailing'], torquePerWheel: 2, speed: 0.1, acceleration: 0.5 },
    run: { start: 10, until: 10.2 },
    ...more,
  });
  const wheels = document.vehicle.wheels.map((w) =>
    w.name === 'front' || reaction === undefined ? w : { ...w, reaction },
  );
  return scenarioDocument.parse({
    ...document,
    vehicle: { ...document.vehicle, wheels },
    criteria: [],
  });
}

const train = (ratio: number, sense: 'same' | 'opposite'): Reaction => ({
  train: 'beam',
  ratio,
  sense,
  motorOn: 'chassis',
});

/** As drawn, pulling by so many N in all on rigid wheels. */
function pulled(mechanism: Mechanism, pull: number): Pulling {
  return {
    poses: mechanism.bodies.map((): Pose => ({ x: 0, z: 0, angle: 0 })),
    drives: mechanism.wheels.map(({ driven, radius }) => {
      const fx = driven ? pull / 2 : 0;
      return { fx, fz: 0, torque: fx * radius };
    }),
  };
}

describe('a bogie of 12 N, half base 50 mm, wheels of 40 mm, pivot at 40 mm, that pulls by 4 N', () => {
  // 6 N on each end without a pull
  it.each([
    { name: 'motors on the beam', reaction: 'beam', front: 4.4, rear: 7.6 },
    { name: 'a train of 1, same sense', reaction: train(1, 'same'), front: 6, rear: 6 },
    { name: 'a train of 3, same sense', reaction: train(3, 'same'), front: 4.9333333, rear: 7.0666667 },
    { name: 'a train of 3, opposite', reaction: train(3, 'opposite'), front: 3.8666667, rear: 8.1333333 },
    { name: 'torque held by the chassis', reaction: 'chassis', front: 6, rear: 6 },
  ])('loads its ends by $front and $rear N with $name', ({ reaction, front, rear }) => {
    const mechanism = compile(truck(r, reaction));
    const [beam] = bogieTransfers(mechanism, pulled(mechanism, 4));
    // closed form: half a unit of the last printed digit
    expect(beam?.name).toBe('beam');
    expect(6 + (beam?.front.change ?? Number.NaN)).toBeCloseTo(front, 7);
    expect(6 + (beam?.rear.change ?? Number.NaN)).toBeCloseTo(rear, 7);
  });
});

describe('the pivot height that cancels the drive', () => {
  it.each([
    { name: 'on the ground for motors on the beam', reaction: 'beam', above: -r },
    { name: 'at the hubs for torque held by the chassis', reaction: 'chassis', above: 0 },
    { name: 'at r/3 − r for a train of 3', reaction: train(3, 'same'), above: r / 3 - r },
    { name: 'at −r/3 − r for an opposite train of 3', reaction: train(3, 'opposite'), above: -r / 3 - r },
    { name: 'at 2·r − r for a train of a half', reaction: train(0.5, 'same'), above: r },
  ])('lies $name', ({ reaction, above }) => {
    const mechanism = compile(truck(0.055, reaction));
    const [beam] = bogieTransfers(mechanism, pulled(mechanism, 4));
    expect(beam?.cancelAboveHubs).toBeCloseTo(above, 9);
    expect(beam?.cancelAt).toBeCloseTo(r + above, 9);
  });

  it.each([
    { name: 'the ground for motors on the beam', reaction: 'beam', height: 0 },
    { name: 'the hubs for torque held by the chassis', reaction: 'chassis', height: r },
    { name: 'r/i for a gear train of 3', reaction: train(3, 'same'), height: r / 3 },
    { name: 'r/i for a gear train of a half', reaction: train(0.5, 'same'), height: 2 * r },
  ])('is where whole crossings on a map load both ends alike: $name', ({ reaction, height }) => {
    const scenario = truck(height + 0.007, reaction);
    const pivot = pivotNamed(scenario, 'beam');
    if (pivot === undefined) throw new Error('the beam has no pivot');
    const { x, z } = pivotPlane(scenario, pivot);
    const sides = {
      x: { ...x, from: -0.301, to: -0.299, steps: 3 },
      z: { ...z, from: height - 0.02, to: height + 0.02, steps: 9 },
    };
    const ask = { scenario, stations: 4, measure: 'bogieLoadSpread[beam]', ...sides };
    const field = new Field(ask);
    for (const tile of mapOver(ask)) field.add(tile);
    const best = field.best('less');
    // the node of that height, and in its column a straight line through it on both sides, for both formulas are linear:
    // the lean of the beam on its tyres, 0.05 mm deep, moves it by some 10⁻³ of the base
    expect(best?.z).toBeCloseTo(height, 9);
    const at = (row: number) => field.point(1, row)?.value ?? Number.NaN;
    expect(at(4)).toBeLessThan(0.03 * at(8));
    expect(Math.abs(at(6) / at(8) - 0.5)).toBeLessThan(0.03);
    expect(Math.abs(at(2) / at(0) - 0.5)).toBeLessThan(0.03);
  });
});

describe('a walking beam pinned to its axles at hub height, pivot at hub height, one level torque rod per axle to the chassis', () => {
  const housed = (pivot: number) =>
    truck(pivot, undefined, {
      axles: [
        { ...wheel, name: 'front', at: { x: 0, z: r }, rolling: 0.3 },
        { ...wheel, name: 'leading', at: { x: -0.25, z: r }, on: 'leading housing' },
        { ...wheel, name: 'trailing', at: { x: -0.35, z: r }, on: 'trailing housing' },
      ],
      members: [
        {
          name: 'beam',
          kind: 'bogie-beam',
          pivot: { x: -0.3, z: pivot },
          front: { x: -0.25, z: r },
          rear: { x: -0.35, z: r },
        },
        { name: 'leading housing', kind: 'housing', on: 'beam', pivot: { x: -0.25, z: r } },
        { name: 'trailing housing', kind: 'housing', on: 'beam', pivot: { x: -0.35, z: r } },
        ...['leading', 'trailing'].map((axle, i) => ({
          name: `${axle} rod`,
          kind: 'rod' as const,
          from: { on: 'chassis', x: -0.2 - 0.1 * i, z: r + 0.03 },
          to: { on: `${axle} housing`, x: -0.25 - 0.1 * i, z: r + 0.03 },
        })),
      ],
      masses: [
        { on: 'beam', mass: 0.05, at: { x: -0.3, z: r }, inertia: 1e-4 },
        { on: 'leading housing', mass: 0.02, at: { x: -0.25, z: r }, inertia: 1e-5 },
        { on: 'trailing housing', mass: 0.02, at: { x: -0.35, z: r }, inertia: 1e-5 },
      ],
    });

  it('keeps its loads equal whatever it pulls', () => {
    const mechanism = compile(housed(r));
    const [beam] = bogieTransfers(mechanism, pulled(mechanism, 4));
    expect(beam?.front.change).toBeCloseTo(0, 9);
    expect(beam?.cancelAboveHubs).toBeCloseTo(0, 9);
  });

  it('loses that with its pivot higher by e: a turn of the beam carries hubs forward, and rods turn the housings with it', () => {
    // nose-up by 1 rad: the hubs, e below the pivot, go forward by e; the top of a housing, u above its hub, stands still
    // on its rod, so that the housing turns by e/u. Work F·e + F·r·e/u, over the rise of both ends, 2·a
    const [e, u, F] = [0.015, 0.03, 4];
    const mechanism = compile(housed(r + e));
    const [beam] = bogieTransfers(mechanism, pulled(mechanism, F));
    expect(beam?.front.change).toBeCloseTo(-(F * e + (F * r * e) / u) / (2 * a), 9);
  });
});
