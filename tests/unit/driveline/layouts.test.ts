/*
 * The starting layouts of drive lines, each on a six-wheeler: they read without a word, reach every axle line with the
 * reduction that was asked for, and drive the vehicle over its step.
 * Seen red: a hub reduction left out of the whole ratio; a beam train on a vehicle without a beam.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { driveLayouts, startingFigures } from '../../../sim/driveline/layouts.ts';
import { wayUp } from '../../../sim/driveline/linear.ts';
import { compile, crawl, loadScenario, type Scenario } from '../../../sim/index.ts';
import { smallTruck } from '../small-truck.ts';

function read(document: unknown): Scenario {
  const found = loadScenario(document);
  if (!found.ok) throw new Error(JSON.stringify(found.problems, null, 2));
  expect(found.problems).toEqual([]);
  return found.value;
}

const bare = () => {
  const document = smallTruck();
  delete document.vehicle.drive.torquePerWheel;
  return document;
};
const truck = () => {
  const document = smallTruck();
  return read(document).vehicle;
};

describe.each(driveLayouts.map((layout) => [layout.kind, layout] as const))(
  'the layout %s',
  (kind, layout) => {
    const motors = kind === 'motor-per-axle' || kind === 'beam-train' ? (kind === 'beam-train' ? 2 : 3) : 1;
    const figures = startingFigures(truck(), motors);
    const document = bare();
    document.vehicle.driveline = layout.build(truck(), figures);
    const scenario = read(document);
    const { driveline, wheels } = compile(scenario);

    it('drives every axle line with the whole reduction that was asked for', () => {
      expect(wheels.every((wheel) => wheel.driven)).toBe(true);
      figures.lines.forEach(({ wheel, ratio }) => {
        const way = driveline ? wayUp(driveline, driveline.lastPart[wheel] ?? -1) : [];
        expect(way.reduce((whole, part) => whole * part.law.ratio, 1)).toBeCloseTo(ratio, 9);
        expect(way.at(-1)?.sort).toBe('motor');
      });
    });

    it('has as many motors as it says', () => {
      expect(driveline?.parts.filter((part) => part.sort === 'motor')).toHaveLength(motors);
    });

    it('climbs the step that the truck is drawn before', () => {
      expect(crawl(scenario, { stations: 120 }).end.kind).toBe('arrived');
    });
  },
);

it('a gear train in a beam needs a beam', () => {
  const vehicle = truck();
  const without = { ...vehicle, members: vehicle.members.filter((m) => m.kind !== 'bogie-beam') };
  const train = driveLayouts.find(({ kind }) => kind === 'beam-train');
  expect(train?.build(without, startingFigures(vehicle))).toBeUndefined();
});

describe.each(['corrie-6x6', 'tarn-8x8', 'fell-4x4'])('on the shipped vehicle of %s', (name) => {
  const file = new URL(`../../../scenarios/${name}.json`, import.meta.url);
  const document = JSON.parse(readFileSync(file, 'utf8'));
  const { vehicle } = read(document);
  it.each(driveLayouts.map((layout) => [layout.kind, layout] as const))(
    'the layout %s reads without a word and drives every axle line, or has no place',
    (kind, layout) => {
      const built = layout.build(vehicle, startingFigures(vehicle));
      expect(built === undefined).toBe(kind === 'beam-train' && name !== 'tarn-8x8');
      if (built === undefined) return;
      const { torquePerWheel: _torque, ...drive } = document.vehicle.drive;
      const scenario = read({ ...document, vehicle: { ...document.vehicle, drive, driveline: built } });
      expect(compile(scenario).wheels.every((wheel) => wheel.driven)).toBe(true);
    },
  );
});
