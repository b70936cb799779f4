import { describe, expect, it } from 'vitest';
import { smallTruck } from '../small-truck.ts';
import { rod, spoilt, told } from './told.ts';

/** Wording that only the schema library would use. */
const foreign =
  /invalid (input|option|type|discriminator|string)|expected .* received|unrecognized|too (small|big):|nonoptional|undefined|\[object/i;

describe('words that are not known', () => {
  it('suggest the near key, and the missing key names its misspelling', () => {
    expect(
      spoilt((t) => {
        t.vehicle.wheels[0].radios = t.vehicle.wheels[0].radius;
        delete t.vehicle.wheels[0].radius;
      }),
    ).toEqual([
      'error: vehicle.wheels[0].radius: is missing, a length was wanted: a number in m, or text like "45 mm" ("radios" looks like a misspelling of it)',
      'error: vehicle.wheels[0].radios: is no field that is known here (did you mean "radius"?)',
    ]);
  });

  it('list what is known where nothing is near', () => {
    const [line, ...others] = spoilt((t) => {
      t.vehicle.drive.colour = 'red';
    });
    expect(others).toEqual([]);
    // Which fields there are is the schema's to say; two of them stand for the list.
    expect(line).toMatch(
      /^error: vehicle\.drive\.colour: is no field that is known here \(known here: .*torquePerWheel.*speed.*\)$/,
    );
  });

  it('list the kinds and suggest the near one', () => {
    const [line] = spoilt((t) => {
      t.vehicle.members[1].kind = 'bogie-bean';
    });
    expect(line).toMatch(
      /^error: vehicle\.members\[1\]\.kind: is "bogie-bean", which is no kind that is known here \(did you mean "bogie-beam"\? known: .*guided-axle.*rod.*\)$/,
    );
    expect(
      spoilt((t) => {
        delete t.ground[0].kind;
      })[0],
    ).toMatch(/^error: ground\[0\]\.kind: is missing \(known: flat, step, /);
    expect(
      spoilt((t) => {
        t.criteria[0] = { kind: 7 };
      })[0],
    ).toMatch(/^error: criteria\[0\]\.kind: is 7, which is no kind/);
  });

  it('are told of the end that an element was meant to have', () => {
    expect(
      spoilt((t) => {
        t.vehicle.elements[0].on = { from: { x: 0 }, to: { on: 'chassis', x: 0, z: 0.1 }, colour: 1 };
      }),
    ).toEqual([
      'error: vehicle.elements[0].on.from.on: is missing',
      'error: vehicle.elements[0].on.from.z: is missing, a length was wanted: a number in m, or text like "45 mm"',
      'error: vehicle.elements[0].on.colour: is no field that is known here (known here: from, to)',
    ]);
  });

  it('are told of every wrong type in the document at once', () => {
    const lines = spoilt((t) => {
      t.title = 5;
      t.vehicle.name = '';
      t.vehicle.masses = {};
      t.vehicle.elements[0].on = 5;
      t.vehicle.drive.driven = 'some';
      t.vehicle.bodywork = { belly: 'flat' };
      t.ground = 'flat';
      t.run = [];
      t.notes = 'x'.repeat(20_001);
    });
    expect(lines).toEqual([
      'error: title: is a number, text was wanted',
      'error: notes: has 20,001 characters, must have at most 20,000',
      'error: vehicle.name: is empty',
      'error: vehicle.masses: is an object, a list was wanted',
      'error: vehicle.elements[0].on: is 5, must be an object',
      'error: vehicle.drive.driven: is "some", must be "all", or a list',
      'error: vehicle.bodywork.belly: is text, a list was wanted',
      'error: ground: is text, a list was wanted',
      'error: run: is a list, an object was wanted',
    ]);
  });
});

describe('many faults at once', () => {
  it('are all told, also those of meaning beside those of form, with the indices of the document', () => {
    const lines = spoilt((t) => {
      t.vehicle.members.unshift({ kind: 'arm' });
      t.vehicle.members.push(rod('r', { on: 'chassis', x: 0, z: 0.1 }, { on: 'chassis', x: 1, z: 0.1 }));
      t.vehicle.wheels[0].radius = 0;
      t.vehicle.wheels[1].on = 'bogy';
      t.vehicle.elements[0].on = { member: 'bogie' };
    });
    expect(lines.map((line) => line.split(' ')[1])).toEqual([
      'vehicle.members[0].name:',
      'vehicle.members[0].pivot:',
      'vehicle.members[0].end:',
      'vehicle.wheels[0].radius:',
      'vehicle.wheels[1].on:',
      'vehicle.members[3].to:',
      'vehicle.elements[0].on.member:',
    ]);
  });

  it('never speak the language of the schema library', () => {
    const truck = smallTruck();
    const junk = [
      null,
      5,
      'x',
      true,
      [],
      {},
      [[]],
      { kind: 'arm' },
      { kind: 'csv' },
      { kind: 'table', points: [5] },
      Number.POSITIVE_INFINITY,
    ];
    const lists = ['members', 'elements', 'wheels', 'masses'];
    const inputs = junk.flatMap((value) => [
      ...Object.keys(truck).map((key) => ({ ...smallTruck(), [key]: value })),
      ...Object.keys(truck.vehicle).map((key) => ({
        ...smallTruck(),
        vehicle: { ...truck.vehicle, [key]: value },
      })),
      ...lists.flatMap((list) =>
        Object.keys(truck.vehicle[list][0]).map((key) => ({
          ...truck,
          vehicle: { ...truck.vehicle, [list]: [{ ...truck.vehicle[list][0], [key]: value }] },
        })),
      ),
      { ...truck, ground: [value] },
      { ...truck, criteria: [value] },
    ]);
    const lines = inputs.flatMap(told);
    expect(lines.length).toBeGreaterThan(500);
    expect([...new Set(lines.filter((line) => foreign.test(line)))]).toEqual([]);
  });
});
