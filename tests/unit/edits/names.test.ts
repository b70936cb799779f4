import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import type { Path } from '../../../shared/path.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { renameEntry, setValue } from '../../../src/edits/change.ts';
import { duplicateEntry } from '../../../src/edits/duplicate.ts';
import { entriesAt, entryLists } from '../../../src/edits/lists.ts';
import { mirrorEntry, otherEnd } from '../../../src/edits/mirror.ts';
import { freeName } from '../../../src/edits/names.ts';
import { fieldOf, innerNames, referencesOf } from '../../../src/edits/references.ts';
import { removeEntry } from '../../../src/edits/remove.ts';
import { smallTruck } from '../small-truck.ts';
import { documents, shipped } from './shipped.ts';

/** The small truck with a name in every field that takes one. */
function namedTruck() {
  const document = smallTruck();
  const { vehicle } = document;
  vehicle.drive.driven = ['front', 'middle', 'rear'];
  vehicle.drive.sharing = { open: ['front', { locked: ['middle', 'rear'] }] };
  vehicle.rideHeight = { setBy: ['front springs'] };
  vehicle.wheels[1].reaction = { train: 'bogie', ratio: 3, motorOn: 'bogie' };
  vehicle.wheels[2].reaction = 'bogie';
  vehicle.bodywork = {
    outlines: [
      {
        on: 'bogie',
        points: [
          { x: 0, z: 0 },
          { x: 1, z: 0 },
        ],
      },
    ],
  };
  document.run = { pulls: [{ name: 'rope', on: 'bogie', at: { x: 0, z: '0.1 m' }, force: '1 N' }] };
  document.criteria = [
    { kind: 'wheel-load', least: '20 %', wheels: ['middle'] },
    { kind: 'no-stop-hit', members: ['bogie', 'front-axle'] },
  ];
  return document;
}

const names = (document: Json, list: string) =>
  entriesAt(document, ['vehicle', list]).map(({ value }) => value.name);

interface Definition {
  readonly type: string;
  readonly [key: string]: unknown;
}

/** Every place of the schema that takes a name (nameOf: text of 1 to 60 characters), as paths with 0 for any index. */
function nameFields(schema: z.ZodType, path: Path, seen: ReadonlySet<z.ZodType>): readonly Path[] {
  if (seen.has(schema)) return [];
  const inner = new Set([...seen, schema]);
  const def = schema._zod.def as unknown as Definition;
  const into = (next: unknown, step?: string | number) =>
    nameFields(next as z.ZodType, step === undefined ? path : [...path, step], inner);
  if (def.type === 'string') {
    const { minLength, maxLength } = schema as unknown as {
      minLength: number | null;
      maxLength: number | null;
    };
    return minLength === 1 && maxLength === 60 ? [path] : [];
  }
  if (def.innerType !== undefined) return into(def.innerType);
  if (def.type === 'lazy') return into((def.getter as () => z.ZodType)());
  if (def.type === 'array') return into(def.element, 0);
  if (def.type === 'tuple') return (def.items as unknown[]).flatMap((item, i) => into(item, i));
  if (def.type === 'union') return (def.options as unknown[]).flatMap((option) => into(option));
  if (def.type === 'object')
    return Object.entries(def.shape as Record<string, z.ZodType>).flatMap(([key, field]) => into(field, key));
  return [];
}

describe('Fields that name another entry', () => {
  test('every field of the schema for a name is the own name of an entry or has its row', () => {
    const fields = nameFields(scenarioDocument, [], new Set());
    expect(fields.length).toBeGreaterThan(20);
    const unknown = fields
      .filter((path) => path.at(-1) !== 'name' && path.at(-1) !== 'title')
      .filter((path) => fieldOf(path) === undefined && !innerNames.includes(String(path.at(-1))))
      .map((path) => path.join('.'));
    expect(unknown).toEqual([]);
  });

  test('words that are no names are left alone', () => {
    const document = smallTruck();
    document.vehicle.drive.driven = 'all';
    document.vehicle.drive.sharing = 'locked';
    document.vehicle.wheels[0].name = 'all';
    document.vehicle.wheels[1].name = 'locked';
    const renamed = renameEntry(document, ['vehicle', 'wheels', 0], 'first').document;
    expect(valueAt(renamed, ['vehicle', 'drive', 'driven'])).toBe('all');
    expect(valueAt(renamed, ['vehicle', 'drive', 'sharing'])).toBe('locked');
  });
});

