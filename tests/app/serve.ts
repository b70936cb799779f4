/**
 * Builds the app as users get it, serves it on a free port, and hands its address to the tests
 * (`inject('appAddress')`).
 */
import { execFile } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of the built app, with a slash at its end. */
    appAddress: string;
  }
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Each run of the tests has its own, so that two at once do not pull it from under each other. */
const OUT = join(ROOT, 'node_modules', '.cache', 'axlewright', `app-${process.pid}`);

/** In a process of its own, because the variables that the test runner sets would give a development build. */
async function build(): Promise<void> {
  const { NODE_ENV: _mode, VITEST: _runner, ...env } = process.env;
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  const args = [vite, 'build', '--logLevel', 'warn', '--emptyOutDir', '--outDir', OUT];
  await promisify(execFile)(process.execPath, args, { cwd: ROOT, env });
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  await build();
  const server = await preview({
    root: ROOT,
    logLevel: 'warn',
    build: { outDir: OUT },
    preview: { port: 0, host: '127.0.0.1', open: false },
  });
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error('The preview server of the built app has no address.');
  project.provide('appAddress', address);
  return async () => {
    await server.close();
    rmSync(OUT, { recursive: true, force: true });
  };
}
