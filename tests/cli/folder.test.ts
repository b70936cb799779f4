import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkFolder, FolderError, writeFolder } from '../../sim/cli/files/folder.ts';

let root = '';
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'axlewright-out-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

/** A text that breaks off in the middle, as a value that may not be written does. */
function* broken(): Generator<string> {
  yield 'first line\n';
  throw new RangeError('load in frame 2 is not a finite number');
}

describe('the folder for results', () => {
  it('is made when it is missing, with its parents, and holds nothing but the files', () => {
    const out = join(root, 'a', 'b');
    const paths = writeFolder(out, [
      { name: 'one.csv', text: ['x\n', 'y\n'] },
      { name: 'two.json', text: '{}\n' },
    ]);
    expect(readdirSync(out).sort()).toEqual(['one.csv', 'two.json']);
    expect(readFileSync(paths[0] ?? '', 'utf8')).toBe('x\ny\n');
  });

  it('keeps other files, and takes new contents for its own', () => {
    writeFileSync(join(root, 'notes.txt'), 'mine');
    writeFileSync(join(root, 'one.csv'), 'old and much longer than the new one');
    writeFolder(root, [{ name: 'one.csv', text: 'new' }]);
    expect(readFileSync(join(root, 'one.csv'), 'utf8')).toBe('new');
    expect(readFileSync(join(root, 'notes.txt'), 'utf8')).toBe('mine');
  });

  it('is written into and nothing else: links that bear the names of files, or of their drafts, lead nowhere', () => {
    const elsewhere = join(root, 'elsewhere.txt');
    const out = join(root, 'out');
    mkdirSync(out);
    writeFileSync(elsewhere, 'mine');
    symlinkSync(elsewhere, join(out, 'one.csv'));
    symlinkSync(elsewhere, join(out, `.one.csv.${process.pid}.draft`));
    writeFolder(out, [{ name: 'one.csv', text: 'new' }]);
    expect(readFileSync(elsewhere, 'utf8')).toBe('mine');
    expect(readdirSync(out)).toEqual(['one.csv']);
    expect(lstatSync(join(out, 'one.csv')).isFile()).toBe(true);
    expect(readFileSync(join(out, 'one.csv'), 'utf8')).toBe('new');
  });

  it('is left as it was when a text breaks off', () => {
    writeFileSync(join(root, 'one.csv'), 'old');
    const files = [
      { name: 'one.csv', text: 'new' },
      { name: 'two.csv', text: broken() },
    ];
    expect(() => writeFolder(root, files)).toThrow('not a finite number');
    expect(readdirSync(root)).toEqual(['one.csv']);
    expect(readFileSync(join(root, 'one.csv'), 'utf8')).toBe('old');
  });

  it('is taken away again, with the parents that were made for it, when a text breaks off', () => {
    expect(() => writeFolder(join(root, 'a', 'b'), [{ name: 'two.csv', text: broken() }])).toThrow();
    expect(readdirSync(root)).toEqual([]);
  });

  it('is refused when a file lies at its place, or in the way to it', () => {
    writeFileSync(join(root, 'file'), '');
    for (const path of ['file', 'file/below', 'file/far/below']) {
      expect(() => checkFolder(join(root, path)), path).toThrow(FolderError);
      expect(() => writeFolder(join(root, path), [{ name: 'x', text: 'x' }]), path).toThrow(FolderError);
    }
    expect(readdirSync(root)).toEqual(['file']);
  });

  it('is refused when a folder has the name of one of the files, before any of them is written', () => {
    mkdirSync(join(root, 'two.csv'));
    const files = [
      { name: 'one.csv', text: 'new' },
      { name: 'two.csv', text: 'new' },
    ];
    expect(() => writeFolder(root, files)).toThrow("two.csv' is a folder");
    expect(readdirSync(root)).toEqual(['two.csv']);
  });

  it('may be one that does not exist yet', () => {
    expect(() => checkFolder(join(root, 'a', 'b'))).not.toThrow();
    expect(readdirSync(root)).toEqual([]);
  });
});
