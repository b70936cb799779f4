import type { z } from 'zod';
import { didYouMean } from '../../shared/near.ts';
import { type Path, pathText } from '../../shared/path.ts';
import type { Problem, Problems } from '../../shared/problem.ts';
import {
  childOf,
  isFigure,
  keysAt,
  kindsOf,
  optionFor,
  optionsOf,
  schemaAt,
} from '../../shared/schema/describe.ts';
import { jsonKind } from '../../shared/schema/quantity.ts';

type Issue = z.core.$ZodIssue;
type Sized = Issue & { code: 'too_small' | 'too_big' };
type Union = Issue & { code: 'invalid_union' };

/** Problems of one sort that are told one by one; nobody mends more at a time, and a file of nonsense has millions. */
const mostTold = 1000;

/** A document and its schema. */
interface Reading {
  readonly schema: z.ZodType;
  readonly document: unknown;
}

const valueAt = ({ document }: Reading, path: Path): unknown => path.reduce<unknown>(childOf, document);

function error(path: Path, message: string, hint?: string): Problem {
  return { path: pathText(path), message, severity: 'error', ...(hint === undefined ? {} : { hint }) };
}

/** What zod calls a type, and what people call it. */
const typeNames: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
};
const typeName = (expected: string) => typeNames[expected] ?? 'something else';

/** A value as it stands in the document, short. */
function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value);
  return typeof value === 'number' ? String(value) : jsonKind(value);
}

function missing(reading: Reading, path: Path): Problem {
  const parent = path.slice(0, -1);
  const known = keysAt(reading.schema, reading.document, parent);
  const there = valueAt(reading, parent) ?? {};
  const name = String(path.at(-1) ?? '');
  // A misspelt key is told at the key itself; here it is only named.
  const written = Object.keys(there).slice(0, 100);
  const slip = written.find(
    (key) => !known.includes(key) && didYouMean(key, known) === `did you mean "${name}"?`,
  );
  return error(
    path,
    'is missing',
    slip === undefined ? undefined : `"${slip}" looks like a misspelling of it`,
  );
}

function wrongType(reading: Reading, path: Path, expected: string): Problem {
  const value = valueAt(reading, path);
  if (value === undefined) return missing(reading, path);
  const is = expected === 'int' && typeof value === 'number' ? String(value) : jsonKind(value);
  return error(path, `is ${is}, ${typeName(expected)} was wanted`);
}

function unknownKeys(reading: Reading, path: Path, keys: readonly string[]): Problem[] {
  const known = keysAt(reading.schema, reading.document, path);
  const list = known.length <= 20 ? `known here: ${known.join(', ')}` : undefined;
  const told = keys
    .slice(0, mostTold)
    .map((key) => error([...path, key], 'is no field that is known here', didYouMean(key, known) ?? list));
  return keys.length > mostTold
    ? [...told, error(path, `has ${keys.length - mostTold} more fields that are not known here`)]
    : told;
}

function wrongSize(reading: Reading, path: Path, issue: Sized): Problem {
  const value = valueAt(reading, path);
  const limit = issue.code === 'too_small' ? issue.minimum : issue.maximum;
  const bound = `${issue.code === 'too_small' ? 'at least' : 'at most'} ${limit.toLocaleString('en')}`;
  if (value === '') return error(path, 'is empty');
  if (typeof value === 'string')
    return error(path, `has ${value.length.toLocaleString('en')} characters, must have ${bound}`);
  if (!Array.isArray(value)) return error(path, `is ${shown(value)}, must be ${bound}`);
  const entries = `${value.length.toLocaleString('en')} ${value.length === 1 ? 'entry' : 'entries'}`;
  return error(path, `has ${entries}, must have ${bound}`);
}

function wrongValue(reading: Reading, path: Path, values: readonly unknown[]): Problem {
  const value = valueAt(reading, path);
  if (value === undefined) return missing(reading, path);
  const texts = values.filter((v) => typeof v === 'string');
  const near = typeof value === 'string' ? didYouMean(value, texts) : undefined;
  const list = values.map(shown).join(', ');
  return error(path, `is ${shown(value)}, must be ${values.length === 1 ? list : `one of ${list}`}`, near);
}

