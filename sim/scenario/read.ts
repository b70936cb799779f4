import { type Checked, Problems } from '../../shared/problem.ts';
import { jsonKind } from '../../shared/schema/quantity.ts';
import { formatName, formatVersion, limits } from '../../shared/schema/scenario.ts';
import type { Ground, GroundSource } from '../ground/ground.ts';
import { layGround } from '../ground/lay.ts';
import { growTree } from '../mechanism/build.ts';
import { compileChecked } from '../mechanism/compile.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { criterionNameProblems } from '../report/names.ts';
import { type Draft, draftOf, wholeDraft } from './draft.ts';
import { readJson } from './json.ts';
import { entryChecks, wholeChecks } from './meaning/registry.ts';
import { migrate, type RawDocument } from './migrate.ts';
import { tellNames } from './names.ts';
import { type Scenario, scenarioDocument } from './schema.ts';
import { tellIssues } from './wording.ts';

const failed = (problems: Problems): { ok: false; problems: Problems['list'] } => ({
  ok: false,
  problems: problems.list,
});

/** Whether a value that is no text is nested too deep or too large to be a document; circles are endlessly deep. */
function isOutsized(document: unknown): boolean {
  let values = 0;
  const deep = (value: unknown, depth: number): boolean => {
    if (typeof value !== 'object' || value === null) return false;
    values += 1;
    return (
      depth > limits.depth ||
      values > limits.bytes ||
      Object.values(value).some((inner) => deep(inner, depth + 1))
    );
  };
  return deep(document, 1);
}

/** The parsed document: an object, not too deep. */
function objectOf(input: unknown, problems: Problems): RawDocument | undefined {
  const json = typeof input === 'string' ? readJson(input) : undefined;
  problems.add(json?.problems ?? []);
  if (json?.ok === false) return undefined;
  const document = json === undefined ? input : json.value;
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    problems.error(
      '',
      `is ${jsonKind(document)}, an object was wanted`,
      'a scenario begins with { "format": "axlewright-scenario", "version": 1, …',
    );
    return undefined;
  }
  if (json === undefined && isOutsized(document)) {
    problems.error('', `is nested deeper than ${limits.depth} levels, or is too large`);
    return undefined;
  }
  return document as RawDocument;
}

/** True when it makes no sense to read on: another format, or a newer one. */
function isForeign(document: RawDocument, problems: Problems): boolean {
  const { format, version } = document;
  if (format !== undefined && format !== formatName) {
    problems.error(
      'format',
      `is ${typeof format === 'string' ? `"${format.slice(0, 60)}"` : jsonKind(format)}, not "${formatName}"`,
      'this is no scenario of this program',
    );
    return true;
  }
  if (typeof version === 'number' && version > formatVersion) {
    problems.error(
      'version',
      `is ${version}, newer than this program, which reads up to version ${formatVersion}`,
      'update the program, or save the scenario in the older version',
    );
    return true;
  }
  return false;
}

/** Checks of single entries, of names among criteria, and of the ground; gives the ground when it could be laid. */
function tellEntries(draft: Draft, source: GroundSource, problems: Problems): Ground | undefined {
  const indices = draft.members.flatMap((member, i) => (member === undefined ? [] : [i]));
  const tree = growTree(draft.members.filter((member) => member !== undefined));
  // The tree counts the members that could be read; the document counts all.
  const inDocument = (path: string) =>
    path.replace(
      /^vehicle\.members\[(\d+)\]/,
      (_, n: string) => `vehicle.members[${indices[Number(n)] ?? n}]`,
    );
  problems.add(tree.problems.list.map((problem) => ({ ...problem, path: inDocument(problem.path) })));
  for (const check of entryChecks) check(draft, tree, problems);
  const { criteria, ground } = draft;
  if (
    criteria.every((c) => c !== undefined) &&
    [...draft.members, ...draft.wheels].every((e) => e !== undefined)
  ) {
    const named = draft as unknown as Pick<Mechanism, 'wheels' | 'members'>;
    problems.add(criterionNameProblems(criteria, named));
  }
  if (ground.length === 0 || !ground.every((piece) => piece !== undefined)) return undefined;
  const laid = layGround(ground, source);
  problems.add(laid.problems);
  return laid.ok ? laid.value : undefined;
}

/** Checks of vehicle, ground and run together. */
function tellWhole(scenario: Scenario, ground: Ground, problems: Problems): void {
  const compiled = compileChecked(scenario);
  problems.add(compiled.problems);
  if (!compiled.ok) return;
  for (const check of wholeChecks) check({ scenario, mechanism: compiled.value, ground }, problems);
}

/** A value of a document with no list longer than `most`. */
function shortened(value: unknown, most: number): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.slice(0, most).map((inner) => shortened(inner, most));
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shortened(inner, most)]));
}

/**
 * What the schema makes of a document. It hands issues on as arguments of a call, so that a list with a hundred thousand
 * wrong entries fills the stack: such a document is told by the beginnings of its lists.
 */
function parsed(document: RawDocument, problems: Problems) {
  try {
    return { document, read: scenarioDocument.safeParse(document) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    problems.error('', 'has too many mistakes to tell all', 'these are in the first entries of its lists');
    const beginnings = shortened(document, 200) as RawDocument;
    return { document: beginnings, read: scenarioDocument.safeParse(beginnings) };
  }
}

/**
 * Reads a scenario: JSON text, or a value that was parsed already. `source` hands over files that the document names.
 * Collects all problems it can find, each with its path in the document, what is wrong, and a hint; warnings come with
 * the value. Older versions are brought up to date on the way; the input is never changed. Never throws for anything
 * that is wrong with the input.
 */
export function readScenario(input: unknown, source: GroundSource): Checked<Scenario> {
  const problems = new Problems();
  const raw = objectOf(input, problems);
  if (raw === undefined || isForeign(raw, problems)) return failed(problems);
  const { document, read } = parsed(migrate(raw), problems);
  if (!read.success) tellIssues(scenarioDocument, document, read.error.issues, problems);
  tellNames(document, problems);
  const ground = tellEntries(read.success ? wholeDraft(read.data) : draftOf(document), source, problems);
  if (!read.success || ground === undefined || problems.failed) return failed(problems);
  tellWhole(read.data, ground, problems);
  return problems.check(read.data);
}
