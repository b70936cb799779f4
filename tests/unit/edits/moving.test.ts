import { describe, expect, test } from 'vitest';
import type { Path } from '../../../shared/path.ts';
import { type Json, valueAt } from '../../../src/documents/json.ts';
import { carriageOf } from '../../../src/edits/carriage.ts';
import { angleToward, handlesOf } from '../../../src/edits/handles.ts';
import { moveEntry, movePoint, turnAngle } from '../../../src/edits/move.ts';
import { smallTruck } from '../small-truck.ts';
import { documents, shipped } from './shipped.ts';

/** Places that differ between two documents, as written paths with their new values. */
function changes(before: Json, after: Json): Record<string, Json> {
  const points = (document: Json) =>
    new Map(carriageOf(document).points.map(({ path }) => [path.join('.'), valueAt(document, path)]));
  const old = points(before);
  return Object.fromEntries(
    [...points(after)].flatMap(([path, value]) =>
      JSON.stringify(old.get(path)) === JSON.stringify(value) ? [] : [[path, value as Json]],
    ),
  );
}

const corrie = shipped('corrie-6x6');
const member = (index: number, ...rest: readonly string[]): Path => ['vehicle', 'members', index, ...rest];

describe('Handles', () => {
  test('every point of every shipped vehicle has one, without a list of kinds', () => {
    for (const [name, document] of documents) {
      const written = JSON.stringify(valueAt(document, ['vehicle'])).match(/"x":/g)?.length ?? 0;
      const points = handlesOf(document).filter(({ kind }) => kind === 'point');
      expect(points.length, name).toBe(written);
    }
  });

  test('stops of arms and beams can be turned about their pivots, and a guide about its axle', () => {
    const angles = handlesOf(corrie).filter(({ kind }) => kind === 'angle');
    expect(angles.map(({ label }) => label)).toEqual([
      'lean of front-axle',
      'bump of middle-arm',
      'droop of middle-arm',
      'bump of rear-arm',
      'droop of rear-arm',
    ]);
    // The middle arm points forward from its pivot and down: bump lifts its end.
    const bump = angles[1];
    expect(bump?.about).toEqual({ x: -0.33, z: 0.077 });
    expect(bump?.at.z).toBeGreaterThan(0.055);
    // The rear arm points rearward: its bump is clockwise, and lifts its end too.
    expect(angles[3]?.sense).toBe(-1);
    expect(angles[3]?.at.z).toBeGreaterThan(0.055);
  });

  test('a handle that is pulled to where it stands has the figure that it has', () => {
    // The drawing keeps fifteen digits; the angle comes back to within their noise.
    for (const [, document] of documents)
      for (const handle of handlesOf(document).filter(({ kind }) => kind === 'angle'))
        expect(angleToward(handle, handle.at), handle.label).toBeCloseTo(handle.value ?? 0, 12);
  });

  test('a pull turns about the place where it is tied', () => {
    const document = smallTruck();
    document.run = {
      pulls: [{ name: 'rope', at: { x: '60 mm', z: '80 mm' }, force: '5 N', angle: '30 deg' }],
    };
    const rope = handlesOf(document).find(({ label }) => label === 'angle of pull rope');
    expect(rope?.about).toEqual({ x: 0.06, z: 0.08 });
    const turned = turnAngle(document, rope?.path ?? [], Math.PI / 4);
    expect(valueAt(turned.document, ['run', 'pulls', 0, 'angle'])).toBe('45 deg');
  });

  test('nothing is thrown for a document that makes no sense', () => {
    for (const nonsense of [
      null,
      7,
      'x',
      [],
      { vehicle: 3 },
      { vehicle: { members: [null, { kind: 'arm' }, 5] } },
    ])
      expect(handlesOf(nonsense as Json)).toEqual([]);
  });
});

