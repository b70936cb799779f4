/** The rooms of the project and who may import whom. DEVELOPERS.md shows the same map in words. */
import { isBuiltin } from 'node:module';
import { posix } from 'node:path';
import { impuritiesOf, type Reference, referencesOf, type SourceFile } from './references.ts';

export interface Room {
  readonly name: string;
  /** The files that belong to it; a file belongs to the first room that fits. */
  readonly holds: RegExp;
  /** Rooms it may import from, besides itself. */
  readonly rooms: readonly string[];
  /** Rooms of which it may name types only. */
  readonly types?: readonly string[];
  /** Packages of the registry it may import. */
  readonly packages: readonly string[];
  /** Whether it may use Node's own modules. */
  readonly node?: boolean;
  /** Whether it must give the same answer for the same arguments: no clock, no chance, no changing module state. */
  readonly pure?: boolean;
}

const MODEL = ['shared', 'model'];
const WHOLE_SIM = ['engine', 'dynamics', 'sim entry'];
const PAGE = ['page', 'canvas', 'charts', 'edits', 'json', 'history', 'shelf'];
const REACT = ['react', 'react-dom', 'zustand'];
const FONTS = ['@fontsource-variable/inter', '@fontsource-variable/jetbrains-mono'];

export const ROOMS: readonly Room[] = [
  { name: 'shared', holds: /^shared\//, rooms: [], packages: ['zod'], pure: true },
  {
    name: 'model',
    holds:
      /^sim\/(scenario|mechanism|elements|members|tyre|ground|frames|joints|statics|report|studies|limits|strength|driveline|ledger|winch|steering|tuning|searching|stock|chance|rough)\//,
    rooms: ['shared'],
    packages: ['zod', 'ml-matrix', 'd3-dsv', 'fft.js'],
    pure: true,
  },
  { name: 'engine', holds: /^sim\/engine\//, rooms: MODEL, packages: ['planck', 'ml-matrix'], pure: true },
  {
    name: 'dynamics',
    holds: /^sim\/dynamics\//,
    rooms: [...MODEL, 'engine'],
    packages: ['ml-matrix'],
    pure: true,
  },
  {
    name: 'sim entry',
    holds: /^sim\/index\.ts$/,
    rooms: [...MODEL, 'engine', 'dynamics'],
    packages: [],
    pure: true,
  },
  {
    name: 'cli',
    holds: /^sim\/cli\//,
    rooms: [...MODEL, ...WHOLE_SIM, 'scenarios'],
    packages: ['commander', 'd3-scale', 'zod'],
    node: true,
  },
  {
    name: 'workers',
    holds: /^src\/workers\//,
    rooms: [...MODEL, 'sim entry'],
    types: WHOLE_SIM,
    packages: [],
  },
  { name: 'json', holds: /^src\/documents\/json\.ts$/, rooms: ['shared'], packages: [], pure: true },
  {
    name: 'canvas',
    holds: /^src\/canvas\//,
    rooms: [...MODEL, ...PAGE],
    types: [...WHOLE_SIM, 'workers'],
    packages: [...REACT, 'pixi.js', 'd3-scale'],
  },
  {
    name: 'charts',
    holds: /^src\/charts\//,
    rooms: [...MODEL, ...PAGE],
    types: [...WHOLE_SIM, 'workers'],
    packages: [...REACT, 'd3-scale'],
  },
  {
    // What a document's history is made of, and how it is put into rows and taken out again.
    name: 'history',
    holds: /^src\/(keeping\/(changes|record)|store\/weight)\.ts$/,
    rooms: ['shared', 'json'],
    types: ['page'],
    packages: [],
    pure: true,
  },
  {
    // The one file that knows the browser's database.
    name: 'shelf',
    holds: /^src\/keeping\/shelf\.ts$/,
    rooms: ['history', 'page'],
    packages: ['idb'],
  },
  {
    name: 'edits',
    holds: /^src\/edits\//,
    rooms: [...MODEL, 'json'],
    packages: ['zod'],
    pure: true,
  },
  {
    name: 'page',
    holds: /^src\//,
    rooms: [...MODEL, ...PAGE, 'workers', 'scenarios'],
    types: WHOLE_SIM,
    packages: [...REACT, ...FONTS, 'zod'],
  },
  { name: 'scenarios', holds: /^scenarios\//, rooms: [], packages: [] },
];

/** Where people and programs come in. Everything else must be reached from here, or it is dead. */
export const ENTRIES = ['src/main.tsx', 'sim/index.ts', 'sim/cli/main.ts'];

/** One breach of the map: file, line, and what is not allowed. */
export interface Breach {
  readonly where: string;
  readonly what: string;
}

/** A reference between two files of the project. */
export interface Edge {
  readonly from: string;
  readonly to: string;
}

/** The room a path belongs to, or undefined when it is in none (tests, top-level files). */
export function roomOf(path: string): Room | undefined {
  return ROOMS.find((room) => room.holds.test(path));
}

/** The path inside the project that a relative or rooted specifier names. Vite's `?worker`, `?url` … are cut off. */
function resolve(from: string, specifier: string): string {
  const bare = specifier.replace(/\?.*$/, '');
  return bare.startsWith('/') ? bare.slice(1) : posix.normalize(posix.join(posix.dirname(from), bare));
}

function isLocal(specifier: string): boolean {
  return specifier.startsWith('.') || specifier.startsWith('/');
}

/** `@scope/name/part` → `@scope/name`, `name/part` → `name`. */
function packageOf(specifier: string): string {
  return specifier.split('/', specifier.startsWith('@') ? 2 : 1).join('/');
}

function refusalOfPackage(room: Room, specifier: string): string | undefined {
  const builtin = isBuiltin(specifier);
  if (builtin && room.node === true) return undefined;
  if (!builtin && room.packages.includes(packageOf(specifier))) return undefined;
  return `room '${room.name}' may not import ${specifier}`;
}

function refusalOfFile(room: Room, from: string, { specifier, typeOnly }: Reference): string | undefined {
  const target = resolve(from, specifier);
  const other = roomOf(target);
  if (other === undefined) return `room '${room.name}' may not import ${target}, which is in no room`;
  if (other === room || room.rooms.includes(other.name)) return undefined;
  if (typeOnly && room.types?.includes(other.name) === true) return undefined;
  const hint = room.types?.includes(other.name) === true ? ' except by `import type`' : '';
  return `room '${room.name}' may not import from '${other.name}'${hint}: ${target}`;
}

/**
 * Holds the files against the map of the rooms.
 * @param files source files with paths from the top level; files in no room are themselves a breach
 * @returns all breaches, in the order of the files
 * @throws when a file cannot be parsed
 */
export function breachesOf(files: readonly SourceFile[]): Breach[] {
  return files.flatMap((file) => {
    const room = roomOf(file.path);
    if (room === undefined) return [{ where: file.path, what: 'is in no room' }];
    const references = referencesOf(file).flatMap((reference) => {
      const what = isLocal(reference.specifier)
        ? refusalOfFile(room, file.path, reference)
        : refusalOfPackage(room, reference.specifier);
      return what === undefined ? [] : [{ where: `${file.path}:${reference.line}`, what }];
    });
    const impurities = (room.pure === true ? impuritiesOf(file) : []).map(({ what, line }) => ({
      where: `${file.path}:${line}`,
      what: `room '${room.name}' may not use ${what}`,
    }));
    return [...references, ...impurities];
  });
}

/** All references between the given files, type imports included. */
export function edgesOf(files: readonly SourceFile[]): Edge[] {
  const known = new Set(files.map((file) => file.path));
  return files.flatMap((file) =>
    referencesOf(file)
      .filter(({ specifier }) => isLocal(specifier))
      .map(({ specifier }) => ({ from: file.path, to: resolve(file.path, specifier) }))
      .filter(({ to }) => known.has(to)),
  );
}

function neighbours(edges: readonly Edge[]): Map<string, string[]> {
  const map = new Map<string, string[]>();
  for (const { from, to } of edges) map.set(from, [...(map.get(from) ?? []), to]);
  return map;
}

/** Files that are not reached from any of the entries. */
export function unreached(
  files: readonly SourceFile[],
  edges: readonly Edge[],
  entries: readonly string[],
): string[] {
  const next = neighbours(edges);
  const seen = new Set<string>();
  const queue = [...entries];
  for (let path = queue.pop(); path !== undefined; path = queue.pop()) {
    if (seen.has(path)) continue;
    seen.add(path);
    queue.push(...(next.get(path) ?? []));
  }
  return files.map((file) => file.path).filter((path) => !seen.has(path));
}

/** One cycle per knot of files that import each other, as the path around it; empty when there is none. */
export function cyclesOf(edges: readonly Edge[]): string[][] {
  const next = neighbours(edges);
  const done = new Set<string>();
  const cycles: string[][] = [];
  const walk = (path: string, trail: readonly string[]): void => {
    const start = trail.indexOf(path);
    if (start >= 0) cycles.push([...trail.slice(start), path]);
    if (start >= 0 || done.has(path)) return;
    for (const to of next.get(path) ?? []) walk(to, [...trail, path]);
    done.add(path);
  };
  for (const path of next.keys()) walk(path, []);
  return cycles;
}
