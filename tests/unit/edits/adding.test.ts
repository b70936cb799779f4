import { describe, expect, test } from 'vitest';
import { appraise, crawl, layGround, loadScenario, standOn } from '../../../sim/index.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { addEntry } from '../../../src/edits/add.ts';
import { addCompound } from '../../../src/edits/compounds/add.ts';
import { compounds } from '../../../src/edits/compounds/registry.ts';
import { handlesOf } from '../../../src/edits/handles.ts';
import { startingLayouts } from '../../../src/edits/layouts/registry.ts';
import { entriesAt } from '../../../src/edits/lists.ts';
import { removeEntry } from '../../../src/edits/remove.ts';
import { kindsFor } from '../../../src/edits/sample.ts';
import { smallTruck } from '../small-truck.ts';
import { shipped } from './shipped.ts';

/** The scenario, or the test ends with what is wrong. */
function read(document: Json) {
  const scenario = loadScenario(document);
  if (!scenario.ok) throw new Error(JSON.stringify(scenario.problems, null, 1));
  expect(scenario.problems).toEqual([]);
  return scenario.value;
}

/** Loads of all axle lines when standing, N. */
function loadsOf(document: Json): readonly number[] {
  const stand = standOn(read(document));
  if (stand.kind !== 'stands') throw new Error(stand.kind);
  return [...stand.standing.loads];
}

const last = (document: Json, list: string) => entriesAt(document, ['vehicle', list]).at(-1)?.value;

describe('Starting layouts', () => {
  const sizes = (usual: (typeof startingLayouts)[number]['usual']) => [
    usual,
    { ...usual, wheelbase: 1.3 * usual.wheelbase, mass: 2 * usual.mass },
    // Full size: lengths by 16, masses by 16³, as a scale model has them.
    {
      ...usual,
      wheelRadius: 16 * usual.wheelRadius,
      wheelbase: 16 * usual.wheelbase,
      mass: 16 ** 3 * usual.mass,
    },
  ];

  for (const layout of startingLayouts)
    test(`${layout.title} reads without a word, stands on all wheels and crosses its step in a crawl`, () => {
      for (const size of sizes(layout.usual)) {
        const document = layout.make(size);
        const loads = loadsOf(document);
        const mean = loads.reduce((sum, load) => sum + load, 0) / loads.length;
        // Figures are written with two or three digits, so axles that are meant to carry alike do so within a fifth.
        for (const load of loads) expect(Math.abs(load / mean - 1)).toBeLessThan(0.2);
        // All of the mass that was asked for is there, to the digits that it is written with.
        expect((mean * loads.length) / 9.80665 / size.mass).toBeCloseTo(1, 1);
        const scenario = read(document);
        const run = crawl(scenario, { stations: 120 });
        expect(run.end.kind).toBe('arrived');
        expect(appraise(scenario, run).verdicts.find(({ kind }) => kind === 'reaches')?.pass).toBe(true);
        expect(layGround(scenario).pieces.map(({ kind }) => kind)).toEqual(['flat', 'step']);
      }
    });
});

describe('Compounds', () => {
  test('each can be added to a truck; it brings member, wheels and masses in one edit, and the truck still stands', () => {
    // On springs every axle finds its load; a stiff frame may well lift one, as a real one would.
    for (const layout of startingLayouts.filter(({ id }) => id === '4x4' || id === '6x6'))
      for (const compound of compounds) {
        const before = layout.make(layout.usual);
        const edit = addCompound(before, compound.id);
        expect(edit.remarks, `${layout.id} ${compound.id}`).toEqual([]);
        const more = (list: string) =>
          entriesAt(edit.document, ['vehicle', list]).length - entriesAt(before, ['vehicle', list]).length;
        expect(more('wheels')).toBe(compound.axles);
        expect(more('members')).toBeGreaterThan(0);
        expect(more('masses')).toBeGreaterThan(0);
        expect(Math.min(...loadsOf(edit.document))).toBeGreaterThan(0);
      }
  });

  test('two of a kind have names of their own', () => {
    const [, four] = startingLayouts;
    const once = addCompound(four.make(four.usual), 'bogie', { x: -0.6, z: 0.06 }).document;
    const twice = addCompound(once, 'bogie', { x: -1, z: 0.06 });
    expect(twice.remarks.filter(({ message }) => message.includes('called already'))).toEqual([]);
    expect(entriesAt(twice.document, ['vehicle', 'members']).map(({ value }) => value.name)).toEqual([
      'front-axle',
      'rear-axle',
      'rear-bogie',
      'rear 2-bogie',
    ]);
  });

  test('springs join those that the ride height sets, and wheels the sharing tree', () => {
    const document = smallTruck();
    document.vehicle.rideHeight = { setBy: ['front springs'] };
    delete document.vehicle.elements[0].preload;
    document.vehicle.drive.sharing = { open: ['front', 'middle', 'rear'] };
    const after = addCompound(document, 'torsion-arm').document as typeof document;
    expect(after.vehicle.rideHeight.setBy).toEqual(['front springs', 'rear 2 torsion bars']);
    expect(after.vehicle.drive.sharing.open).toHaveLength(4);
    read(after);
  });

  test('what is not known is declined in words', () => {
    expect(addCompound(smallTruck(), 'sleigh').remarks[0]?.message).toBe(
      "there is nothing called 'sleigh' to add",
    );
  });
});

