#!/usr/bin/env node
/**
 * The `axlewright` command. In a package it starts the compiled program; in a checkout it first makes sure that the
 * packages are installed and then runs the TypeScript source, so there is no build step to remember.
 */
import { existsSync, readFileSync } from 'node:fs';

const source = new URL('./main.ts', import.meta.url);
const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

async function fromSource() {
  const { checkNode, ensurePackages, SetupError } = await import('../../tests/setup.mjs');
  try {
    checkNode();
    ensurePackages();
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exit(2);
  }
  const { register } = await import('tsx/esm/api');
  register();
  return import(source.href);
}

const { main } = existsSync(source) ? await fromSource() : await import('../../dist/sim/cli/main.js');
process.exitCode = await main(process.argv.slice(2), { version });
