import { describe, expect, it } from 'vitest';
import type { Path } from '../../../shared/path.ts';
import { compileChecked } from '../../../sim/mechanism/compile.ts';
import { putAt } from '../../../sim/scenario/path.ts';
import type { Scenario } from '../../../sim/scenario/schema.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { type StockKnob, shortages, stockKnob } from '../../../sim/stock/knob.ts';
import type { StockList } from '../../../sim/stock/registry.ts';
import type { Stock } from '../../../sim/stock/stock.ts';
import { stocked, truckFor } from './drawer.ts';

const element = (scenario: Scenario, name: string): Path => [
  'vehicle',
  'elements',
  scenario.vehicle.elements.findIndex((e) => e.name === name),
];
const part = (scenario: Scenario, name: string): Path => [
  'vehicle',
  'driveline',
  'parts',
  scenario.vehicle.driveline?.parts.findIndex((p) => p.name === name) ?? -1,
];

function knob(stock: Stock, list: StockList, places: readonly Path[], scenario: Scenario): StockKnob {
  const read = stockKnob(stock, list, places, scenario);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('; '));
  return read.value;
}

/** The scenario with an option of a knob taken. */
function taken(scenario: Scenario, { options }: StockKnob, label: string): Scenario {
  const option = options.find((o) => o.label === label);
  if (option === undefined) throw new Error(`no ${label} among ${options.map((o) => o.label).join(', ')}`);
  return option.puts.reduce<unknown>(
    (whole, { path, value }) => putAt(whole, path, value),
    scenario,
  ) as Scenario;
}

const scenario = truckFor();
const stock = stocked();
const refusal = (list: StockList, path: Path, from = stock) =>
  stockKnob(from, list, [path], scenario)
    .problems.map(({ message }) => message)
    .join('; ');

describe('a spring from stock', () => {
  it('takes rate and preload from its free length where the drawing tells its seats', () => {
    const at = element(scenario, 'strut');
    const { elements } = taken(scenario, knob(stock, 'springs', [at], scenario), 'soft').vehicle;
    // The seats are 40 mm apart and the spring is 60 mm long: free when drawn out by 20 mm, 0.8 · 20 = 16 N as drawn.
    expect(elements[at[2] as number]).toMatchObject({ rate: 800 });
    expect(elements[at[2] as number]).toHaveProperty('freeAt', expect.closeTo(-0.02, 12));
    expect(elements[at[2] as number]).not.toHaveProperty('preload');
  });

  it('keeps the preload, and says so, where the drawing does not tell them', () => {
    const at = element(scenario, 'front springs');
    const springs = knob(stock, 'springs', [at], scenario);
    expect(taken(scenario, springs, 'soft').vehicle.elements[at[2] as number]).toMatchObject({
      rate: 800,
      preload: 5,
    });
    expect(springs.options[0]?.notes[0]).toMatch(/preload stays/);
  });

  it('is left out where it is solid before the vehicle stands on it', () => {
    const labels = knob(stock, 'springs', [element(scenario, 'strut')], scenario).options.map(
      ({ label }) => label,
    );
    expect(labels).toEqual(['soft', 'middle', 'long wire']);
  });

  it('is left out where there are not enough: two are wanted in front, and one hard one is there', () => {
    const labels = knob(stock, 'springs', [element(scenario, 'front springs')], scenario).options.map(
      (o) => o.label,
    );
    expect(labels).toEqual(['soft', 'middle', 'long wire']);
  });

  it('carries the spread of its rate', () => {
    const [soft] = knob(stock, 'springs', [element(scenario, 'strut')], scenario).options;
    expect(soft?.puts.find(({ path }) => path.at(-1) === 'rate')?.written).toBe('0.8 N/mm ± 5 %');
  });

  it('gives its solid length to the strength figures of the spring, and takes out the wire before it', () => {
    const strong = truckFor((truck) => {
      truck.vehicle.strength = {
        parts: [
          {
            kind: 'coil',
            element: 'strut',
            material: 'music-wire',
            wire: { diameter: '1 mm', coilDiameter: '9 mm' },
          },
        ],
      };
    });
    const after = taken(strong, knob(stock, 'springs', [element(strong, 'strut')], strong), 'soft');
    expect(after.vehicle.strength?.parts[0]).toMatchObject({ freeLength: 0.06, solidLength: 0.025 });
    expect(after.vehicle.strength?.parts[0]).not.toHaveProperty('wire');
  });
});