describe('Moving a point', () => {
  test("an arm's end takes its housing, wheel, masses and rod ends along, in the units they are written in", () => {
    const edit = movePoint(corrie, member(1, 'end'), { x: -0.255, z: 0.055 });
    expect(edit.says).toBe('move end of middle-arm');
    expect(changes(corrie, edit.document)).toEqual({
      'vehicle.members.1.end': { x: '-255 mm', z: '55 mm' },
      'vehicle.members.3.pivot': { x: '-255 mm', z: '55 mm' },
      'vehicle.members.5.to': { on: 'middle-housing', x: '-255 mm', z: '87 mm' },
      'vehicle.masses.7.at': { x: '-255 mm', z: '58 mm' },
      'vehicle.wheels.1.at': { x: '-255 mm', z: '55 mm' },
    });
    expect(edit.remarks).toEqual([]);
  });

  test('a wheel takes the end that it sits on along', () => {
    const edit = movePoint(corrie, ['vehicle', 'wheels', 1, 'at'], { x: -0.255, z: 0.055 });
    expect(Object.keys(changes(corrie, edit.document))).toContain('vehicle.members.1.end');
  });

  test('what lies at the same place on a part that does not touch the moved one stays', () => {
    const document = smallTruck();
    // On the chassis, right behind the front end of the beam.
    document.vehicle.masses.push({ name: 'box', mass: '100 g', at: { x: '-190 mm', z: '50 mm' } });
    const edit = movePoint(document, member(1, 'front'), { x: -0.18, z: 0.05 });
    expect(Object.keys(changes(document, edit.document))).toEqual([
      'vehicle.members.1.front',
      'vehicle.wheels.1.at',
    ]);
  });

  test('pivots on one pin move together, and nothing else does', () => {
    const edit = movePoint(corrie, member(1, 'pivot'), { x: -0.32, z: 0.08 });
    expect(Object.keys(changes(corrie, edit.document))).toEqual([
      'vehicle.members.1.pivot',
      'vehicle.members.2.pivot',
    ]);
    const alone = movePoint(corrie, member(1, 'pivot'), { x: -0.32, z: 0.08 }, { alone: true });
    expect(Object.keys(changes(corrie, alone.document))).toEqual(['vehicle.members.1.pivot']);
  });

  test("a beam's pivot moves alone; the end of a rocker takes the bogie along", () => {
    const scree = shipped('scree-6');
    const pivot = movePoint(scree, member(0, 'pivot'), { x: -0.14, z: 0.13 });
    expect(Object.keys(changes(scree, pivot.document))).toEqual(['vehicle.members.0.pivot']);
    const end = movePoint(scree, member(0, 'rear'), { x: -0.235, z: 0.085 });
    expect(Object.keys(changes(scree, end.document))).toEqual([
      'vehicle.masses.2.at',
      'vehicle.members.0.rear',
      'vehicle.members.1.pivot',
      'vehicle.members.1.front',
      'vehicle.members.1.rear',
      'vehicle.wheels.1.at',
      'vehicle.wheels.2.at',
    ]);
  });

  test('the centre of an axle on rods takes its ends of rods and springs along; the frame ends stay', () => {
    const fell = shipped('fell-4x4');
    const moved = Object.keys(changes(fell, movePoint(fell, member(0, 'at'), { x: 0.01, z: 0.06 }).document));
    expect(moved).toContain('vehicle.members.0.lower.axle');
    expect(moved).toContain('vehicle.elements.0.on.to');
    expect(moved).not.toContain('vehicle.members.0.lower.parent');
    expect(moved).not.toContain('vehicle.elements.0.on.from');
  });

  test('the whole axle takes both ends of its springs and rods along', () => {
    const fell = shipped('fell-4x4');
    const moved = changes(fell, moveEntry(fell, member(0), { x: 0.01, z: 0 }).document);
    expect(moved['vehicle.members.0.lower.parent']).toEqual({ x: '-85 mm', z: '62 mm' });
    expect(moved['vehicle.elements.0.on.from']).toEqual({ on: 'chassis', x: '-2 mm', z: '132 mm' });
    expect(Object.keys(moved).filter((path) => path.includes('members.1'))).toEqual([]);
  });

  test('what a move breaks is told with its reason', () => {
    const scree = shipped('scree-6');
    const edit = movePoint(scree, member(1, 'front'), { x: -0.3, z: 0.05 });
    expect(edit.remarks.map(({ severity, path }) => [severity, path])).toContainEqual([
      'error',
      'vehicle.members[1].front',
    ]);
    expect(edit.remarks.find(({ path }) => path === 'vehicle.members[1].front')?.message).toMatch(
      /does not lie ahead of the rear end: swap front and rear/,
    );
  });

  test('the noise of a pointer is cut off, typed digits stay', () => {
    const at: Path = ['vehicle', 'masses', 1, 'at'];
    const dragged = movePoint(corrie, at, { x: -0.012345678912, z: 0.15 }).document;
    expect(valueAt(dragged, at)).toEqual({ x: '-12.35 mm', z: '150 mm' });
    const typed = movePoint(corrie, at, { x: -0.0123456, z: 0.15 }).document;
    expect(valueAt(typed, at)).toEqual({ x: '-12.3456 mm', z: '150 mm' });
    const full = shipped('drumlin-6x6-full');
    const big = movePoint(full, ['vehicle', 'masses', 0, 'at'], { x: -1.23456789123, z: 1.5 }).document;
    // A truck of less than ten metres is drawn to 0.1 mm.
    expect(valueAt(big, ['vehicle', 'masses', 0, 'at', 'x'])).toBe('-1.2346 m');
  });

  test('figures without a unit stay bare, and a place that is not there is declined in words', () => {
    const document = smallTruck();
    const at: Path = ['vehicle', 'masses', 2, 'at'];
    expect(valueAt(movePoint(document, at, { x: 0.0123, z: 0.05 }).document, at)).toEqual({
      x: 0.0123,
      z: '50 mm',
    });
    const none = movePoint(document, ['vehicle', 'nowhere'], { x: 0, z: 0 });
    expect(none.document).toBe(document);
    expect(none.remarks[0]?.severity).toBe('error');
  });
});

