import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Path } from '../../../shared/path.ts';
import { readScenario } from '../../../sim/scenario/read.ts';
import { isObject, type Json, valueAt } from '../../../src/documents/json.ts';
import { addEntry } from '../../../src/edits/add.ts';
import { renameEntry, setValue } from '../../../src/edits/change.ts';
import { addCompound } from '../../../src/edits/compounds/add.ts';
import { compounds } from '../../../src/edits/compounds/registry.ts';
import { duplicateEntry } from '../../../src/edits/duplicate.ts';
import type { Edit } from '../../../src/edits/edit.ts';
import {
  addGroundPoint,
  asPoints,
  chainObstacles,
  drawGround,
  groundPointsOf,
  moveGroundPoint,
  reorderEntry,
} from '../../../src/edits/ground.ts';
import { handlesOf } from '../../../src/edits/handles.ts';
import { entriesAt, entryLists } from '../../../src/edits/lists.ts';
import { mirrorEntry } from '../../../src/edits/mirror.ts';
import { moveEntry, movePoint, turnAngle } from '../../../src/edits/move.ts';
import { removeEntry } from '../../../src/edits/remove.ts';
import { kindsFor } from '../../../src/edits/sample.ts';
import { documents } from '../../unit/edits/shipped.ts';

const anyDocument = fc.constantFrom(...documents).map(([, document]) => document);
const lists = entryLists.map(({ path }) => path as Path);
const anyList = fc.constantFrom(...lists);
/** A share of a list or of a vehicle: chooses one without knowing how many there are. */
const share = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
/** Metres in steps of 0.01 mm, within a few lengths of a model. */
const millimetres = fc.integer({ min: -60_000, max: 60_000 }).map((steps) => steps / 100_000);
const place = fc.record({ x: millimetres, z: millimetres });
const pick = <T>(items: readonly T[], at: number): T | undefined => items[Math.floor(at * items.length)];

/** One entry of any list of a document. */
const entryAt = (document: Json, list: Path, at: number): Path =>
  pick(entriesAt(document, list), at)?.path ?? [...list, 0];

const step = fc.record({
  what: fc.constantFrom(
    'move',
    'move alone',
    'hold rods',
    'move entry',
    'turn',
    'set',
    'clear',
    'add',
    'compound',
    'duplicate',
    'mirror',
    'turn round',
    'remove',
    'leave hanging',
    'rename',
    'ground',
    'order',
  ),
  list: anyList,
  at: share,
  other: share,
  to: place,
  name: fc.constantFrom('front', 'rear', 'chassis', 'Ünïcode', 'x', ''),
});

type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

function onHandle(document: Json, { what, at, to }: Step): Edit | undefined {
  const handles = handlesOf(document);
  const point = pick(
    handles.filter(({ kind }) => kind === 'point'),
    at,
  );
  if (what === 'turn') {
    const angle = pick(
      handles.filter(({ kind }) => kind === 'angle'),
      at,
    );
    return angle && turnAngle(document, angle.path, to.x * 4);
  }
  return (
    point &&
    movePoint(document, point.path, to, { alone: what === 'move alone', holdRods: what === 'hold rods' })
  );
}

function onGround(document: Json, { at, other, to }: Step): Edit {
  const piece = entryAt(document, ['ground'], at);
  const point = pick(groundPointsOf(document), other);
  const line = [0, 1, 2, 3].map((i) => ({ x: i * Math.abs(to.x), z: (i % 2) * to.z }));
  const obstacle = pick(kindsFor(['ground']), other)?.kind ?? 'step';
  const ways = [
    () => asPoints(document, piece),
    () => addGroundPoint(document, piece, to),
    () => moveGroundPoint(document, point?.path ?? [], to),
    () => drawGround(document, line),
    () => chainObstacles(document, [{ kind: obstacle }]),
  ];
  return (pick(ways, at) ?? (() => asPoints(document, piece)))();
}

/** Does one step; undefined when the document has nothing to do it to. */
function done(document: Json, asked: Step): Edit | undefined {
  const { what, list, at, other, to, name } = asked;
  const entry = entryAt(document, list, at);
  const ways: Readonly<Record<string, () => Edit | undefined>> = {
    'move entry': () => moveEntry(document, entry, to),
    set: () => setValue(document, [...entry, 'kind'], name),
    clear: () => setValue(document, [...entry, 'on'], undefined),
    add: () => addEntry(document, list, pick(kindsFor(list), other)?.kind, other < 0.5 ? to : undefined),
    compound: () => addCompound(document, pick(compounds, at)?.id ?? '', other < 0.5 ? to : undefined),
    duplicate: () => duplicateEntry(document, entry),
    mirror: () => mirrorEntry(document, entry),
    'turn round': () => mirrorEntry(document, entry, { about: to.x, move: true }),
    remove: () => removeEntry(document, entry),
    'leave hanging': () => removeEntry(document, entry, { leaveHanging: true }),
    rename: () => renameEntry(document, entry, name),
    ground: () => onGround(document, asked),
    order: () => reorderEntry(document, entry, Math.floor(other * 4)),
  };
  return (ways[what] ?? (() => onHandle(document, asked)))();
}

