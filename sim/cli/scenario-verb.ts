import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { Problem } from '../../shared/problem.ts';
import { type Exit, exits } from './exit.ts';
import { checkFolder, FolderError, holdInterrupts, type OutFile, writeFolder } from './files/folder.ts';
import { sayName } from './input/document.ts';
import { type Loaded, load } from './input/load.ts';
import { type AnyReport, type Mode, reportJson, unreadableReport } from './report-json.ts';
import type { Terminal } from './terminal.ts';
import { problemText } from './text/problems.ts';
import type { Surroundings, Verb } from './verb.ts';

/** What came of a scenario. */
export interface Outcome {
  readonly exit: Exit;
  /** For programs: what `--json` prints and `--out` writes as report.json. */
  readonly report: AnyReport;
  /** For people. */
  readonly text: string;
  /** What `--quiet` leaves for people: nothing when all held. */
  readonly quiet: string;
  /** What came up while it was worked on, besides the problems found on reading. */
  readonly found: readonly Problem[];
  /** Other files for `--out`; their texts are made when they are written. */
  readonly files: readonly OutFile[];
}

/**
 * A verb that works on one scenario, with options F of its own besides those that all have. `work` may take long and
 * throws nothing for a scenario that was read.
 */
export interface ScenarioVerb<F = unknown> extends Pick<Verb, 'name' | 'summary' | 'examples'> {
  readonly mode: Mode;
  /** Declares its own options. */
  options?(command: Command): void;
  /** Changes of fields that its own options stand for, as `--set` has them. */
  sets?(own: F): readonly string[];
  work(loaded: Loaded, warnings: readonly Problem[], terminal: Terminal, own: F): Outcome;
}

interface Options {
  readonly set?: readonly string[];
  readonly out?: string;
  readonly json?: true;
  readonly quiet?: true;
}

const collect = (value: string, before: readonly string[] = []): readonly string[] => [...before, value];

/** Makes a verb of the work that it does: reading, problems, printing, files and exit codes are the same for all. */
export function scenarioVerb<F = unknown>(work: ScenarioVerb<F>): Verb {
  const { name, summary, examples } = work;
  return {
    name,
    summary,
    examples,
    attach(command: Command, surroundings: Surroundings, done: (exit: Exit) => void): void {
      command
        .argument('<file>', "scenario file; '-' for standard input; or the name of a demo")
        .option('-s, --set <path=value>', 'change a field before the run; may be given again', collect)
        .option('-o, --out <dir>', 'write the results into this folder; it is made when missing')
        .option('--json', 'print the report as JSON')
        .option('-q, --quiet', 'print only what failed: nothing when all holds')
        .action(async (file: string, options: Options & F) =>
          done(await run(work, file, options, surroundings)),
        );
      work.options?.(command);
    },
  };
}

/** The whole way of one scenario through a verb. */
async function run<F>(
  verb: ScenarioVerb<F>,
  file: string,
  options: Options & F,
  surroundings: Surroundings,
): Promise<Exit> {
  const { terminal } = surroundings;
  try {
    const out = options.out === undefined ? undefined : resolve(surroundings.cwd, options.out);
    if (out !== undefined) checkFolder(out);
    const read = await load(file, [...(options.set ?? []), ...(verb.sets?.(options) ?? [])], surroundings);
    tell(file, read.problems, options, terminal);
    if (!read.ok) {
      if (options.json === true) terminal.result(reportJson(unreadableReport(verb.mode, read.problems)));
      return exits.unusable;
    }
    const outcome = verb.work(
      read.value,
      read.problems,
      options.quiet === true ? silent(terminal) : terminal,
      options,
    );
    tell(file, outcome.found, options, terminal);
    return finish(outcome, out, options, terminal);
  } catch (error) {
    if (!(error instanceof FolderError)) throw error;
    terminal.remark(`axlewright: ${error.message}\n`);
    return exits.unusable;
  }
}

/** Prints problems; warnings not when it has to be quiet. */
function tell(file: string, problems: readonly Problem[], { quiet }: Options, terminal: Terminal): void {
  const spoken = quiet === true ? problems.filter((problem) => problem.severity === 'error') : problems;
  if (spoken.length > 0) terminal.remark(problemText(sayName(file), spoken));
}

/** The same terminal without progress. */
function silent(terminal: Terminal): Terminal {
  return { ...terminal, progress() {} };
}

/** Writes the files first, so that a result is printed only when everything that was asked for is there. */
function finish(
  outcome: Outcome,
  out: string | undefined,
  { json, quiet }: Options,
  terminal: Terminal,
): Exit {
  const report = reportJson(outcome.report);
  terminal.progress();
  if (out !== undefined) {
    const paths = holdInterrupts(() =>
      writeFolder(out, [...outcome.files, { name: 'report.json', text: report }]),
    );
    if (quiet !== true) terminal.remark(paths.map((path) => `wrote ${path}\n`).join(''));
  }
  if (json === true) terminal.result(report);
  else terminal.result(quiet === true ? outcome.quiet : outcome.text);
  return outcome.exit;
}
