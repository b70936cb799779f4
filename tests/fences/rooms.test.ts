import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { breachesOf, cyclesOf, ENTRIES, edgesOf, ROOMS, roomOf, unreached } from './rooms.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

function sourceFiles() {
  return ['shared', 'sim', 'src'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
      .map((path) => posix.join(folder, path.split(sep).join('/')))
      .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
      .map((path) => ({ path, text: readFileSync(join(ROOT, path), 'utf8') })),
  );
}

const dependencies = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
};

/** What the map says about a single line in a single file. */
function refusals(path: string, text: string): string[] {
  return breachesOf([{ path, text }]).map(({ what }) => what);
}

describe('the rooms of this project', () => {
  const files = sourceFiles();
  const edges = edgesOf(files);

  it('are all seen: every room has files and there are many references between them', () => {
    const empty = ROOMS.filter(({ name }) => name !== 'scenarios').filter(
      (room) => !files.some((file) => roomOf(file.path) === room),
    );
    expect(empty.map((room) => room.name)).toEqual([]);
    // Floors, not counts: an empty or half-blind scan must fail, growth must not.
    expect(files.length).toBeGreaterThan(60);
    expect(edges.length).toBeGreaterThan(120);
  });

  it('import only what their place on the map allows', () => {
    expect(breachesOf(files)).toEqual([]);
  });

  it('have no files that import each other in a circle', () => {
    expect(cyclesOf(edges).map((cycle) => cycle.join(' → '))).toEqual([]);
  });

  it('hold no file that is reached from no entry', () => {
    expect(unreached(files, edges, ENTRIES)).toEqual([]);
  });

  it('ship with the packages that they import: those of shared and sim are dependencies', () => {
    const shipped = ROOMS.filter((room) => /^(shared|model|engine|dynamics|sim entry|cli)$/.test(room.name));
    const missing = shipped
      .flatMap((room) => room.packages)
      .filter((name) => dependencies.dependencies[name] === undefined);
    expect(missing).toEqual([]);
  });
});

