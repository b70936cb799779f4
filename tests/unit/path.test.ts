import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Path, pathText, readPath } from '../../shared/path.ts';
import { type Checked, problemLine } from '../../shared/problem.ts';
import { applySetting, findPath, getPath, putAt, setPath } from '../../sim/scenario/path.ts';
import { readScenario } from '../../sim/scenario/read.ts';
import { type Loose, smallTruck } from './small-truck.ts';

const said = (result: Checked<unknown>) =>
  result.ok ? 'found' : result.problems.map(problemLine).join('; ');

/** Which fields there are is the schema's to say: their list is left out of a message. */
const unlisted = (message: string) => message.replace(/known here: [\w$, ]+\)/, 'known here: …)');

/** The value at `path` after a setting, or what was wrong. */
function settingOf(setting: string, path = setting.split('=')[0] ?? ''): unknown {
  const changed = applySetting(smallTruck(), setting);
  if (!changed.ok) return said(changed);
  const found = getPath(changed.value, path);
  return found.ok ? found.value : said(found);
}

describe('a path as text', () => {
  it('is written as people write it', () => {
    expect(pathText(['vehicle', 'wheels', 2, 'radius'])).toBe('vehicle.wheels[2].radius');
    expect(pathText([])).toBe('');
    expect(pathText(['vehicle', 'odd key', 'a"b'])).toBe('vehicle["odd key"]["a\\"b"]');
  });

  it('is read up to where it ends', () => {
    expect(readPath('vehicle.wheels[front left].radius=60')).toEqual({
      steps: [{ key: 'vehicle' }, { key: 'wheels' }, { name: 'front left' }, { key: 'radius' }],
      end: 'vehicle.wheels[front left].radius'.length,
    });
    expect(readPath('a["x]="][12]').steps).toEqual([{ key: 'a' }, { name: 'x]=' }, { index: 12 }]);
    expect(readPath('a..b').end).toBe(1);
    expect(readPath('.a').end).toBe(0);
  });

  it('comes back whole, whatever its keys', () => {
    const step = fc.oneof(fc.string({ minLength: 1, maxLength: 8 }), fc.nat({ max: 1000 }));
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 5 }), (path: Path) => {
        const text = pathText(path);
        const { steps, end } = readPath(text);
        expect(end).toBe(text.length);
        expect(steps.map((s) => ('index' in s ? s.index : 'name' in s ? s.name : s.key))).toEqual(path);
      }),
    );
  });
});

describe('a place in a scenario', () => {
  it.each([
    ['vehicle.wheels[0].radius', ['vehicle', 'wheels', 0, 'radius']],
    ['vehicle.wheels[rear].radius', ['vehicle', 'wheels', 2, 'radius']],
    ['vehicle.elements[front springs].rate', ['vehicle', 'elements', 0, 'rate']],
    ['vehicle.elements["front springs"].rate', ['vehicle', 'elements', 0, 'rate']],
    ['ground[step].height', ['ground', 1, 'height']],
    ['criteria[wheel-load].least', ['criteria', 0, 'least']],
    [' run.frames ', ['run', 'frames']],
    ['vehicle.wheels[0].tyre.grip', ['vehicle', 'wheels', 0, 'tyre', 'grip']],
  ])('%s', (path, place) => {
    expect(findPath(smallTruck(), path)).toEqual({ ok: true, value: place, problems: [] });
  });

  it.each([
    ['vehicle.wheels[frnt].radius', 'vehicle.wheels: has no entry called \'frnt\' (did you mean "front"?)'],
    ['vehicle.wheels[7].radius', 'vehicle.wheels: has entries [0] to [2] only, so there is no [7]'],
    ['vehicle.wheels.radius', 'vehicle.wheels: is a list (choose an entry: vehicle.wheels[0])'],
    ['vehicle.wheel[0].radius', 'vehicle.wheel: there is no such field (did you mean "wheels"?)'],
    ['vehicle.wheels[0].radios', 'vehicle.wheels[0].radios: there is no such field (did you mean "radius"?)'],
    ['vehicle.name.first', "vehicle.name: is text, so it has no part 'first'"],
    ['vehicle[0]', 'vehicle: is an object, not a list'],
    ['run[0]', 'run: has no entries'],
    ['vehicle..name', "'vehicle..name' is no path (write it like vehicle.wheels[front].radius)"],
    ['', "'' is no path (write it like vehicle.wheels[front].radius)"],
    ['constructor.name', 'constructor: there is no such field (known here: …)'],
    ['vehicle.__proto__.x', 'vehicle.__proto__: there is no such field (known here: …)'],
  ])('%s is refused with the near one', (path, says) => {
    expect(unlisted(said(findPath(smallTruck(), path)))).toBe(says);
  });

  it('is not guessed where two entries are of one kind', () => {
    const truck = smallTruck();
    truck.ground.push({ kind: 'step', height: '10 mm', length: '1 m' });
    expect(said(findPath(truck, 'ground[step].height'))).toBe(
      "ground: has 2 entries of the kind 'step' (choose one by its number: [0] is the first)",
    );
  });

  it('has a value, or none yet where the schema knows it', () => {
    expect(getPath(smallTruck(), 'vehicle.wheels[1].radius')).toMatchObject({ ok: true, value: '50 mm' });
    expect(getPath(smallTruck(), 'vehicle.wheels[1].count')).toMatchObject({ ok: true, value: undefined });
    expect(getPath(smallTruck(), 'run.until')).toMatchObject({ ok: true, value: undefined });
  });
});

