/** Everything bad that a person can hand to the command: each ends with exit code 2 and a line that helps. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axlewright, command } from './command.ts';
import { cart, type Json } from './fixture.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-bad-'));
  mkdirSync(join(folder, 'inner'));
  writeFileSync(join(folder, 'good.csv'), 'station,height\n0,0\n1,0\n');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs `axlewright check -` on a text, expects a refusal, and gives the lines of problems. */
async function refusal(text: string | Uint8Array): Promise<string> {
  const { code, out, err } = await command(['check', '-'], { cwd: folder, stdin: text });
  expect({ code, out }, err).toEqual({ code: 2, out: '' });
  return err;
}

const refusalOf = (document: Json): Promise<string> => refusal(JSON.stringify(document));

/** The cart with its vehicle changed. */
function cartWith(change: (vehicle: { masses: Json[]; wheels: Json[]; members?: Json[] }) => void): Json {
  const document = cart();
  change(document.vehicle as never);
  return document;
}

describe('a text that is no scenario', () => {
  it.each([
    ['an empty file', '', /is empty/],
    ['truncated JSON', '{"format": "axlewright-scenario", "vehicle": {', /too early/],
    ['5 MB of brackets', '['.repeat(5_000_000), /nested deeper/],
    ['deep nesting', `${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`, /nested deeper/],
    ['more than 5 MB', ' '.repeat(5_000_001), /larger than 5 MB/],
    ['NaN', '{"title": NaN}', /only finite numbers/],
    ['a list', '[]', /object/],
    ['another format', '{"format": "something-else", "version": 1}', /format/],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe]), /UTF-8/],
  ] as const)('%s', async (_name, text, says) => {
    expect(await refusal(text)).toMatch(says);
  });
});

describe('a scenario that makes no sense', () => {
  it.each([
    ['a newer version', cart({ version: 2 }), /version/],
    [
      'a number past all bounds',
      cartWith(({ masses }) => Object.assign(masses[0] ?? {}, { mass: 1e308 })),
      /masses\[0\]\.mass/,
    ],
    [
      'NaN as text',
      cartWith(({ masses }) => Object.assign(masses[0] ?? {}, { mass: 'NaN' })),
      /masses\[0\]\.mass/,
    ],
    [
      'a negative mass',
      cartWith(({ masses }) => Object.assign(masses[0] ?? {}, { mass: -1 })),
      /masses\[0\]\.mass/,
    ],
    [
      'a wheel without radius',
      cartWith(({ wheels }) => Object.assign(wheels[0] ?? {}, { radius: 0 })),
      /wheels\[0\]\.radius/,
    ],
    ['no wheels', cartWith((vehicle) => vehicle.wheels.splice(0)), /wheels/],
    [
      'two wheels of one name',
      cartWith(({ wheels }) => Object.assign(wheels[1] ?? {}, { name: 'front' })),
      /front/,
    ],
    [
      'members that carry each other',
      cartWith((vehicle) => {
        const arm = (name: string, on: string): Json => ({
          name,
          kind: 'arm',
          on,
          pivot: { x: 0, z: 0.1 },
          end: { x: 0.1, z: 0.05 },
        });
        vehicle.members = [arm('one', 'two'), arm('two', 'one')];
      }),
      /one|two/,
    ],
    [
      '300,000 points of ground',
      cart({
        ground: [
          {
            kind: 'table',
            points: Array.from({ length: 300_000 }, (_, i) => ({ station: i / 1e3, height: 0 })),
          },
        ],
      }),
      /larger than 5 MB|points/,
    ],
    [
      'ground that begins above the axle',
      cart({ ground: [{ kind: 'step', height: '300 mm', length: '1 m' }], run: { start: '-0.05 m' } }),
      /start|ground/,
    ],
  ] as const)('%s', async (_name, document, says) => {
    expect(await refusalOf(document)).toMatch(says);
  });
});

describe('a CSV ground', () => {
  const csvCart = (file: string): Json =>
    cart({ ground: [{ kind: 'csv', file, stationUnit: 'm', heightUnit: 'm' }] });

  it.each([
    ['that is not there', 'missing.csv', 'a', /missing\.csv.*is not there/],
    ['with letters in it', 'letters.csv', 'station,height\n0,0\n0.5,high\n1,0\n', /line 3/],
    ['without a column', 'narrow.csv', 'station\n0\n1\n', /column/],
  ] as const)('%s', async (_name, file, text, says) => {
    if (file !== 'missing.csv') writeFileSync(join(folder, file), text);
    expect(await refusalOf(csvCart(file))).toMatch(says);
  });

  it.each(['../good.csv', '/etc/hostname'])('from elsewhere: %s', async (file) => {
    writeFileSync(join(folder, 'inner', 'truck.json'), JSON.stringify(csvCart(file)));
    const { code, err } = await command(['check', join('inner', 'truck.json')], { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain("lies outside of the scenario's folder");
  });

  it('beside the scenario is read, wherever the command is started', async () => {
    writeFileSync(join(folder, 'truck.json'), JSON.stringify(csvCart('good.csv')));
    const { code, err } = await command(['check', join('..', 'truck.json')], {
      cwd: join(folder, 'inner'),
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });
});

describe('the process itself', () => {
  it.each([
    ['a file of zeros without end', ['check', '/dev/zero'], /is larger than 5 MB/],
    ['a file that is not there', ['drive', 'x.json'], /x\.json: 1 problem\n {2}is not there/],
    ['an option that is none', ['drive', 'x.json', '--outt', 'y'], /--outt.*--out/],
  ] as const)('ends with 2 and no stack trace for %s', async (_name, args, says) => {
    const { code, out, err } = await axlewright(args, { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(says);
    expect(err).not.toMatch(/ {4}at /);
  });
});

describe('words that are no command', () => {
  it.each([
    [['drvie', 'x.json'], /drive/],
    [['drive', 'x.json', '--outt', 'y'], /--out/],
    [['drive'], /file/],
    [['drive', 'a.json', 'b.json'], /argument/],
    [['drive', 'x.json', '--out'], /argument missing/],
    [['drive', 'x.json'], /x\.json: 1 problem\n {2}is not there/],
    [['drive', '.'], /is a folder/],
  ] as const)('%j', async (args, says) => {
    const { code, out, err } = await command(args, { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(says);
    expect(err).not.toMatch(/ {4}at /);
  });
});
