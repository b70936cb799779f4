import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

const SCRIPT = fileURLToPath(new URL('../gallery.mjs', import.meta.url));

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-gallery-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('the gallery shows the picture of a scenario and links to files that are there', () => {
  execFileSync(process.execPath, [SCRIPT, folder, 'fell-4x4']);
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  const links = [...page.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, link = '']) => link);
  expect(links).toContain('fell-4x4/loads.svg');
  expect(links.filter((link) => !existsSync(join(folder, link)))).toEqual([]);
  expect(page).toMatch(/fell-4x4: (all \d+ criteria hold|\d+ of \d+ criteria fail)/);
});