describe('Holding rods', () => {
  const lengthOf = (document: Json, index: number): number => {
    const rod = carriageOf(document).tree.rods[index];
    return rod?.length ?? Number.NaN;
  };

  test('a rod keeps its length: the housing at its other end turns', () => {
    const before = lengthOf(corrie, 0);
    const follow = movePoint(corrie, member(5, 'from'), { x: -0.32, z: 0.107 });
    expect(Math.abs(lengthOf(follow.document, 0) - before)).toBeGreaterThan(0.004);
    const held = movePoint(corrie, member(5, 'from'), { x: -0.32, z: 0.107 }, { holdRods: true });
    // Places are written to 0.01 mm, so that a length is kept to within two such steps.
    expect(Math.abs(lengthOf(held.document, 0) - before)).toBeLessThan(2e-5);
    expect(Object.keys(changes(corrie, held.document))).not.toContain('vehicle.wheels.1.at');
    expect(Object.keys(changes(corrie, held.document))).toContain('vehicle.members.5.to');
    // The rod's pin stays on its circle about the housing's hinge, 32 mm over the hub.
    const pin = carriageOf(held.document).points.find(({ path }) => path.join() === member(5, 'to').join());
    expect(Math.hypot((pin?.at.x ?? 0) + 0.265, (pin?.at.z ?? 0) - 0.055)).toBeCloseTo(0.032, 4);
    // The mass item of the housing, 3 mm over its hinge, turns with it.
    expect(Object.keys(changes(corrie, held.document))).toContain('vehicle.masses.7.at');
  });

  test('a rod that cannot keep its length says so', () => {
    const far = movePoint(corrie, member(5, 'from'), { x: 0.4, z: 0.4 }, { holdRods: true });
    const kept = Math.abs(lengthOf(far.document, 0) - lengthOf(corrie, 0)) < 2e-5;
    expect(kept || far.remarks.some(({ message }) => message.includes('instead of'))).toBe(true);
  });
});