describe('a torsion bar from stock', () => {
  const at = element(scenario, 'tail bars');
  const bars = knob(stock, 'bars', [at], scenario);

  it('is a choice for each of its lengths, with section and shear modulus of its material', () => {
    expect(bars.options.map(({ label }) => label)).toEqual(['rod 2, 80 mm', 'rod 2, 96 mm', 'measured']);
    const after = taken(scenario, bars, 'rod 2, 96 mm').vehicle.elements[at[2] as number];
    expect(after).toMatchObject({
      bar: { length: 0.096, shearModulus: 78.5e9, section: { shape: 'round', diameter: 0.002 } },
      preload: 0.1,
    });
    expect(after).not.toHaveProperty('rate');
  });

  it('may be one of which only the rate is known', () => {
    expect(taken(scenario, bars, 'measured').vehicle.elements[at[2] as number]).toMatchObject({ rate: 1.2 });
  });
});

describe('parts of the drive line from stock', () => {
  it('make a stage of any two gears that there are, the rating at its output', () => {
    const at = part(scenario, 'stage');
    const gears = knob(stock, 'gears', [at], scenario);
    // 12 with 12 and 20 with 20 have two of a kind; 36 with 36 has one.
    expect(gears.options).toHaveLength(8);
    const after = taken(scenario, gears, 'g12 driving g36').vehicle.driveline?.parts[at[3] as number];
    // 0.3 N·m on the driving gear is 0.9 N·m on the driven one, which carries 0.8 N·m.
    expect(after).toMatchObject({ teeth: [12, 36], rating: 0.8 });
    expect(gears.now).toBeNull();
  });

  it('know today when the scenario has it already', () => {
    const same = truckFor((truck) => {
      truck.vehicle.driveline.parts[1].rating = '0.8 N m';
    });
    const gears = knob(stock, 'gears', [part(same, 'stage')], same);
    expect(gears.options[gears.now ?? -1]?.label).toBe('g12 driving g36');
  });

  it('do not mesh across modules, nor in a bevel stage', () => {
    const modules = stocked((s) => {
      s.gears[0].module = '1 mm';
      s.gears[1].module = '1.5 mm';
    });
    const labels = knob(modules, 'gears', [part(scenario, 'stage')], scenario).options.map(
      ({ label }) => label,
    );
    expect(labels).not.toContain('g12 driving g20');
    expect(labels).toContain('g12 driving g36');
    expect(refusal('gears', part(scenario, 'bevel'))).toMatch(/none of the gears in stock fits/);
  });

  it('fill in joints, and take out the table that belonged to the one before', () => {
    const at = part(scenario, 'cross');
    const after = taken(scenario, knob(stock, 'joints', [at], scenario), 'uj').vehicle.driveline?.parts[
      at[3] as number
    ];
    expect(after).toMatchObject({ rating: 0.5, mostAngle: Math.PI / 6, angle: expect.anything() });
    expect(after).not.toHaveProperty('ratingAtAngle');
  });

  it('fill in motors, with their mass where the part has one', () => {
    const at = part(scenario, 'motor');
    const after = taken(scenario, knob(stock, 'motors', [at], scenario), 'big').vehicle.driveline?.parts[
      at[3] as number
    ];
    expect(after).toMatchObject({ stallTorque: 0.2, mass: 0.09 });
  });
});