describe('the map of the rooms refuses', () => {
  it.each([
    ['sim/mechanism/probe.ts', "import { World } from 'planck';", 'may not import planck'],
    ['sim/mechanism/probe.ts', "import type { World } from 'planck';", 'may not import planck'],
    ['sim/ground/probe.ts', "import { solve } from '../engine/world.ts';", "may not import from 'engine'"],
    [
      'sim/report/probe.ts',
      "export { drive } from '../dynamics/drive.ts';",
      "may not import from 'dynamics'",
    ],
    ['sim/tyre/probe.ts', "import { readFileSync } from 'node:fs';", 'may not import node:fs'],
    ['sim/tyre/probe.ts', "import { readFileSync } from 'fs';", 'may not import fs'],
    ['sim/engine/probe.ts', "import { run } from '../dynamics/drive.ts';", "may not import from 'dynamics'"],
    ['sim/dynamics/probe.ts', "import { World } from 'planck';", 'may not import planck'],
    ['sim/index.ts', "export { main } from './cli/main.ts';", "may not import from 'cli'"],
    ['sim/elements/probe.ts', "import { useState } from 'react';", 'may not import react'],
    ['sim/elements/probe.ts', "import { App } from '../../src/app/App.tsx';", "may not import from 'page'"],
    ['sim/elements/probe.ts', "import { x } from '../../tests/unit/x.ts';", 'which is in no room'],
    ['shared/probe.ts', "import { x } from '../sim/mechanism/x.ts';", "may not import from 'model'"],
    ['shared/probe.ts', "export type { X } from '../sim/mechanism/x.ts';", "may not import from 'model'"],
    ['shared/probe.ts', "export * from '../sim/mechanism/x.ts';", "may not import from 'model'"],
    ['shared/probe.ts', "export type X = import('../sim/mechanism/x.ts').X;", "may not import from 'model'"],
    [
      'src/panels/probe.tsx',
      "const sim = () => import('../../sim/index.ts');",
      "may not import from 'sim entry'",
    ],
    ['src/panels/probe.tsx', "import { drive } from '../../sim/index.ts';", 'except by `import type`'],
    ['src/panels/probe.tsx', "import { type Run } from '../../sim/index.ts';", 'except by `import type`'],
    ['src/panels/probe.tsx', "import { Graphics } from 'pixi.js';", 'may not import pixi.js'],
    ['src/panels/probe.tsx', "import { parse } from 'some-package';", 'may not import some-package'],
    ['src/store/probe.ts', "import { scaleLinear } from 'd3-scale';", 'may not import d3-scale'],
    ['src/store/probe.ts', "import { World } from 'planck';", 'may not import planck'],
    ['src/store/probe.ts', "import { main } from '../../sim/cli/main.ts';", "may not import from 'cli'"],
    ['src/charts/probe.ts', "import { Graphics } from 'pixi.js';", 'may not import pixi.js'],
    ['src/workers/probe.ts', "import { App } from '../app/App.tsx';", "may not import from 'page'"],
    ['src/workers/probe.ts', "import { step } from '../../sim/engine/x.ts';", 'except by `import type`'],
    ['sim/new-room/probe.ts', 'export const x = 1;', 'is in no room'],
    ['sim/dynamics/probe.ts', 'export const now = () => Date.now();', 'may not use Date.now'],
    ['sim/ground/probe.ts', 'export const dice = () => Math.random();', 'may not use Math.random'],
    ['sim/report/probe.ts', 'export const day = new Date();', 'may not use new Date'],
    [
      'shared/probe.ts',
      'let count = 0;\nexport const next = () => (count += 1);',
      'may not use module-level let',
    ],
  ])('in %s: %j', (path, text, refusal) => {
    expect(refusals(path, text)).toEqual([expect.stringContaining(refusal)]);
  });

  it('two files that import each other, also when one of them only names a type', () => {
    const files = [
      { path: 'shared/a.ts', text: "import { b } from './b.ts';\nexport const a = b;" },
      { path: 'shared/b.ts', text: "import type { A } from './c.ts';\nexport const b: A = 1;" },
      { path: 'shared/c.ts', text: "export * from './a.ts';\nexport type A = number;" },
    ];
    expect(cyclesOf(edgesOf(files))).toEqual([['shared/a.ts', 'shared/b.ts', 'shared/c.ts', 'shared/a.ts']]);
    expect(cyclesOf(edgesOf(files.slice(0, 2)))).toEqual([]);
  });

  it('a file that nothing reaches', () => {
    const files = [
      { path: 'src/main.tsx', text: "new Worker(new URL('./workers/run.ts', import.meta.url));" },
      { path: 'src/workers/run.ts', text: 'export const run = 1;' },
      { path: 'src/panels/Lost.tsx', text: "export { run } from '../workers/run.ts';" },
    ];
    expect(unreached(files, edgesOf(files), ['src/main.tsx'])).toEqual(['src/panels/Lost.tsx']);
  });

  it('to read a file with a syntax error as one without imports', () => {
    expect(() => refusals('shared/probe.ts', 'import { from ;')).toThrow('shared/probe.ts cannot be parsed');
  });
});

describe('the map of the rooms allows', () => {
  it.each([
    ['sim/mechanism/probe.ts', "import { z } from 'zod';\nimport { Matrix } from 'ml-matrix';"],
    ['sim/engine/probe.ts', "import { World } from 'planck';\nimport type { X } from '../mechanism/x.ts';"],
    ['sim/dynamics/probe.ts', "import { step } from '../engine/world.ts';"],
    [
      'sim/cli/probe.ts',
      "import { readFile } from 'node:fs/promises';\nimport { drive } from '../index.ts';",
    ],
    ['src/workers/probe.ts', "import { drive } from '../../sim/index.ts';"],
    [
      'src/store/probe.ts',
      "import type { Run } from '../../sim/index.ts';\nimport { parse } from '../../shared/x.ts';",
    ],
    ['src/canvas/probe.ts', "import 'pixi.js/unsafe-eval';\nimport { Graphics } from 'pixi.js';"],
    ['src/app/probe.tsx', "import './app.css';\nimport demo from '../../scenarios/demo.json?raw';"],
    ['shared/probe.ts', 'export const PI_2 = 2 * Math.PI;'],
  ])('in %s: %j', (path, text) => {
    expect(refusals(path, text)).toEqual([]);
  });
});
