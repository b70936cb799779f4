/* Seen red: nothing cut; another point than the middle of the gap tried. */
import { describe, expect, it } from 'vitest';
import { chance } from '../../../sim/ground/chance.ts';
import { drive, layGround, loadScenario, type Scenario } from '../../../sim/index.ts';
import {
  cutsOf,
  meanOf,
  neighbourCorrelation,
  segmentMeans,
  segmentsPerRide,
} from '../../../sim/rough/segments.ts';
import { figuresOf, type Ride, rideOf, spectraOf } from '../../../sim/rough/statistics.ts';
import { dyingFrames, roughStretch, steadyPart } from '../../../sim/rough/steady.ts';
import { sweepSpeeds } from '../../../sim/rough/sweep.ts';
import { normal } from '../../../sim/searching/normal.ts';
import { textOf } from '../studies/shipped.ts';

const noise = (count: number, seed: number): number[] => {
  const draw = chance(seed);
  return Array.from({ length: count }, () => normal(draw));
};

describe('the beginning that is cut', () => {
  it('is the transient, and no more than a few batches of what is steady', () => {
    const decaying = noise(4000, 1).map((value, i) => (value + 30 * Math.exp(-i / 100)) ** 2);
    const cut = dyingFrames(decaying, 10);
    // 30·e^(−i/100) is as large as the noise at i = 340
    expect(cut).toBeGreaterThan(200);
    expect(cut).toBeLessThan(800);
  });

  it('is little of a series without a transient, and never more than half', () => {
    const cuts = [1, 2, 3, 4, 5].map((seed) =>
      dyingFrames(
        noise(4000, seed).map((v) => v * v),
        10,
      ),
    );
    expect(cuts.sort((a, b) => a - b)[2]).toBeLessThan(1000);
    expect(
      dyingFrames(
        Array.from({ length: 400 }, (_, i) => 400 - i),
        10,
      ),
    ).toBeLessThanOrEqual(200);
    expect(dyingFrames([1, 2], 10)).toBe(0);
  });
});

describe('segments', () => {
  it('cut a series whole, as equal as can be', () => {
    expect(cutsOf(10, 4)).toEqual([0, 3, 5, 8, 10]);
    expect(segmentMeans([1, 2, 3, 4, 5, 6], cutsOf(6, 2))).toEqual([2, 5]);
  });

  it('of a series with memory are longer, until neighbours have nothing to do with each other', () => {
    let slow = 0;
    const remembering = noise(64 * 60, 4).map((value) => {
      slow = 0.995 * slow + value;
      return slow;
    });
    const bound = segmentsPerRide([remembering], 60);
    // chance alone halves them once in twenty
    const free = Array.from({ length: 40 }, (_, seed) => segmentsPerRide([noise(64 * 60, seed)], 60));
    expect(free.filter(({ perRide }) => perRide === 64).length).toBeGreaterThanOrEqual(34);
    expect(bound.perRide).toBeLessThanOrEqual(16);
    expect(bound.perRide).toBeGreaterThanOrEqual(8);
    expect(neighbourCorrelation([[1, 2, 3, 4, 5, 6, 7, 8]])).toBeGreaterThan(0.5);
  });

  it('give intervals that cover the true mean about as often as they say', () => {
    const covered = Array.from({ length: 400 }, (_, seed) => meanOf(noise(16, seed))).filter(
      ({ low, high }) => low <= 0 && high >= 0,
    ).length;
    // 95 % of 400 = 380 ± 4.4: four deviations either side
    expect(covered).toBeGreaterThan(362);
    expect(covered).toBeLessThan(398);
  });
});

describe('a sweep over speeds', () => {
  const safeBelow = (limit: number) => (speed: number) => ({ speed, holds: speed <= limit });

  it('halves the gap around the fastest safe speed', () => {
    const { tried, fastest, fails } = sweepSpeeds([4, 1, 2], 4, safeBelow(2.7));
    expect(fastest?.speed).toBe(2.625);
    expect(fails?.speed).toBe(2.75);
    expect(tried.map(({ speed }) => speed)).toEqual([1, 2, 2.5, 2.625, 2.75, 3, 4]);
  });

  it('never calls a speed above one that fails safe', () => {
    const { fastest, fails } = sweepSpeeds([1, 2, 3], 0, (speed) => ({ speed, holds: speed !== 2 }));
    expect([fastest?.speed, fails?.speed]).toEqual([1, 2]);
  });

  it('knows when all hold, and when none does', () => {
    expect(sweepSpeeds([1, 2], 3, safeBelow(5))).toMatchObject({ fastest: { speed: 2 }, fails: undefined });
    expect(sweepSpeeds([1, 2], 3, safeBelow(0.5))).toMatchObject({ fastest: undefined, fails: { speed: 1 } });
  });
});

