/** Reads from a source file which other modules it names, and whether only their types. */
import { parseSync, Visitor } from 'vite';

/** One source file of the project: path from the top level with forward slashes, and its text. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** One place in a file that names another module. */
export interface Reference {
  /** The words between the quotes, such as `../shared/units.ts` or `planck`. */
  readonly specifier: string;
  /** True when nothing of it is left at run time. `import { type X }` leaves an import behind, so it is not. */
  readonly typeOnly: boolean;
  /** Line in the file, counted from 1. */
  readonly line: number;
}

/** One use of something that pure code must be given as an argument instead. */
export interface Impurity {
  readonly what: string;
  readonly line: number;
}

interface Literal {
  readonly type: string;
  readonly value?: unknown;
}

function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** @throws when the file has a syntax error: a file that cannot be read must not count as one without imports */
function parse(file: SourceFile) {
  const lang = file.path.endsWith('x') ? 'tsx' : 'ts';
  const { program, errors } = parseSync(file.path, file.text, { lang });
  const [first] = errors;
  if (first !== undefined) throw new Error(`${file.path} cannot be parsed: ${first.message}`);
  return program;
}

/**
 * All modules that a file names: imports, re-exports, `import()` of values and of types, and
 * `new URL('…', import.meta.url)`, which is how a worker is started.
 * @param file source file; TypeScript with or without JSX, told by its name
 * @returns references in no particular order
 */
export function referencesOf(file: SourceFile): Reference[] {
  const found: Reference[] = [];
  const add = (source: Literal | null | undefined, start: number, typeOnly: boolean) => {
    if (source === null || source === undefined) return;
    const specifier = typeof source.value === 'string' ? source.value : '(not a literal)';
    found.push({ specifier, typeOnly, line: lineAt(file.text, start) });
  };
  new Visitor({
    ImportDeclaration: (node) => add(node.source, node.start, node.importKind === 'type'),
    ExportNamedDeclaration: (node) => add(node.source, node.start, node.exportKind === 'type'),
    ExportAllDeclaration: (node) => add(node.source, node.start, node.exportKind === 'type'),
    ImportExpression: (node) => add(node.source as Literal, node.start, false),
    TSImportType: (node) => add(node.source, node.start, true),
    NewExpression: (node) => {
      const [path, base] = node.arguments;
      const isUrl = node.callee.type === 'Identifier' && node.callee.name === 'URL';
      if (isUrl && path?.type === 'Literal' && base?.type === 'MemberExpression')
        add(path, node.start, false);
    },
  }).visit(parse(file));
  return found;
}

/**
 * Uses of the clock, of chance, and of module-level variables that can change.
 * @param file source file of a room that must give the same answer for the same arguments
 */
export function impuritiesOf(file: SourceFile): Impurity[] {
  const found: Impurity[] = [];
  const add = (what: string, start: number) => found.push({ what, line: lineAt(file.text, start) });
  const program = parse(file);
  for (const statement of program.body) {
    const inner = statement.type === 'ExportNamedDeclaration' ? statement.declaration : statement;
    if (inner?.type === 'VariableDeclaration' && inner.kind !== 'const') {
      add(`module-level ${inner.kind}`, statement.start);
    }
  }
  new Visitor({
    MemberExpression: (node) => {
      if (node.object.type !== 'Identifier' || node.property.type !== 'Identifier') return;
      const name = `${node.object.name}.${node.property.name}`;
      if (['Math.random', 'Date.now', 'performance.now'].includes(name)) add(name, node.start);
    },
    NewExpression: (node) => {
      if (node.callee.type === 'Identifier' && node.callee.name === 'Date') add('new Date', node.start);
    },
  }).visit(program);
  return found;
}
