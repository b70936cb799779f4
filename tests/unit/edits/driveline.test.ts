import { describe, expect, it } from 'vitest';
import { compile, layGround, loadScenario } from '../../../sim/index.ts';
import { alternativesOf } from '../../../sim/ledger/alternatives.ts';
import { crossRegardless } from '../../../sim/ledger/crossing.ts';
import { keyOf } from '../../../sim/ledger/ledger.ts';
import { type Json, valueAt, withValue } from '../../../src/documents/json.ts';
import {
  addPart,
  driveLineLayouts,
  hangPart,
  layOutDriveline,
  movePart,
  removePart,
  turnLine,
} from '../../../src/edits/driveline.ts';
import type { Edit } from '../../../src/edits/edit.ts';
import { takeTried } from '../../../src/edits/take.ts';
import { shipped } from './shipped.ts';

const shafts = shipped('cairn-6x6-shafts');
const PARTS = ['vehicle', 'driveline', 'parts'];

type Entry = { readonly [key: string]: Json };
const partsOf = (document: Json): readonly Entry[] => (valueAt(document, PARTS) ?? []) as readonly Entry[];
const indexOf = (document: Json, name: string): number =>
  partsOf(document).findIndex((part) => part.name === name);
const named = (document: Json, name: string): Entry => partsOf(document)[indexOf(document, name)] ?? {};

/** Errors of a document, as text. */
function errorsOf(document: Json): readonly string[] {
  const read = loadScenario(document);
  return read.ok ? [] : read.problems.map(({ path, message }) => `${path} ${message}`);
}

const scenarioOf = (document: Json) => {
  const read = loadScenario(document);
  if (!read.ok) throw new Error(errorsOf(document).join('; '));
  return read.value;
};

describe('a part that is hung on another', () => {
  it('is turned by it', () => {
    const { document, says } = hangPart(
      shafts,
      indexOf(shafts, 'rear joint at the transfer'),
      indexOf(shafts, 'front shaft'),
    );
    expect(named(document, 'rear joint at the transfer').from).toBe('front shaft');
    expect(says).toBe('hang rear joint at the transfer on front shaft');
    expect(errorsOf(document)).toEqual([]);
  });

  it('stays where it would turn itself, and why is told', () => {
    const edit = hangPart(shafts, indexOf(shafts, 'transfer gears'), indexOf(shafts, 'front shaft'));
    expect(edit.document).toBe(shafts);
    expect(edit.remarks.map(({ message }) => message).join()).toContain('it would turn itself');
  });

  it('turns it beside what does already, when it is a motor', () => {
    const two = addPart(shafts, 'motor', indexOf(shafts, 'transfer gears')).document;
    const motor = String(partsOf(two).at(-1)?.name);
    expect(named(two, 'transfer gears').from).toEqual(['motors', motor]);
    expect(partsOf(two).at(-1)?.wheels).toBeUndefined();
    const onMotor = hangPart(two, indexOf(two, motor), indexOf(two, 'motors'));
    expect(onMotor.document).toBe(two);
  });

  it('turns an axle line in place of what turned it', () => {
    const { document } = turnLine(shafts, indexOf(shafts, 'middle final drive'), 'rear');
    expect(named(document, 'middle final drive').wheels).toEqual(['middle', 'rear']);
    expect(named(document, 'rear final drive').wheels).toBeUndefined();
  });
});

describe('a part that is moved', () => {
  it('keeps its unit, and its ends go along', () => {
    const motors = indexOf(shafts, 'motors');
    const edit = movePart(shafts, motors, { x: 0.01, z: 0 }, { x: 0, z: 0 });
    expect(named(edit.document, 'motors').at).toEqual({ x: '-45 mm', z: '76 mm' });
    expect(edit.says).toBe('move motors');
    const shaft = movePart(shafts, indexOf(shafts, 'front shaft'), { x: -0.01, z: 0 }, { x: 0, z: 0 });
    expect(valueAt(named(shaft.document, 'front shaft'), ['ends', 0, 'x'])).toBe('-107 mm');
    expect(valueAt(named(shaft.document, 'front shaft'), ['ends', 1, 'x'])).toBe('-34 mm');
  });

  it('gets a place where it has none', () => {
    const { document } = movePart(
      shafts,
      indexOf(shafts, 'beam shaft'),
      { x: 0.01, z: 0 },
      { x: -0.23, z: 0.055 },
    );
    expect(named(document, 'beam shaft').at).toEqual({ x: '-220 mm', z: '55 mm' });
    expect(errorsOf(document)).toEqual([]);
  });
});