/** The shipped truck on rough ground, on a piece of this length, m, at this speed, m/s. */
function truck(length: number, speed: number): Scenario {
  const document = JSON.parse(textOf('fell-4x4'));
  document.ground[1].length = length;
  document.vehicle.drive.speed = speed;
  const read = loadScenario(document);
  if (!read.ok) throw new Error('the truck cannot be read');
  return read.value;
}

describe('a ride over rough ground', () => {
  const scenario = truck(6, 1.7);
  const ground = layGround(scenario);
  const stretch = roughStretch(scenario, ground);
  if (stretch === undefined) throw new Error('no rough ground');
  const recording = drive(scenario);
  const steady = steadyPart(recording, stretch, 1.7);
  if (steady === undefined) throw new Error('too short');
  const ride = rideOf(recording, steady);
  const figures = figuresOf([ride]);

  it('is looked at where the ground has its full height, all wheels on it', () => {
    expect(stretch.from).toBeCloseTo(0.6 + 0.6, 12);
    expect(stretch.to).toBeCloseTo(0.6 + 5.4, 12);
    expect(steady.before).toBeGreaterThan(0);
    expect(ride.way).toBeLessThan(4.8);
    expect(ride.way).toBeGreaterThan(1.5);
    expect(steadyPart(recording, { from: 100, to: 200 }, 1.7)).toBeUndefined();
  });

  it('carries the weight on the mean of its wheels, each within its own interval', () => {
    const carried = figures.wheels.reduce((sum, { load }) => sum + load, 0);
    const weight = recording.standing.loads.reduce((sum, load) => sum + load, 0);
    // the mean vertical acceleration over some seconds is small beside g, and so is what the drive lifts
    expect(Math.abs(carried / weight - 1)).toBeLessThan(0.05);
    for (const wheel of figures.wheels) {
      expect(wheel.coefficient.low).toBeLessThanOrEqual(wheel.coefficient.value);
      expect(wheel.coefficient.high).toBeGreaterThanOrEqual(wheel.coefficient.value);
    }
    expect(figures.acceleration.value).toBeGreaterThan(0);
  });

  it('counts the flights of its steady part, and their time', () => {
    figures.wheels.forEach((wheel, i) => {
      const own = ride.flights.filter((f) => f.wheel === i && f.from >= ride.from && f.from < ride.to);
      expect(wheel.liftOffs.value).toBeCloseTo((1000 * own.length) / ride.way, 6);
      const off = ride.flights
        .filter((f) => f.wheel === i)
        .reduce((sum, f) => sum + Math.max(0, Math.min(f.to, ride.to) - Math.max(f.from, ride.from)), 0);
      expect(wheel.off.value).toBeCloseTo(off / (ride.to - ride.from), 9);
    });
  });

  it('has a spectrum for the chassis and for every axle line', () => {
    const spectra = spectraOf([ride]);
    expect(spectra?.loads.length).toBe(2);
    expect(spectra?.acceleration.density.every(Number.isFinite)).toBe(true);
  });

  it('without lift-offs has a rate of 0 that could be 3.7 over the way', () => {
    const calm: Ride = { ...ride, flights: [] };
    const [wheel] = figuresOf([calm]).wheels;
    expect(wheel?.liftOffs).toMatchObject({ value: 0, low: 0 });
    expect(wheel?.liftOffs.high).toBeCloseTo((3.688879 / ride.way) * 1000, 2);
  });

  it('made several times is surer', () => {
    const width = ({ high, low }: { high: number; low: number }) => high - low;
    const four = figuresOf([ride, ride, ride, ride]);
    expect(four.segments.count).toBeGreaterThan(figures.segments.count);
    expect(width(four.acceleration)).toBeLessThan(width(figures.acceleration));
  });
});
