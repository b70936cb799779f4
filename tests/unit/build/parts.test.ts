import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { pathText } from '../../../shared/path.ts';
import { linesOf, type Part, partsOf, titleOf, wayTo } from '../../../src/build/parts.ts';
import type { Json } from '../../../src/documents/json.ts';
import { addEntry } from '../../../src/edits/add.ts';
import { entriesAt, entryLists } from '../../../src/edits/lists.ts';

const at = { x: 0, z: 0 };

const truck: Json = {
  vehicle: {
    members: [
      { name: 'arm', kind: 'arm', pivot: at, end: at },
      { name: 'hub', kind: 'housing', on: 'arm', pivot: at },
      { name: 'rod', kind: 'rod', from: { on: 'chassis', ...at }, to: { on: 'hub', ...at } },
      { name: 'lost', kind: 'arm', on: 'nowhere', pivot: at, end: at },
    ],
    wheels: [{ name: 'rear', on: 'hub', at }],
    elements: [{ name: 'bar', kind: 'torsion-bar', on: { member: 'arm' } }],
    masses: [{ name: 'frame', mass: 1, at }],
    bodywork: { outlines: [{ points: [at, at] }] },
    drive: { speed: 1 },
  },
  ground: [{ kind: 'flat', length: 1 }],
  criteria: [],
};

const named = (parts: readonly Part[], title: string): Part => {
  const line = linesOf(parts, new Set()).find(({ part }) => part.title === title);
  if (line === undefined) throw new Error(`there is no ${title}`);
  return line.part;
};
const titles = ({ children }: Part): string[] => children.map(({ title }) => title);

describe('the parts of a document', () => {
  const parts = partsOf(truck);

  it('hang on each other as on the vehicle', () => {
    expect(titles(named(parts, 'Chassis'))).toEqual(['arm', 'frame', 'Outline 1']);
    expect(titles(named(parts, 'arm'))).toEqual(['hub', 'bar']);
    // A rod between chassis and housing belongs to what moves.
    expect(titles(named(parts, 'hub'))).toEqual(['rod', 'rear']);
  });

  it('are listed apart when what they hang on does not exist', () => {
    expect(titles(named(parts, 'Hangs on nothing'))).toEqual(['lost']);
  });

  it('are each told once, also when members hang on each other in a ring', () => {
    const ring: Json = {
      vehicle: {
        members: [
          { name: 'a', kind: 'arm', on: 'b', pivot: at, end: at },
          { name: 'b', kind: 'arm', on: 'a', pivot: at, end: at },
        ],
      },
    };
    const lines = linesOf(partsOf(ring), new Set()).map(({ part }) => part.title);
    expect(lines.filter((title) => title === 'a')).toHaveLength(1);
    expect(lines.filter((title) => title === 'b')).toHaveLength(1);
  });

  it('have lines with level and place, without those below a closed one', () => {
    const lines = linesOf(parts, new Set(['vehicle.members[0]']));
    expect(lines.map(({ part }) => part.title)).not.toContain('hub');
    const frame = lines.find(({ part }) => part.title === 'frame');
    expect(frame).toMatchObject({ level: 2, place: 2, of: 3, parent: 'vehicle' });
  });

  it('are found by the way from the root', () => {
    expect(wayTo(parts, 'vehicle.wheels[0]')).toEqual([
      'vehicle',
      'vehicle.members[0]',
      'vehicle.members[1]',
    ]);
    expect(wayTo(parts, 'vehicle.wheels[9]')).toBeUndefined();
  });

  it('are called by name, else by kind and number', () => {
    expect(titleOf(truck, ['vehicle', 'wheels', 0])).toBe('rear');
    expect(titleOf(truck, ['vehicle', 'bodywork', 'outlines', 0])).toBe('Outline 1');
    expect(titleOf(truck, ['vehicle'])).toBe('Chassis');
  });

  it('of nothing are headings without anything below', () => {
    expect(linesOf(partsOf({}), new Set()).every(({ part }) => part.children.length === 0)).toBe(true);
  });

  it('are those of every list that has entries, once each', () => {
    // An entry more in each list, whatever kinds there are.
    const full = entryLists.reduce<Json>(
      (now, { path }) => addEntry(now, path).document,
      corrie as unknown as Json,
    );
    const ids = linesOf(partsOf(full), new Set()).map(({ part }) => part.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { path } of entryLists) {
      const entries = entriesAt(full, path).map((entry) => pathText(entry.path));
      expect(entries.length).toBeGreaterThan(0);
      expect(ids).toEqual(expect.arrayContaining(entries));
    }
    expect(ids).toContain('vehicle.bodywork.belly');
  });
});