describe('Renaming', () => {
  test('every reference follows, and coming back gives the identical document', () => {
    const document = namedTruck();
    for (const { path: list, names: key } of entryLists.filter(({ path }) => path[0] === 'vehicle'))
      for (const { path, value } of entriesAt(document, list)) {
        if (key === undefined || typeof value.name !== 'string') continue;
        const there = renameEntry(document, path, 'quite another');
        const left = referencesOf(there.document).filter(({ name, to }) => {
          return name === value.name && (to === 'member') === (list[1] === 'members');
        });
        if (list[1] === 'members' || list[1] === 'wheels') expect(left, value.name).toEqual([]);
        expect(renameEntry(there.document, path, value.name).document).toEqual(document);
      }
    const bogie = renameEntry(document, ['vehicle', 'members', 1], 'beam').document as typeof document;
    expect(bogie.vehicle.wheels[1].reaction).toEqual({ train: 'beam', ratio: 3, motorOn: 'beam' });
    expect(bogie.vehicle.wheels[2].reaction).toBe('beam');
    expect(bogie.criteria[1].members).toEqual(['beam', 'front-axle']);
    expect(bogie.run.pulls[0].on).toBe('beam');
    expect(bogie.vehicle.bodywork.outlines[0].on).toBe('beam');
    const rear = renameEntry(document, ['vehicle', 'wheels', 2], 'last').document as typeof document;
    expect(rear.vehicle.drive.sharing).toEqual({ open: ['front', { locked: ['middle', 'last'] }] });
    expect(rear.vehicle.drive.driven).toEqual(['front', 'middle', 'last']);
  });

  test('a name that is taken gets a number, and a remark says so; setting the field does the same', () => {
    const document = smallTruck();
    for (const edit of [
      renameEntry(document, ['vehicle', 'wheels', 0], 'bogie'),
      setValue(document, ['vehicle', 'wheels', 0, 'name'], 'bogie'),
    ]) {
      expect(valueAt(edit.document, ['vehicle', 'wheels', 0, 'name'])).toBe('bogie 2');
      expect(edit.remarks.map(({ message }) => message)).toContain("is 'bogie 2', since 'bogie' is taken");
    }
    expect(
      valueAt(renameEntry(document, ['vehicle', 'members', 0], 'chassis').document, [
        'vehicle',
        'members',
        0,
        'name',
      ]),
    ).toBe('chassis 2');
    expect(renameEntry(document, ['vehicle', 'members', 0], '  ').document).toBe(document);
  });

  test('free names count on and stay within sixty characters', () => {
    expect(freeName('axle 2', new Set(['axle 2', 'axle 3']))).toBe('axle 4');
    const long = 'x'.repeat(60);
    expect(freeName(long, new Set([long]))).toHaveLength(60);
  });
});

