/**
 * Runs every check and ends with one line: `N passed, N failed` (and `, N skipped` when some were).
 *
 *     node tests/run.mjs           types, lint, then every test project (unit, browser, app)
 *     node tests/run.mjs --quick   types, lint, import rules and unit tests
 *
 * Type checking and linting count as one check each. The exit code is 0 only when nothing failed. A runner that
 * stops early, a test file that cannot be loaded, or a project in which no test ran counts as a failure, so that
 * an empty run can never pass.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const BIN = join(ROOT, 'node_modules', '.bin');
const RESULTS = join(ROOT, 'node_modules', '.cache', 'axlewright', 'results.json');

/** The rows of the summary: which folder under tests/ belongs to which row. Anything else is in 'unit'. */
const ROWS = { fences: 'import rules', browser: 'browser', app: 'app' };

/**
 * Starts a program of node_modules/.bin.
 * @param {string} name @param {string[]} args @param {'pipe' | 'inherit'} output
 * @returns {Promise<{ code: number, text: string }>} exit code and, when piped, all it printed
 */
function program(name, args, output) {
  return new Promise((resolve) => {
    const windows = process.platform === 'win32';
    const child = spawn(join(BIN, windows ? `${name}.cmd` : name), args, {
      cwd: ROOT,
      shell: windows,
      stdio: ['ignore', output, output],
    });
    let text = '';
    child.stdout?.on('data', (chunk) => {
      text += chunk;
    });
    child.stderr?.on('data', (chunk) => {
      text += chunk;
    });
    child.on('error', (error) => resolve({ code: 1, text: `${error.message}\n` }));
    child.on('close', (code) => resolve({ code: code ?? 1, text }));
  });
}

/** Runs a step that either holds or not, and prints what it said when it does not. */
async function step(name, command, args) {
  const { code, text } = await program(command, args, 'pipe');
  if (code !== 0) process.stdout.write(`${name} failed:\n${text}\n`);
  return { name, passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 };
}

/** @returns {object[]} vitest's results per file, or an empty list when it wrote none */
function readResults() {
  try {
    return JSON.parse(readFileSync(RESULTS, 'utf8')).testResults;
  } catch {
    return [];
  }
}

/** Counts vitest's results per row. A file that failed without a failed test of its own counts as one failure. */
function countPerRow(files, names) {
  const rows = new Map(names.map((name) => [name, { name, passed: 0, failed: 0, skipped: 0 }]));
  for (const file of files) {
    const [, folder = ''] = relative(ROOT, file.name).split(sep);
    const row = rows.get(ROWS[folder] ?? 'unit');
    const failedBefore = row.failed;
    for (const { status } of file.assertionResults) {
      if (status === 'passed') row.passed += 1;
      else if (status === 'failed') row.failed += 1;
      else row.skipped += 1;
    }
    if (file.status === 'failed' && row.failed === failedBefore) row.failed += 1;
  }
  return [...rows.values()];
}

/** Runs the test projects and counts their results, one row per kind of test. */
async function tests(quick) {
  mkdirSync(join(RESULTS, '..'), { recursive: true });
  rmSync(RESULTS, { force: true });
  const names = quick ? ['import rules', 'unit'] : ['import rules', 'unit', 'browser', 'app'];
  // the quick loop: one process for many files, and only what is not itself a whole run
  const project = quick ? ['--project', 'unit', '--no-isolate', 'tests/unit', 'tests/fences'] : [];
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${RESULTS}`];
  const { code } = await program('vitest', ['run', ...project, ...reporters], 'inherit');
  const rows = countPerRow(readResults(), names);
  for (const row of rows) {
    if (row.passed + row.failed > 0) continue;
    process.stdout.write(`No test ran in '${row.name}'.\n`);
    row.failed += 1;
  }
  const runnerFailed = code !== 0 && rows.every((row) => row.failed === 0);
  return runnerFailed ? [...rows, { name: 'test runner', passed: 0, failed: 1, skipped: 0 }] : rows;
}

function describe({ name, passed, failed, skipped }) {
  return `  ${name.padEnd(14)}${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}

function sum(rows) {
  const add = (key) => rows.reduce((total, row) => total + row[key], 0);
  return { passed: add('passed'), failed: add('failed'), skipped: add('skipped') };
}

const quick = process.argv.includes('--quick');
const steps = await Promise.all([
  step('types', 'tsc', ['-b']),
  step('lint', 'biome', ['check', '--error-on-warnings', '.']),
]);
const rows = [...steps, ...(await tests(quick))];
const total = sum(rows);
process.stdout.write(`\n${rows.map(describe).join('\n')}\n\n`);
process.stdout.write(
  `${total.passed} passed, ${total.failed} failed${total.skipped > 0 ? `, ${total.skipped} skipped` : ''}\n`,
);
process.exitCode = total.failed === 0 ? 0 : 1;