describe('wheels from stock', () => {
  it('fill in radius, mass and tyre, and keep what is not known', () => {
    const at: Path = ['vehicle', 'wheels', 0];
    const wheels = knob(stock, 'wheels', [at], scenario);
    expect(taken(scenario, wheels, 'balloon').vehicle.wheels[0]).toMatchObject({
      radius: 0.06,
      massPerWheel: 0.15,
      tyre: { stiffnessPerWheel: 3000, loadPerWheel: 8, grip: 0.8 },
    });
    expect(taken(scenario, wheels, 'bare').vehicle.wheels[0]).toMatchObject({
      radius: 0.04,
      massPerWheel: 0.1,
    });
    expect(wheels.options[1]?.notes).toHaveLength(2);
  });

  it('fill several places alike, and are counted for all of them', () => {
    const all: Path[] = [0, 1, 2].map((i) => ['vehicle', 'wheels', i]);
    const wheels = knob(stock, 'wheels', all, scenario);
    expect(wheels.options.map(({ label }) => label)).toEqual(['balloon']);
    expect(wheels.options[0]?.takes).toEqual([{ item: 'balloon', count: 6 }]);
  });
});

describe('every option', () => {
  it.each([
    ['springs', element(scenario, 'strut')],
    ['springs', element(scenario, 'front springs')],
    ['bars', element(scenario, 'tail bars')],
    ['dampers', element(scenario, 'dampers')],
    ['gears', part(scenario, 'stage')],
    ['joints', part(scenario, 'cross')],
    ['motors', part(scenario, 'motor')],
    ['wheels', ['vehicle', 'wheels', 1]],
  ] as const)('of %s at %j leaves a document that reads and a vehicle that compiles', (list, path) => {
    const { options } = knob(stock, list, [path], scenario);
    expect(options.length).toBeGreaterThan(0);
    for (const option of options) {
      const after = taken(scenario, { options } as never, option.label);
      const read = scenarioDocument.safeParse(JSON.parse(JSON.stringify(after)));
      expect(read.success, option.label).toBe(true);
      expect(compileChecked(after).ok, option.label).toBe(true);
    }
  });
});

describe('knobs together', () => {
  it('never take more than there are', () => {
    const knobs = ['strut', 'front springs'].map((name) =>
      knob(stock, 'springs', [element(scenario, name)], scenario),
    );
    const pick = (k: number, label: string) => knobs[k]?.options.findIndex((o) => o.label === label) ?? -1;
    expect(shortages(stock, knobs, [pick(0, 'soft'), pick(1, 'soft')])).toEqual([]);
    expect(shortages(stock, knobs, [pick(0, 'middle'), pick(1, 'middle')])).toEqual([
      { item: 'middle', wanted: 3, there: 2 },
    ]);
  });
});

describe('a place', () => {
  it('takes nothing from a list of other parts', () => {
    expect(refusal('springs', element(scenario, 'tail bars'))).toMatch(/'tail bars' is no linear spring/);
    expect(refusal('bars', element(scenario, 'strut'))).toMatch(/no torsion bar/);
    expect(refusal('gears', part(scenario, 'motor'))).toMatch(/no reduction/);
    expect(refusal('wheels', ['vehicle', 'elements', 0])).toMatch(/no axle line/);
    expect(refusal('motors', ['vehicle', 'elements', 77])).toMatch(/no part is no electric motor/);
  });

  it('has nothing to choose from in an empty list, or with too few of all', () => {
    expect(
      refusal(
        'dampers',
        element(scenario, 'dampers'),
        stocked((s) => {
          s.dampers = [];
        }),
      ),
    ).toMatch(/the stock has no dampers/);
    expect(
      refusal(
        'dampers',
        element(scenario, 'dampers'),
        stocked((s) => {
          s.dampers[0].count = 1;
        }),
      ),
    ).toMatch(
      /not enough of any damper for the damper 'dampers': it takes 2 of 'thin oil', of which there is 1/,
    );
  });
});