describe('Removing', () => {
  test('what hangs on a member goes along, its names go from the drive, ride height and criteria', () => {
    const document = namedTruck();
    const edit = removeEntry(document, ['vehicle', 'members', 1]);
    const after = edit.document as typeof document;
    expect(edit.says).toBe('remove bogie');
    expect(names(after, 'members')).toEqual(['front-axle']);
    expect(names(after, 'wheels')).toEqual(['front']);
    expect(names(after, 'masses')).toEqual(['frame', 'axle']);
    expect(after.vehicle.drive.driven).toEqual(['front']);
    expect(after.vehicle.drive.sharing).toEqual({ open: ['front'] });
    expect(after.run).toEqual({});
    // The criterion about the middle wheel alone is about nothing now; the other one is about one member less.
    expect(after.criteria).toEqual([{ kind: 'no-stop-hit', members: ['front-axle'] }]);
    expect(edit.remarks[0]?.message).toMatch(
      /^with bogie went what hung on it: mass beam, wheel middle, wheel rear/,
    );
    const springless = removeEntry(document, ['vehicle', 'elements', 0]).document as typeof document;
    expect(springless.vehicle.rideHeight).toBeUndefined();
  });

  test('what a member carries can be left hanging on its parent', () => {
    const scree = shipped('scree-6');
    const after = removeEntry(scree, ['vehicle', 'members', 1], { leaveHanging: true }).document;
    expect(names(after, 'members')).toEqual(['rocker']);
    expect(entriesAt(after, ['vehicle', 'wheels']).map(({ value }) => value.on)).toEqual([
      'rocker',
      'rocker',
      'rocker',
    ]);
    const corrie = shipped('corrie-6x6');
    const housed = removeEntry(corrie, ['vehicle', 'members', 3], { leaveHanging: true }).document;
    expect(names(housed, 'members')).toContain('middle-rod');
    expect(valueAt(housed, ['vehicle', 'members', 4, 'to', 'on'])).toBe('middle-arm');
  });

  test('a part taken out of a drive line leaves what it turned to the part before it', () => {
    const document = smallTruck();
    document.vehicle.driveline = {
      parts: [
        { name: 'motor', kind: 'motor', stallTorque: '1 N m', noLoadSpeed: '900 rpm', axis: 'across' },
        { name: 'gears', kind: 'reduction', from: 'motor', mesh: 'spur', teeth: [12, 36], wheels: ['front'] },
        { name: 'shaft', kind: 'shaft', from: 'gears', wheels: ['middle', 'rear'] },
      ],
    };
    const after = removeEntry(document, ['vehicle', 'driveline', 'parts', 1]).document as typeof document;
    expect(after.vehicle.driveline.parts).toMatchObject([
      { name: 'motor', wheels: ['front'] },
      { name: 'shaft', from: 'motor', wheels: ['middle', 'rear'] },
    ]);
  });

  test('points of lines are removed one by one, and nothing else can be', () => {
    const corrie = shipped('corrie-6x6');
    const point: Path = ['vehicle', 'bodywork', 'outlines', 2, 'points', 1];
    const after = removeEntry(corrie, point);
    expect(after.says).toBe('remove point 2 of outline 3');
    expect(valueAt(after.document, point.slice(0, -1))).toHaveLength(5);
    expect(removeEntry(corrie, ['vehicle', 'bodywork', 'belly', 0]).says).toBe('remove point 1 of belly');
    expect(removeEntry(corrie, ['vehicle', 'reference']).document).toBe(corrie);
    expect(removeEntry(corrie, ['vehicle', 'members', 99]).document).toBe(corrie);
  });
});

