/** The package as a stranger gets it: packed, installed into an empty folder, run, imported and type-checked. */
import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const MINUTES = 60_000;

let folder = '';

interface Outcome {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a program to its end; a failing exit code is an outcome and not an error. */
async function run(cwd: string, program: string, ...args: string[]): Promise<Outcome> {
  const { NODE_ENV: _mode, VITEST: _runner, ...env } = process.env;
  const shell = process.platform === 'win32';
  return promisify(execFile)(program, args, { cwd, env, shell, maxBuffer: 64e6 }).then(
    ({ stdout, stderr }) => ({ code: 0, stdout, stderr }),
    (error: { code?: number; stdout?: string; stderr?: string }) => ({
      code: error.code ?? -1,
      stdout: error.stdout ?? '',
      stderr: error.stderr ?? String(error),
    }),
  );
}

async function expectSuccess(cwd: string, program: string, ...args: string[]): Promise<string> {
  const { code, stdout, stderr } = await run(cwd, program, ...args);
  expect({ code, output: code === 0 ? '' : stdout + stderr }).toEqual({ code: 0, output: '' });
  return stdout;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-package-'));
  await expectSuccess(ROOT, 'npm', 'pack', '--silent', '--pack-destination', folder);
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'));
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }\n');
  await expectSuccess(
    folder,
    'npm',
    'install',
    '--no-audit',
    '--no-fund',
    '--prefer-offline',
    `./${tarball}`,
  );
}, 3 * MINUTES);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe(
  'the installed package',
  () => {
    it('brings nothing of the web app and no sources', () => {
      const installed = readdirSync(join(folder, 'node_modules'));
      for (const name of ['react', 'pixi.js', 'vite', 'tsx', 'typescript'])
        expect(installed).not.toContain(name);
      const shipped = readdirSync(join(folder, 'node_modules', 'axlewright'), {
        recursive: true,
        encoding: 'utf8',
      });
      const wanted = /^(package\.json|LICENSE|README\.md|scenarios|dist|sim)([\\/]|$)/;
      expect(shipped.filter((path) => !wanted.test(path))).toEqual([]);
      expect(shipped.filter((path) => /(?<!\.d)\.tsx?$/.test(path))).toEqual([]);
    });

    it('answers to its command', async () => {
      const version = await expectSuccess(folder, 'npx', '--no-install', 'axlewright', '--version');
      expect(version.trim()).toBe('0.1.0');
    });

    it('stands a scenario that it ships, and its wheels carry its weight', async () => {
      const file = join('node_modules', 'axlewright', 'scenarios', 'corrie-6x6.json');
      const text = await expectSuccess(folder, 'npx', '--no-install', 'axlewright', 'stand', file, '--json');
      const report = JSON.parse(text) as { mass: number; wheels: { load: number }[] };
      const carried = report.wheels.reduce((sum, wheel) => sum + wheel.load, 0);
      // Standing still after settling: 0.1 % is the accuracy promised for standing loads.
      expect(Math.abs(carried / (report.mass * 9.80665) - 1)).toBeLessThan(0.001);
    });

    it('can be imported', async () => {
      writeFileSync(
        join(folder, 'use.js'),
        "import { drive, loadScenario } from 'axlewright';\nconsole.log(typeof loadScenario, typeof drive);\n",
      );
      expect(await expectSuccess(folder, process.execPath, 'use.js')).toBe('function function\n');
    });

    it('declares its types, for both ways in which TypeScript finds modules', async () => {
      writeFileSync(
        join(folder, 'use.ts'),
        [
          "import { drive, loadScenario } from 'axlewright';",
          'export const functions: ((...args: never[]) => unknown)[] = [drive, loadScenario];',
          '// @ts-expect-error: were the declarations not found, everything would be any, and this no mistake',
          'export const wrong: number = drive;',
        ].join('\n'),
      );
      const tsc = join(ROOT, 'node_modules', 'typescript', 'bin', 'tsc');
      // zod's own declarations name URL, which the DOM library declares (as would @types/node).
      const options = ['--noEmit', '--strict', '--target', 'es2022', '--lib', 'es2023,dom', '--types', ''];
      for (const kind of [
        ['--module', 'nodenext', '--moduleResolution', 'nodenext'],
        ['--module', 'esnext', '--moduleResolution', 'bundler'],
      ]) {
        await expectSuccess(folder, process.execPath, tsc, ...options, ...kind, 'use.ts');
      }
    });
  },
  2 * MINUTES,
);