function wrongKind(reading: Reading, path: Path): Problem {
  const schema = schemaAt(reading.schema, reading.document, path.slice(0, -1));
  const names = (schema === undefined ? undefined : kindsOf(schema))?.names ?? [];
  const value = valueAt(reading, path);
  const list = `known: ${names.join(', ')}`;
  if (value === undefined) return error(path, 'is missing', list);
  const near = typeof value === 'string' ? didYouMean(value, names) : undefined;
  const hint = near === undefined ? list : `${near} ${list}`;
  return error(path, `is ${shown(value)}, which is no kind that is known here`, hint);
}

/** A union that isn't told apart by kind: what is wrong with the option that the value comes nearest to. */
function wrongUnion(reading: Reading, path: Path, issue: Union): Problem[] {
  const schema = schemaAt(reading.schema, reading.document, path);
  const value = valueAt(reading, path);
  // The text of a figure is our own (see quantity): it names the dimension that was wanted.
  if (schema !== undefined && isFigure(schema)) {
    const hint = value === undefined ? missing(reading, path).hint : undefined;
    return [error(path, issue.message, hint)];
  }
  if (value === undefined) return [missing(reading, path)];
  const figure = schema === undefined ? -1 : optionsOf(schema).findIndex(isFigure);
  if (figure >= 0 && (typeof value === 'string' || typeof value === 'number')) {
    const told = (issue.errors[figure] ?? []).filter((inner) => inner.code === 'custom');
    if (told.length > 0) return told.flatMap((inner) => problemsOf(reading, { ...inner, path: issue.path }));
  }
  const meant = schema === undefined ? undefined : optionFor(schema, value);
  if (schema !== undefined && meant !== undefined && typeof value === 'object' && value !== null) {
    const inner = issue.errors[optionsOf(schema).indexOf(meant)] ?? [];
    if (inner.length > 0)
      return inner.flatMap((i) => problemsOf(reading, { ...i, path: [...path, ...i.path] }));
  }
  return [error(path, `is ${shown(value)}, must be ${wantedBy(issue)}`)];
}

/** What the options of a union take, when the value fits none of them: 'one of 1, 2, 4', '"all", or a list'. */
function wantedBy(issue: Union): string {
  const flat = issue.errors.flat();
  const values = flat.flatMap((inner) => (inner.code === 'invalid_value' ? inner.values.map(shown) : []));
  const types = flat.flatMap((inner) =>
    inner.code === 'invalid_type' && inner.path.length === 0 ? [typeName(inner.expected)] : [],
  );
  const list = values.length > 1 ? [`one of ${values.join(', ')}`] : values;
  return [...new Set([...list, ...types])].join(', or ') || 'something else';
}

/** What is wrong, in plain words. Only messages of our own (`custom`) are passed on as they are. */
function problemsOf(reading: Reading, issue: Issue): Problem[] {
  const path: Path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
  switch (issue.code) {
    case 'custom': {
      const hint = issue.params?.hint;
      return [error(path, issue.message, typeof hint === 'string' ? hint : undefined)];
    }
    case 'invalid_type':
      return [wrongType(reading, path, issue.expected)];
    case 'unrecognized_keys':
      return unknownKeys(reading, path, issue.keys);
    case 'too_small':
    case 'too_big':
      return [wrongSize(reading, path, issue)];
    case 'invalid_value':
      return [wrongValue(reading, path, issue.values)];
    case 'invalid_union':
      return 'discriminator' in issue && issue.errors.length === 0
        ? [wrongKind(reading, path)]
        : wrongUnion(reading, path, issue);
    default:
      return [error(path, `is ${shown(valueAt(reading, path))}, which is not of the form that is wanted`)];
  }
}

/** Puts what the schema found wrong with a document into plain words, each with its path, and adds it to `problems`. */
export function tellIssues(
  schema: z.ZodType,
  document: unknown,
  issues: readonly Issue[],
  problems: Problems,
): void {
  problems.add(issues.slice(0, mostTold).flatMap((issue) => problemsOf({ schema, document }, issue)));
  if (issues.length > mostTold)
    problems.error('', `has ${issues.length - mostTold} more problems`, 'mend those above first');
}