describe('Duplicating', () => {
  test('an axle is doubled with wheel, springs and masses, under new names, where there is room', () => {
    const fell = shipped('fell-4x4');
    const edit = duplicateEntry(fell, ['vehicle', 'members', 1]);
    expect(names(edit.document, 'members')).toEqual(['front-axle', 'rear-axle', 'rear-axle 2']);
    expect(names(edit.document, 'wheels')).toEqual(['front', 'rear', 'rear 2']);
    expect(names(edit.document, 'elements').slice(4)).toEqual(['rear springs 2', 'rear dampers 2']);
    expect(names(edit.document, 'masses').at(-1)).toBe('rear axle beam 2');
    expect(edit.select).toEqual(['vehicle', 'members', 2]);
    expect(valueAt(edit.document, ['vehicle', 'wheels', 2, 'on'])).toBe('rear-axle 2');
    expect(valueAt(edit.document, ['vehicle', 'elements', 4, 'on', 'to', 'on'])).toBe('rear-axle 2');
    // 60 mm wheels: their hubs stand at least 1.15 diameters apart.
    expect(valueAt(edit.document, ['vehicle', 'wheels', 2, 'at', 'x'])).toBe('-428 mm');
    expect(edit.remarks.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('the drive and the ride height take the copies in', () => {
    const document = namedTruck();
    const twice = duplicateEntry(document, ['vehicle', 'members', 1]).document as typeof document;
    expect(twice.vehicle.drive.sharing).toEqual({
      open: ['front', { locked: ['middle', 'middle 2', 'rear', 'rear 2'] }],
    });
    expect(twice.vehicle.wheels[3].reaction).toEqual({ train: 'bogie 2', ratio: 3, motorOn: 'bogie 2' });
    const front = duplicateEntry(document, ['vehicle', 'members', 0]).document as typeof document;
    expect(front.vehicle.rideHeight.setBy).toEqual(['front springs', 'front springs 2']);
  });
});

describe('Mirroring', () => {
  test('words for the ends of a vehicle are swapped with their capitals', () => {
    expect(['front-axle', 'Rear springs', 'middle', 'FRONT', 'frontage'].map(otherEnd)).toEqual([
      'rear-axle',
      'Front springs',
      'middle',
      'REAR',
      'frontage',
    ]);
  });

  test('a front axle becomes a rear axle: points, names and references', () => {
    const fell = shipped('fell-4x4');
    const bare = removeEntry(fell, ['vehicle', 'members', 1]).document;
    const edit = mirrorEntry(bare, ['vehicle', 'members', 0], { about: -0.145 });
    // The shipped rear axle is the mirrored front one.
    expect(valueAt(edit.document, ['vehicle', 'members', 1])).toEqual(
      valueAt(fell, ['vehicle', 'members', 1]),
    );
    expect(valueAt(edit.document, ['vehicle', 'elements', 2])).toEqual(
      valueAt(fell, ['vehicle', 'elements', 2]),
    );
    expect(valueAt(edit.document, ['vehicle', 'wheels', 1])).toEqual(valueAt(fell, ['vehicle', 'wheels', 1]));
  });

  test('a beam keeps its front end ahead, its stops change sides; twice gives the beam again', () => {
    const document = smallTruck();
    document.vehicle.members[1] = {
      ...document.vehicle.members[1],
      pivot: { x: '-240 mm', z: '70 mm' },
      bump: '20 deg',
    };
    document.vehicle.elements.push({
      name: 'bar',
      kind: 'torsion-bar',
      on: { member: 'bogie' },
      rate: '1 N m/rad',
      preload: '0.1 N m',
    });
    const once = mirrorEntry(document, ['vehicle', 'members', 1], { about: 0, move: true });
    const after = once.document as typeof document;
    expect(after.vehicle.members[1]).toMatchObject({
      pivot: { x: '240 mm' },
      front: { x: '310 mm' },
      rear: { x: '190 mm' },
      droop: '20 deg',
    });
    expect(after.vehicle.members[1].bump).toBeUndefined();
    expect(after.vehicle.elements[1].preload).toBe('-0.1 N m');
    const twice = mirrorEntry(after, ['vehicle', 'members', 1], { about: 0, move: true }).document;
    expect(valueAt(twice, ['vehicle', 'members', 1])).toEqual(document.vehicle.members[1]);
    expect(valueAt(twice, ['vehicle', 'elements', 1])).toEqual(document.vehicle.elements[1]);
  });

  test('the belly line runs from rear to front again', () => {
    const corrie = shipped('corrie-6x6');
    const belly = mirrorEntry(corrie, ['vehicle', 'bodywork', 'belly', 0], { about: 0 }).document;
    expect(valueAt(belly, ['vehicle', 'bodywork', 'belly'])).toEqual([
      { x: '60 mm', z: '92 mm' },
      { x: '240 mm', z: '92 mm' },
    ]);
  });
});

test('no edit touches the document that it is given', () => {
  const frozen = (value: Json): Json => {
    if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
    return value;
  };
  for (const [, document] of documents) {
    const before = JSON.stringify(document);
    frozen(document);
    for (const { path: list } of entryLists)
      for (const { path } of entriesAt(document, list))
        for (const edit of [duplicateEntry, mirrorEntry, removeEntry]) edit(document, path);
    expect(JSON.stringify(document)).toBe(before);
  }
});
