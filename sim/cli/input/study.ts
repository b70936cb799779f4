import { join, resolve } from 'node:path';
import type { Checked, Problem } from '../../../shared/problem.ts';
import type { GroundSource, Scenario } from '../../index.ts';
import { readStock } from '../../stock/read.ts';
import type { Stock } from '../../stock/stock.ts';
import { readStockTable } from '../../stock/table.ts';
import { type BoundStudy, bindStudy } from '../../tuning/bind.ts';
import { readStudy } from '../../tuning/read.ts';
import type { Surroundings } from '../verb.ts';
import { demoNames } from './demos.ts';
import { readDocument } from './document.ts';
import { groundFiles, leadsElsewhere } from './ground-files.ts';
import { type Loaded, load } from './load.ts';

/** Folder of the studies that ship, beside the scenarios that they are of. */
export const studyFolder = (demoFolder: string): string => join(demoFolder, 'studies');

/** A study that was read, with everything that it names. */
export interface LoadedStudy {
  readonly study: BoundStudy;
  readonly scenario: Scenario;
}

/**
 * Reads a study with its scenarios and ground files. Files that it names are looked for in its own folder and below, and
 * nowhere else: a study from a stranger must not be able to read what lies beside it. All problems at once.
 */
export async function loadStudy(file: string, surroundings: Surroundings): Promise<Checked<LoadedStudy>> {
  const { demoFolder } = surroundings;
  const text = await readDocument(file, { ...surroundings, demoFolder: studyFolder(demoFolder) });
  if (!text.ok) return { ok: false, problems: [text.problem] };
  const document = readStudy(text.text);
  if (!document.ok) return document;
  const problems: Problem[] = [...document.problems];
  const named = async (name: string, at: string): Promise<Loaded | undefined> => {
    const found = await scenarioNamed(name, text.folder, surroundings);
    problems.push(...found.problems.map((p) => ({ ...p, path: p.path === '' ? at : `${at}: ${p.path}` })));
    return found.ok ? found.value : undefined;
  };
  const scenario = await named(document.value.scenario, 'scenario');
  const others = new Map<string, Loaded>();
  for (const [i, { scenario: name }] of (document.value.grounds ?? []).entries()) {
    if (name === undefined || others.has(name)) continue;
    const other = await named(name, `grounds[${i}].scenario`);
    if (other !== undefined) others.set(name, other);
  }
  if (scenario === undefined) return { ok: false, problems };
  const own = groundFiles(text.folder, (problem) => problems.push(problem));
  const stock = stockNamed(document.value.stock, own, problems);
  const bound = bindStudy(document.value, {
    ...scenario,
    own,
    other: (name) => others.get(name),
    ...(stock === undefined ? {} : { stock }),
  });
  problems.push(...bound.problems);
  if (!bound.ok || problems.some(({ severity }) => severity === 'error')) return { ok: false, problems };
  return { ok: true, value: { study: bound.value, scenario: scenario.scenario }, problems };
}

/** The stock list that a study names, JSON or a table. */
function stockNamed(name: string | undefined, own: GroundSource, problems: Problem[]): Stock | undefined {
  const text = name === undefined ? undefined : own.file(name);
  if (name === undefined) return undefined;
  if (text === undefined) {
    problems.push({ path: 'stock', message: `'${name}' cannot be read`, severity: 'error' });
    return undefined;
  }
  const read = /\.json$/i.test(name) ? readStock(text) : readStockTable(text);
  problems.push(...read.problems.map((p) => ({ ...p, path: `stock: ${p.path}` })));
  return read.ok ? read.value : undefined;
}

/** A scenario that a study names: a file in its folder, or the name of one that ships. */
async function scenarioNamed(
  name: string,
  folder: string,
  surroundings: Surroundings,
): Promise<Checked<Loaded>> {
  const ships = demoNames(surroundings.demoFolder).includes(name);
  if (!ships && (name === '-' || leadsElsewhere(folder, name)))
    return {
      ok: false,
      problems: [
        {
          path: '',
          message: `'${name}' lies outside of the study's folder, so it is not read`,
          hint: 'put the scenario beside the study, or in a folder below it',
          severity: 'error',
        },
      ],
    };
  return load(ships ? name : resolve(folder, name), [], { ...surroundings, cwd: folder });
}