describe('Adding an entry', () => {
  test('every kind of member and element leaves a truck that has a place for it readable', () => {
    // The shipped six-wheeler has a guide and arms that turn: something for everything to act on.
    const corrie = shipped('corrie-6x6');
    for (const list of ['members', 'elements'])
      for (const { kind } of kindsFor(['vehicle', list])) {
        const edit = addEntry(corrie, ['vehicle', list], kind);
        expect(
          edit.remarks.filter(({ severity }) => severity === 'error'),
          kind,
        ).toEqual([]);
        expect(loadScenario(edit.document).ok, kind).toBe(true);
        expect(last(edit.document, list)?.kind).toBe(kind);
      }
  });

  test('so do ground, criteria, wheels, masses, outlines, pulls, winches, steerings and a first motor', () => {
    const corrie = shipped('corrie-6x6');
    const lists = [
      ...kindsFor(['ground']).map(({ kind }) => [['ground'], kind] as const),
      ...kindsFor(['criteria']).map(({ kind }) => [['criteria'], kind] as const),
      [['vehicle', 'wheels'], undefined],
      [['vehicle', 'masses'], undefined],
      [['vehicle', 'bodywork', 'outlines'], undefined],
      [['run', 'pulls'], undefined],
      [['vehicle', 'winches'], undefined],
      [['vehicle', 'steering'], undefined],
      [['vehicle', 'driveline', 'parts'], 'motor'],
    ] as const;
    for (const [list, kind] of lists) {
      const edit = addEntry(corrie, list, kind);
      expect(
        edit.remarks.filter(({ severity }) => severity === 'error'),
        `${list.join('.')} ${kind}`,
      ).toEqual([]);
    }
  });

  test('a hinge hangs on a free end, a wheel sits on it, and both are found by a place near by', () => {
    const corrie = shipped('corrie-6x6');
    const bare = removeEntry(corrie, ['vehicle', 'members', 4]).document;
    const housing = addEntry(bare, ['vehicle', 'members'], 'housing').document;
    expect(last(housing, 'members')).toMatchObject({ on: 'rear-arm', pivot: { x: '-395 mm', z: '55 mm' } });
    const wheel = addEntry(bare, ['vehicle', 'wheels'], undefined, { x: -0.4, z: 0.05 }).document;
    expect(last(wheel, 'wheels')).toMatchObject({
      name: 'wheel',
      on: 'rear-arm',
      at: { x: '-395 mm', z: '55 mm' },
      radius: '55 mm',
    });
  });

  test('a spring finds the member that has none; one between two points finds a turning one', () => {
    const document = smallTruck();
    document.vehicle.elements = [];
    expect(last(addEntry(document, ['vehicle', 'elements'], 'leaf-spring').document, 'elements')?.on).toEqual(
      {
        member: 'front-axle',
      },
    );
    const near = addEntry(document, ['vehicle', 'elements'], 'torsion-bar', { x: -0.2, z: 0.05 });
    expect(last(near.document, 'elements')?.on).toEqual({ member: 'bogie' });
  });

  test('figures of the samples grow with the vehicle', () => {
    const spring = (document: Json) =>
      last(addEntry(document, ['vehicle', 'elements'], 'linear-spring').document, 'elements');
    // The sample spring is drawn for 6 kg on 55 mm wheels: 1200 N/m and 12 N.
    expect(spring(shipped('corrie-6x6'))).toMatchObject({ rate: '1.2 N/mm', preload: '12 N' });
    const [, four] = startingLayouts;
    const twice = four.make({ wheelRadius: 0.11, wheelbase: 0.6, mass: 48 });
    // Twice as long and eight times as heavy: forces by 8, rates by 8/2 = 4.
    expect(spring(twice)).toMatchObject({ rate: '4.8 N/mm', preload: '96 N' });
  });

  test('a new part can be taken hold of where it was put', () => {
    const corrie = shipped('corrie-6x6');
    const edit = addEntry(corrie, ['vehicle', 'members'], 'bogie-beam', { x: -0.7, z: 0.09 });
    const entry = edit.select ?? [];
    expect(valueAt(edit.document, [...entry, 'pivot'])).toEqual({ x: '-700 mm', z: '90 mm' });
    expect(handlesOf(edit.document).filter((handle) => handle.entry.join() === entry.join())).toHaveLength(3);
  });

  test('lists and kinds that are not there are declined in words', () => {
    const document = smallTruck();
    expect(addEntry(document, ['vehicle', 'wings']).remarks[0]?.message).toBe(
      'is no list that takes entries',
    );
    expect(addEntry(document, ['vehicle', 'members'], 'wing').remarks[0]?.message).toBe(
      "there is no kind called 'wing'",
    );
  });
});