describe('a part that is added or removed', () => {
  it('stands between the part it is put behind and the axle line', () => {
    const edit = addPart(shafts, 'hub-reduction', indexOf(shafts, 'front final drive'));
    const added = partsOf(edit.document).at(-1) ?? {};
    expect(added.from).toBe('front final drive');
    expect(added.wheels).toEqual(['front']);
    expect(named(edit.document, 'front final drive').wheels).toBeUndefined();
    expect(edit.select).toEqual([...PARTS, partsOf(shafts).length]);
    expect(errorsOf(edit.document)).toEqual([]);
  });

  it('leaves no gap: what it turned is turned by what turned it, and axle lines pass on', () => {
    const without = removePart(shafts, indexOf(shafts, 'front shaft')).document;
    expect(named(without, 'front joint at the axle').from).toBe('front joint at the transfer');
    const shorter = removePart(shafts, indexOf(shafts, 'rear final drive')).document;
    expect(named(shorter, 'beam shaft').wheels).toEqual(['rear']);
    // The bevel gears turned the corner: without them the builder is told why the shaft cannot turn the wheels.
    expect(errorsOf(shorter).join()).toContain('lies lengthwise');
    const all = partsOf(shafts).reduce<Json>((now) => removePart(now, 0).document, shafts);
    expect(valueAt(all, ['vehicle', 'driveline', 'parts'])).toBeUndefined();
  });
});

describe('a layout', () => {
  const bare = shipped('corrie-6x6');

  it.each(driveLineLayouts.map(({ kind }) => kind))('%s makes a drive line that can be built', (kind) => {
    for (const document of [bare, shafts]) {
      const edit = layOutDriveline(document, kind);
      if (edit.document === document) {
        // Only the train inside a beam has a condition: this vehicle has no beam with two driven lines.
        expect(kind).toBe('beam-train');
        expect(edit.remarks.map(({ severity }) => severity)).toContain('error');
        continue;
      }
      expect(errorsOf(edit.document)).toEqual([]);
      const mechanism = compile(scenarioOf(edit.document));
      expect(mechanism.driveline?.lastPart.every((part) => part >= 0)).toBe(true);
      expect(valueAt(edit.document, ['vehicle', 'drive', 'torquePerWheel'])).toBeUndefined();
      for (const part of partsOf(edit.document))
        if (part.kind === 'motor') expect(String(part.stallTorque)).toMatch(/m$/);
    }
  });

  it('keeps motor, battery and the whole reduction of the drive line that there was', () => {
    const { document } = layOutDriveline(shafts, 'motor-per-axle');
    const whole = (of: Json) => {
      const { driveline } = compile(scenarioOf(of));
      const up = (part: number): number => {
        const { inputs, law } = driveline?.parts[part] ?? { inputs: [], law: { ratio: 1 } };
        return law.ratio * (inputs[0] === undefined ? 1 : up(inputs[0]));
      };
      return driveline?.lastPart.map(up) ?? [];
    };
    // Written with four digits.
    whole(document).forEach((ratio, i) => {
      expect(ratio / (whole(shafts)[i] ?? 0)).toBeCloseTo(1, 3);
    });
    expect(valueAt(document, ['vehicle', 'driveline', 'battery', 'voltage'])).toBe('7.4 V');
    expect(partsOf(document).filter(({ kind }) => kind === 'motor')).toHaveLength(3);
    expect(partsOf(document)[0]?.stallTorque).toBe('320 N·mm');
  });

  it('declines where the rest of the vehicle cannot be read', () => {
    const spoilt = withValue(bare, ['vehicle', 'wheels', 0, 'radius'], '-5 mm');
    expect(layOutDriveline(spoilt, 'one-motor').document).toBe(spoilt);
  });
});

describe('an alternative that is taken', () => {
  const scenario = scenarioOf(shafts);
  const ground = layGround(scenario);
  const found = alternativesOf(scenario, ground, { stations: 120 });

  it.each(found.map((alternative) => [alternative.title, alternative] as const))(
    '%s gives the vehicle that was tried, as one step, and leaves alone what it does not touch',
    (_title, alternative) => {
      if (alternative.sets.length === 0 && alternative.scenario === scenario) return;
      const edit: Edit = takeTried(shafts, alternative);
      expect(errorsOf(edit.document)).toEqual([]);
      expect(edit.says).toMatch(/^take: /);
      expect(valueAt(edit.document, ['vehicle', 'wheels'])).toBe(valueAt(shafts, ['vehicle', 'wheels']));
      if (alternative.sets.length > 0 && alternative.kind === 'stronger-part') return;
      const use = (of: Parameters<typeof crossRegardless>[0]) =>
        new Map(crossRegardless(of, ground, 120).ledger.lines.map((line) => [keyOf(line), line.use]));
      const [taken, tried] = [use(scenarioOf(edit.document)), use(alternative.scenario)];
      // Figures are written with four digits.
      for (const [key, value] of tried)
        if (value !== null)
          expect(Math.abs((taken.get(key) ?? Number.NaN) - value)).toBeLessThan(2e-3 * (1 + value));
    },
  );

  it('comes in more than two kinds, so that this checks something', () => {
    expect(new Set(found.map(({ kind }) => kind)).size).toBeGreaterThan(2);
  });
});
