import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Problem } from '../../shared/problem.ts';
import { readDocument } from '../../sim/cli/input/document.ts';
import { groundFiles } from '../../sim/cli/input/ground-files.ts';
import { readBytes } from '../../sim/cli/input/read.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-input-'));
  mkdirSync(join(folder, 'scenario', 'tracks'), { recursive: true });
  mkdirSync(join(folder, 'demos'));
  writeFileSync(join(folder, 'secret.csv'), 'secret');
  writeFileSync(join(folder, 'scenario', 'yard.csv'), '\ufeffstation;height\n0;0\n');
  writeFileSync(join(folder, 'scenario', 'tracks', 'pit.csv'), '0,0\n1,1\n');
  writeFileSync(join(folder, 'scenario', 'latin.csv'), Buffer.from([0x68, 0xf6, 0x68, 0x65]));
  symlinkSync(join(folder, 'secret.csv'), join(folder, 'scenario', 'link.csv'));
  symlinkSync(join(folder, 'scenario', 'yard.csv'), join(folder, 'scenario', 'inner.csv'));
  writeFileSync(join(folder, 'demos', 'made-up-4x4.json'), '{"title":"a demo"}');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Reads one ground file beside a scenario, with what was said about it. */
function look(name: string) {
  const problems: Problem[] = [];
  const text = groundFiles(join(folder, 'scenario'), (problem) => problems.push(problem)).file(name);
  return { text, says: problems.map((problem) => problem.message) };
}

describe('a ground file', () => {
  it.each(['yard.csv', './yard.csv', 'inner.csv'])("is read from the scenario's folder: %s", (name) => {
    expect(look(name)).toEqual({ text: 'station;height\n0;0\n', says: [] });
  });

  it('is read from a folder below it', () => {
    expect(look('tracks/pit.csv').text).toBe('0,0\n1,1\n');
  });

  it.each([
    '../secret.csv',
    'tracks/../../secret.csv',
    '/etc/hostname',
    'C:\\secret.csv',
    '..\\secret.csv',
    '\\\\host\\x',
    'link.csv',
  ])('is never read from elsewhere: %s', (name) => {
    expect(look(name)).toEqual({
      text: undefined,
      says: ["lies outside of the scenario's folder, so it is not read"],
    });
  });

  it.each([
    ['missing.csv', 'is not there'],
    ['yard.csv/x', 'is not there'],
    ['tracks', 'is a folder, not a file'],
    ['latin.csv', 'is not UTF-8 text'],
    ['a\0b', 'is not a file name'],
  ])('that cannot be had is refused with the reason: %j', (name, why) => {
    expect(look(name)).toEqual({ text: undefined, says: [why] });
  });

  it('is spoken of once, however often it is asked for', () => {
    const problems: Problem[] = [];
    const source = groundFiles(folder, (problem) => problems.push(problem));
    source.file('missing.csv');
    source.file('missing.csv');
    expect(problems).toHaveLength(1);
  });
});

describe('a file that does not end', () => {
  it('is given up at the limit', () => {
    expect(readBytes('/dev/zero', 100_000)).toMatchObject({ ok: false, why: 'is larger than 0.1 MB' });
  });
});

describe('a document', () => {
  async function* noInput(): AsyncGenerator<Uint8Array> {}
  async function* pieces(...texts: string[]): AsyncGenerator<Uint8Array> {
    for (const text of texts) yield Buffer.from(text);
  }
  const demos = (): string => join(folder, 'demos');
  const around = (stdin: AsyncIterable<Uint8Array>) => ({ stdin, cwd: folder, demoFolder: demos() });

  it('comes from standard input for a dash, however it is cut into pieces', async () => {
    expect(await readDocument('-', around(pieces('{"ti', 'tle":1}')))).toMatchObject({
      ok: true,
      text: '{"title":1}',
    });
  });

  it('from standard input has the same limit as a file', async () => {
    async function* endless(): AsyncGenerator<Uint8Array> {
      for (;;) yield Buffer.alloc(1_000_000);
    }
    expect(await readDocument('-', around(endless()))).toMatchObject({
      ok: false,
      problem: { message: 'is larger than 5 MB' },
    });
  });

  it('is the demo of that name when there is no such file', async () => {
    expect(await readDocument('made-up-4x4', around(noInput()))).toMatchObject({
      ok: true,
      text: '{"title":"a demo"}',
      folder: demos(),
    });
  });

  it('is the demo also where a folder has its name, such as one with its results', async () => {
    mkdirSync(join(folder, 'made-up-4x4'), { recursive: true });
    expect(await readDocument('made-up-4x4', around(noInput()))).toMatchObject({ ok: true });
  });

  it('that is not there is refused, with the demo that was probably meant', async () => {
    expect(await readDocument('made-up-44', around(noInput()))).toMatchObject({
      ok: false,
      problem: { message: 'is not there', hint: 'did you mean "made-up-4x4"?' },
    });
  });

  it('is never looked for among the demos by a path', async () => {
    expect(await readDocument('../demos/made-up-4x4', around(noInput()))).toMatchObject({ ok: false });
  });
});
