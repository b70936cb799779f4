import { describe, expect, it } from 'vitest';
import { column } from '../../../shared/recording.ts';
import { alongStations, bandOf } from '../../../sim/chance/bands.ts';
import { indexDraws } from '../../../sim/chance/indices.ts';
import { type Draw, drawAll, MonteCarlo } from '../../../sim/chance/monte-carlo.ts';
import { commonSpread, settingsAt, spreadsOf, uncertainOf, valueAt } from '../../../sim/chance/spreads.ts';
import { crawl, loadScenario } from '../../../sim/index.ts';
import { withSettings } from '../../../sim/studies/knob.ts';
import { smallTruck } from '../small-truck.ts';

/** The small truck with three figures that are known roughly. */
function roughly(): Record<string, unknown> {
  const document = structuredClone(smallTruck()) as unknown as {
    vehicle: { chassis?: unknown; wheels: Record<string, unknown>[]; masses: Record<string, unknown>[] };
  };
  const [wheel] = document.vehicle.wheels;
  const [mass] = document.vehicle.masses;
  if (wheel === undefined || mass === undefined) throw new Error('no wheel, no mass');
  (wheel.tyre as Record<string, unknown>).grip = '0.8 ± 10 %';
  mass.mass = '1.8 .. 2.2 kg';
  wheel.massPerWheel = '98; 103; 99 g';
  return document as unknown as Record<string, unknown>;
}
const read = (document: unknown) => {
  const scenario = loadScenario(document);
  if (!scenario.ok) throw new Error(scenario.problems.map((p) => `${p.path} ${p.message}`).join('; '));
  return scenario.value;
};

describe('the spreads of a document', () => {
  it('are found where they stand, with middle, kind and size', () => {
    const found = spreadsOf(roughly());
    expect(found.map(({ name, kind }) => `${name} ${kind}`).sort()).toEqual(
      [
        `masses[${nameAt('masses')}].mass uniform`,
        `wheels[${nameAt('wheels')}].massPerWheel samples`,
        `wheels[${nameAt('wheels')}].tyre.grip normal`,
      ].sort(),
    );
    const mass = found.find(({ dimension, kind }) => dimension === 'mass' && kind === 'uniform');
    expect(mass?.middle).toBeCloseTo(2, 12);
    expect(mass?.size).toBeCloseTo(0.4 / Math.sqrt(12), 12);
    expect(mass?.unit).toBe('kg');
  });

  it('are none in a document without any, in titles and notes, and in what is no document', () => {
    expect(spreadsOf(smallTruck())).toEqual([]);
    expect(spreadsOf({ ...roughly(), title: '2 .. 3 trucks ± 1; more', vehicle: null })).toEqual([]);
    expect(spreadsOf(7)).toEqual([]);
  });

  it('leave the scenario at its middles', () => {
    const { vehicle } = read(roughly());
    expect(vehicle.masses[0]?.mass).toBeCloseTo(2, 12);
    expect(vehicle.wheels[0]?.massPerWheel).toBeCloseTo(0.1, 12);
    expect(vehicle.wheels[0]?.tyre.grip).toBeCloseTo(0.8, 12);
  });

  it('give settings of the scenario that was read', () => {
    const document = roughly();
    const uncertain = uncertainOf(spreadsOf(document));
    const middle = withSettings(
      read(document),
      settingsAt(
        uncertain,
        uncertain.map(() => 0.5),
      ),
    );
    expect(middle.vehicle.masses[0]?.mass).toBeCloseTo(2, 12);
    const high = withSettings(
      read(document),
      settingsAt(
        uncertain,
        uncertain.map(() => 0.999999),
      ),
    );
    expect(high.vehicle.masses[0]?.mass).toBeCloseTo(2.2, 5);
    expect(high.vehicle.wheels[0]?.massPerWheel).toBeCloseTo(0.103, 12);
  });
});

const nameAt = (list: 'masses' | 'wheels'): string =>
  String((smallTruck().vehicle as unknown as Record<string, { name: string }[]>)[list]?.[0]?.name);

describe('a spread that all tyres have in common', () => {
  it('is one factor, on what was drawn for a tyre by itself too, and never below zero', () => {
    const document = roughly();
    const scenario = read(document);
    const grip = commonSpread(scenario, 'grip', 0.2);
    if (grip === undefined) throw new Error('no grip');
    const uncertain = [...uncertainOf(spreadsOf(document)), grip];
    const shares = uncertain.map(() => 0.5);
    shares[shares.length - 1] = 0.9772498680518208; // two deviations up: 20 % more
    const drawn = withSettings(scenario, settingsAt(uncertain, shares));
    // the cut at four deviations moves the quantile by less than 0.0002
    drawn.vehicle.wheels.forEach((wheel, i) => {
      expect(wheel.tyre.grip).toBeCloseTo(1.2 * (scenario.vehicle.wheels[i]?.tyre.grip ?? 0), 2);
    });
    const wild = commonSpread(scenario, 'grip', 3);
    expect(valueAt(wild ?? grip, 1e-9)).toBeGreaterThanOrEqual(0);
    expect(commonSpread(scenario, 'grip', 0)).toBeUndefined();
  });
});

