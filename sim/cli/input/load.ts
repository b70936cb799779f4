import type { Checked, Problem } from '../../../shared/problem.ts';
import { chooseSubstep } from '../../dynamics/substep.ts';
import { compile, type GroundSource, loadScenario, type Scenario } from '../../index.ts';
import { readJson } from '../../scenario/json.ts';
import { applySetting } from '../../scenario/path.ts';
import type { Surroundings } from '../verb.ts';
import { readDocument } from './document.ts';
import { groundFiles } from './ground-files.ts';

/** A scenario, and the files beside it. */
export interface Loaded {
  readonly scenario: Scenario;
  readonly source: GroundSource;
  /** The document as it is written, settings applied: figures with their units and spreads. */
  readonly written: unknown;
}

/**
 * Reads a scenario: its text, the settings of the command line, the ground files that it names, and all checks that
 * can be made without running it.
 * @param settings texts of `--set`, applied in this order to the document as it is written
 */
export async function load(
  file: string,
  settings: readonly string[],
  surroundings: Surroundings,
): Promise<Checked<Loaded>> {
  const document = await readDocument(file, surroundings);
  if (!document.ok) return { ok: false, problems: [document.problem] };
  const changed = change(document.text, settings);
  if (!changed.ok) return changed;
  const refused: Problem[] = [];
  const source = groundFiles(document.folder, (problem) => refused.push(problem));
  const read = loadScenario(changed.value, source);
  const problems = [...refused, ...read.problems, ...(read.ok ? substepProblems(read.value) : [])];
  const sound = read.ok && !problems.some((problem) => problem.severity === 'error');
  if (!sound) return { ok: false, problems };
  const written = writtenOf(changed.value);
  return { ok: true, value: { scenario: read.value, source, written }, problems };
}

/** A document as a value. */
function writtenOf(document: unknown): unknown {
  if (typeof document !== 'string') return document;
  const read = readJson(document);
  return read.ok ? read.value : undefined;
}

/** The document with all settings applied; its text as it came when there are none. */
function change(text: string, settings: readonly string[]): Checked<unknown> {
  if (settings.length === 0) return { ok: true, value: text, problems: [] };
  const parsed = readJson(text);
  if (!parsed.ok) return parsed;
  let value = parsed.value;
  const problems: Problem[] = [];
  for (const setting of settings) {
    const done = applySetting(value, setting);
    if (done.ok) value = done.value;
    else
      problems.push(
        ...done.problems.map((problem) => ({ ...problem, path: `--set ${problem.path}`.trim() })),
      );
  }
  return problems.length === 0 ? { ok: true, value, problems } : { ok: false, problems };
}

/** A substep asked for that is too long for the stiffest part: found here rather than when the run begins. */
function substepProblems(scenario: Scenario): Problem[] {
  const { substep, frames } = scenario.run;
  if (substep === undefined) return [];
  try {
    chooseSubstep(compile(scenario), frames, substep);
    return [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [{ path: 'run.substep', message: error.message, severity: 'error' }];
  }
}
