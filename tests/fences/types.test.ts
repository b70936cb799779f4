import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CONFIGS = [
  'tsconfig.json',
  ...['shared', 'sim', 'sim/cli', 'src', 'tests'].map((room) => `${room}/tsconfig.json`),
];

/** Each line uses what its room must not know; the type checker is the fence that import rules cannot be. */
const PROBES = {
  'shared/page.ts': 'export const title = document.title;',
  'shared/process.ts': 'export const folder = process.cwd();',
  'sim/engine/page.ts': 'export const title = document.title;',
  'sim/engine/clock.ts': 'export const now = performance.now();',
  'sim/dynamics/timer.ts': 'export const timer = setTimeout(() => undefined, 1);',
  'sim/report/output.ts': "export const say = () => console.log('');",
  'sim/cli/page.ts': 'export const title = document.title;',
  'src/panels/process.ts': 'export const folder = process.cwd();',
  'shared/strict.ts': 'export const first = (list: number[]): number => list[0];',
  'shared/enum.ts': 'export enum Side { left, right }',
};

const ALLOWED = {
  'shared/plain.ts': 'export const half = (x: number): number => x / 2;',
  'sim/cli/files.ts':
    "import { sep } from 'node:path';\nexport const say = () => console.log(process.argv, sep);",
  'src/panels/Title.tsx': 'export const Title = () => <h1>{document.title}</h1>;',
};

let folder = '';
let complaints = '';

/** Type-checks a copy of the configuration with only the probes in it, away from the real rooms. */
async function checkProbes(): Promise<string> {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-types-'));
  for (const config of CONFIGS) cpSync(join(ROOT, config), join(folder, config));
  for (const [path, text] of Object.entries({ ...PROBES, ...ALLOWED })) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), `${text}\n`);
  }
  mkdirSync(join(folder, 'node_modules'));
  for (const name of ['@types', 'vite', 'csstype', 'undici-types']) {
    symlinkSync(join(ROOT, 'node_modules', name), join(folder, 'node_modules', name));
  }
  const tsc = join(ROOT, 'node_modules', 'typescript', 'bin', 'tsc');
  const args = [tsc, '-b', '--pretty', 'false'];
  const run = promisify(execFile)(process.execPath, args, { cwd: folder });
  return run.then(
    ({ stdout }) => stdout,
    (error: { stdout: string }) => error.stdout,
  );
}

beforeAll(async () => {
  complaints = await checkProbes();
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the type checker refuses', () => {
  it.each(Object.entries(PROBES))('%s: %s', (path) => {
    expect(complaints).toContain(`${path}(1,`);
  });
});

describe('the type checker allows', () => {
  it.each(Object.entries(ALLOWED))('%s: %s', (path) => {
    expect(complaints).not.toContain(`${path}(`);
  });
});