describe('a setting', () => {
  it.each<[string, unknown]>([
    ['vehicle.wheels[front].radius=60 mm', '60 mm'],
    ['vehicle.wheels[front].radius="60 mm"', '60 mm'],
    ['vehicle.wheels[front].radius=0.06', 0.06],
    ['vehicle.wheels[front].count = 4', 4],
    ['vehicle.drive.driven=["front"]', ['front']],
    ['run.frames=480', 480],
    ['vehicle.wheels[0].tyre.grip=90 %', '90 %'],
    ['vehicle.name=123', '123'],
    ['vehicle.name="Truck = 2"', 'Truck = 2'],
    ['title=a=b', 'a=b'],
  ])('%s', (setting, value) => {
    expect(settingOf(setting)).toEqual(value);
  });

  it.each([
    ['run.frames', "'run.frames' is no setting (write it like vehicle.wheels[front].radius=60 mm)"],
    ['=5', "'=5' is no setting (write it like vehicle.wheels[front].radius=60 mm)"],
    ['run.frames=', 'run.frames: is set to nothing (write a value behind the =)'],
    ['vehicle.pivot=5 mm', 'vehicle.pivot: there is no such field (known here: …)'],
  ])('%s is refused', (setting, says) => {
    expect(unlisted(String(settingOf(setting)))).toBe(says);
  });

  it('changes what is read, and nothing else', () => {
    const changed = applySetting(smallTruck(), 'vehicle.wheels[rear].radius=60 mm');
    const read = readScenario(changed.ok ? changed.value : undefined, { file: () => undefined });
    expect(read.ok && read.value.vehicle.wheels.map((w) => w.radius)).toEqual([0.05, 0.05, 0.06]);
    expect(read.problems).toEqual([]);
  });
});

describe('a changed document', () => {
  it('is a copy that shares what lies beside the way', () => {
    const truck: Loose = smallTruck();
    const before = JSON.stringify(truck);
    const changed = setPath(truck, 'vehicle.wheels[1].radius', '60 mm') as { ok: true; value: Loose };
    expect(JSON.stringify(truck)).toBe(before);
    expect(changed.value.vehicle.wheels[1].radius).toBe('60 mm');
    expect(changed.value.vehicle.wheels[0]).toBe(truck.vehicle.wheels[0]);
    expect(changed.value.ground).toBe(truck.ground);
  });

  it('loses a field that is set to undefined, so that its standard value holds', () => {
    const truck = smallTruck();
    truck.vehicle.wheels[0].count = 4;
    const changed = putAt(truck, ['vehicle', 'wheels', 0, 'count'], undefined) as Loose;
    expect(Object.keys(changed.vehicle.wheels[0])).not.toContain('count');
  });

  it('gets the objects that are absent on the way', () => {
    expect(putAt({}, ['run', 'frames'], 480)).toEqual({ run: { frames: 480 } });
  });
});

describe('a setting on what objects of JavaScript have anyway', () => {
  it.each([
    '__proto__.x=1',
    'vehicle.constructor=1',
    'vehicle.__proto__.radius=1',
    'vehicle.wheels[__proto__].radius=1',
    'vehicle.wheels[0].constructor.prototype.x=1',
    'vehicle.wheels.length=0',
  ])('%s finds no such place', (setting) => {
    expect(applySetting(smallTruck(), setting).ok).toBe(false);
    expect(({} as Loose).x ?? ({} as Loose).radius).toBeUndefined();
  });

  it('a value with __proto__ in it stays a value, which reading refuses', () => {
    const put = applySetting(
      smallTruck(),
      'vehicle.drive={"__proto__":{"x":1},"speed":1,"torquePerWheel":1}',
    );
    expect(put.ok && readScenario(put.value, { file: () => undefined }).problems.map(problemLine)).toEqual([
      expect.stringContaining('vehicle.drive.__proto__: is no field that is known here'),
    ]);
    expect(({} as Loose).x).toBeUndefined();
  });
});