const uncertain = uncertainOf(spreadsOf(roughly()));
const ask = { uncertain, seed: 5, criteria: 2, width: 0.1, most: 1000 };
const massOf = ({ settings }: Draw) => settings.find(({ path }) => path.includes('masses'))?.value ?? 0;
const judged = (draw: Draw) => ({ holds: [massOf(draw) < 2.19, true], measures: [massOf(draw), null] });

describe('draws', () => {
  it('grow in number until every interval is narrow enough', () => {
    const found = drawAll(ask, judged).sureness();
    expect(found.end).toBe('narrow');
    expect(found.draws).toBe(128);
    for (const { low, high } of [found.all, ...found.criteria]) expect(high - low).toBeLessThanOrEqual(0.1);
    expect(found.measures[0]?.count).toBe(128);
    expect(found.measures[1]).toBeNull();
  });

  it('end when the budget is spent, and say so', () => {
    const found = drawAll({ ...ask, width: 0.001, most: 200 }, judged).sureness();
    expect([found.end, found.draws]).toEqual(['spent', 200]);
  });

  it('that could not be judged hold nothing, and are counted', () => {
    const found = drawAll({ ...ask, most: 64 }, (draw) =>
      draw.number % 2 === 0 ? judged(draw) : { holds: null, measures: [null, null] },
    ).sureness();
    expect(found.failed).toBe(32);
    expect(found.criteria[1]?.value).toBe(0.5);
  });

  it('come to the same whatever the order of telling and however many are asked for at a time', () => {
    const one = new MonteCarlo(ask);
    while (!one.done) {
      const batch = [one.ask(7), one.ask(3)].flat();
      for (const draw of batch.reverse()) one.tell(draw.number, judged(draw));
    }
    expect(one.sureness()).toEqual(drawAll(ask, judged).sureness());
    expect(one.ask(5)).toEqual([]);
  });

  it('that were told before, or not asked for, are refused', () => {
    const draws = new MonteCarlo(ask);
    draws.ask(2);
    draws.tell(1, { holds: [true, true], measures: [] });
    expect(() => draws.tell(1, { holds: [true, true], measures: [] })).toThrow(/told before/);
    expect(() => draws.tell(2, { holds: [true, true], measures: [] })).toThrow(/not asked for/);
    expect(() => draws.tell(0, { holds: [true], measures: [] })).toThrow(/1 criteria were told/);
  });

  it('of nothing uncertain are one', () => {
    const found = drawAll({ ...ask, uncertain: [] }, judged).sureness();
    expect([found.draws, found.end]).toEqual([1, 'narrow']);
  });

  it('of the plan for indices begin with those of the Monte Carlo of the same seed', () => {
    const plan = indexDraws(uncertain, { rows: 4, seed: 5 });
    const draws = new MonteCarlo(ask);
    expect(plan.filter(({ number }) => number % 5 === 0).map(({ settings }) => settings)).toEqual(
      [0, 1, 2, 3].map((n) => draws.draw(n).settings),
    );
  });
});

describe('a band over the station', () => {
  const recording = crawl(read(smallTruck()), { stations: 20 });

  it('has the loads of a crossing at any stations, by straight lines between frames', () => {
    const stations = column(recording, 'station');
    const row = alongStations(recording, 'load', 0, stations);
    const loads = column(recording, 'load', 0);
    row.forEach((load, i) => {
      // where a crossing jumps, two frames share a station and the first one counts
      if (stations[i] !== stations[i - 1]) expect(load).toBeCloseTo(loads[i] as number, 3);
    });
    const [a = 0, b = 0] = [stations[3], stations[4]];
    const between = alongStations(recording, 'load', 0, [(a + b) / 2]);
    expect(between[0]).toBeCloseTo(((loads[3] as number) + (loads[4] as number)) / 2, 3);
  });

  it('is empty where the vehicle did not get', () => {
    const far = (column(recording, 'station').at(-1) ?? 0) + 1;
    expect(alongStations(recording, 'load', 0, [far])[0]).toBeNaN();
  });

  it('has percentiles of all draws that got there', () => {
    const rows = [1, 2, 3, 4, 5].map((load) => Float32Array.from([load, load < 3 ? Number.NaN : load]));
    const band = bandOf('front', rows);
    expect([...band.p50]).toEqual([3, 4]);
    expect([...band.count]).toEqual([5, 3]);
    expect(band.p5[0]).toBeCloseTo(1.2, 12);
  });
});