/** Two hundred edits of a sound document grow it at random; the sizes stay bounded by leaving out what grows too large. */
const small = (document: Json): boolean => lists.every((list) => entriesAt(document, list).length <= 20);

test('two hundred edits of any kind leave a document that is sound JSON, and nothing is ever thrown', () => {
  fc.assert(
    fc.property(
      anyDocument,
      fc.array(step, { minLength: 200, maxLength: 200, size: 'max' }),
      (document, steps) => {
        let now = document;
        for (const asked of steps) {
          const edit = done(now, asked);
          if (edit !== undefined && small(edit.document)) now = edit.document;
          expect(edit?.says).not.toBe('');
        }
        expect(JSON.parse(JSON.stringify(now))).toEqual(now);
        expect(isObject(now)).toBe(true);
        // The reader takes whatever came of it: with problems perhaps, but in words.
        const read = readScenario(now, { file: () => undefined });
        expect(read.ok || read.problems.length > 0).toBe(true);
      },
    ),
    { numRuns: 6 },
  );
}, 120_000);

test('a sequence of edits with their remarks is never refused in silence', () => {
  fc.assert(
    fc.property(anyDocument, fc.array(step, { minLength: 8, maxLength: 8 }), (document, steps) => {
      let now = document;
      for (const asked of steps) {
        const edit = done(now, asked);
        if (edit === undefined) continue;
        const declinedIt = edit.document === now && edit.remarks.length === 0;
        // Nothing happened and nothing was said: only where the document was so already.
        if (declinedIt)
          expect(['move', 'turn', 'set', 'clear', 'rename', 'mirror']).toContain(edit.says.split(' ')[0]);
        if (small(edit.document)) now = edit.document;
      }
    }),
    { numRuns: 20 },
  );
}, 120_000);

test('a point moved there and back gives the identical document', () => {
  fc.assert(
    fc.property(anyDocument, share, place, fc.boolean(), (document, at, to, alone) => {
      const handle = pick(
        handlesOf(document).filter(({ kind }) => kind === 'point'),
        at,
      );
      if (handle === undefined) return;
      // A point that lands on another one is tied to it and may take it along back: then it is no way back.
      const free = handlesOf(document).every(
        (other) => other === handle || Math.hypot(other.at.x - to.x, other.at.z - to.z) > 0.02,
      );
      fc.pre(free);
      const there = movePoint(document, handle.path, to, { alone });
      expect(movePoint(there.document, handle.path, handle.at, { alone }).document).toEqual(document);
    }),
    { numRuns: 150 },
  );
});

test('an entry that was added and removed gives the identical document', () => {
  fc.assert(
    fc.property(
      anyDocument,
      anyList,
      share,
      fc.option(place, { nil: undefined }),
      (document, list, at, to) => {
        const made = addEntry(document, list, pick(kindsFor(list), at)?.kind, to);
        expect(made.select).toBeDefined();
        expect(made.document).not.toEqual(document);
        const removed = removeEntry(made.document, made.select ?? []).document;
        // Lists that were not there leave the objects that hold them behind: "bodywork": {}.
        expect(withoutEmpty(removed)).toEqual(withoutEmpty(document));
      },
    ),
    { numRuns: 150 },
  );
});

/** A document without empty objects inside the vehicle: they say nothing. */
function withoutEmpty(document: Json): Json {
  const vehicle = valueAt(document, ['vehicle']);
  if (!isObject(document) || !isObject(vehicle)) return document;
  const kept = Object.entries(vehicle).filter(
    ([, value]) => !isObject(value) || Object.keys(value).length > 0,
  );
  return { ...document, vehicle: Object.fromEntries(kept) };
}

test('a name given and taken back gives the identical document', () => {
  fc.assert(
    fc.property(anyDocument, anyList, share, (document, list, at) => {
      const entry = pick(entriesAt(document, list), at);
      if (entry === undefined || typeof entry.value.name !== 'string') return;
      const there = renameEntry(document, entry.path, 'a name that nothing has');
      expect(there.document).not.toEqual(document);
      expect(renameEntry(there.document, entry.path, entry.value.name).document).toEqual(document);
    }),
    { numRuns: 150 },
  );
});

test('an entry turned round twice about one mirror is as it was', () => {
  fc.assert(
    fc.property(anyDocument, share, millimetres, (document, at, about) => {
      const entry = pick(entriesAt(document, ['vehicle', 'members']), at);
      if (entry === undefined || entry.value.kind === 'rod') return;
      const once = mirrorEntry(document, entry.path, { about, move: true }).document;
      expect(mirrorEntry(once, entry.path, { about, move: true }).document).toEqual(document);
    }),
    { numRuns: 60 },
  );
});
