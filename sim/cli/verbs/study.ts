import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { InvalidArgumentError } from 'commander';
import type { Problem } from '../../../shared/problem.ts';
import { record } from '../../dynamics/drive.ts';
import type { BoundStudy } from '../../tuning/bind.ts';
import { bandStationsOf, Tryout } from '../../tuning/evaluate.ts';
import { freed } from '../../tuning/freed.ts';
import { changesBetween, type Head, headOf } from '../../tuning/journal.ts';
import { resultsOf, type ShownSureness, type StudyResults, soundDesigns } from '../../tuning/results.ts';
import { answerOf, summaryOf } from '../../tuning/summary.ts';
import { surenessShown } from '../../tuning/sure.ts';
import { type Exit, exits } from '../exit.ts';
import { checkFolder, FolderError, holdInterrupts, type OutFile, writeFolder } from '../files/folder.ts';
import { samplesCsv } from '../files/samples-csv.ts';
import { sayName } from '../input/document.ts';
import { loadStudy } from '../input/study.ts';
import { fieldSvg, frontSvg, tornadoSvg } from '../picture/study.ts';
import { bandsSvg, spreadsSvg } from '../picture/sureness.ts';
import { reportJson, unreadableReport } from '../report-json.ts';
import { drawBest } from '../study/draw.ts';
import { JournalFile } from '../study/journal-file.ts';
import { Pace } from '../study/pace.ts';
import { Stopped } from '../study/pool.ts';
import { startPool } from '../study/start.ts';
import { type Tried, tryAll } from '../study/try-all.ts';
import { problemText } from '../text/problems.ts';
import { tunedText } from '../text/tuned.ts';
import type { StudyReport } from '../tuned-report.ts';
import type { Surroundings, Verb } from '../verb.ts';

interface Options {
  readonly out?: string;
  readonly resume?: true;
  readonly workers: number;
  readonly json?: true;
  readonly quiet?: true;
}

/** `axlewright study`: tries designs of a scenario and says which one to take. */
export const study: Verb = {
  name: 'study',
  summary: 'try designs: numbers of a scenario that vary, and which of them serve best',
  examples: [
    ['axlewright study corrie-6x6-bars --out results', 'a study that comes with the program'],
    ['axlewright study my-study.json --out results --resume', 'go on where it was stopped'],
  ],
  attach(command, surroundings, done) {
    command
      .argument('<file>', "study file; '-' for standard input; or the name of a study that ships")
      .option('-o, --out <dir>', 'write journal and results into this folder; it is made when missing')
      .option('--resume', 'go on with the journal in the folder; nothing is computed twice')
      .option(
        '--workers <number>',
        'how many designs are tried at once; all cores but one when left out',
        workersOf,
        Math.max(1, availableParallelism() - 1),
      )
      .option('--json', 'print the results as JSON')
      .option('-q, --quiet', 'print nothing when a design holds all criteria')
      .action(async (file: string, options: Options) => done(await run(file, options, surroundings)));
  },
};

function workersOf(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1 || number > 256)
    throw new InvalidArgumentError('Wanted: a whole number from 1 to 256.');
  return number;
}

async function run(file: string, options: Options, surroundings: Surroundings): Promise<Exit> {
  const { terminal, cwd } = surroundings;
  const temporary = options.out === undefined ? mkdtempSync(join(tmpdir(), 'axlewright-study-')) : undefined;
  const out = temporary ?? resolve(cwd, options.out ?? '');
  try {
    checkFolder(out);
    if (options.resume === true && temporary !== undefined)
      throw new FolderError('--resume needs --out: the folder with the journal');
    const read = await loadStudy(file, surroundings);
    const spoken = read.problems.filter((p) => options.quiet !== true || p.severity === 'error');
    if (spoken.length > 0) terminal.remark(problemText(sayName(file), spoken));
    if (!read.ok) {
      if (options.json === true) terminal.result(reportJson(unreadableReport('study', read.problems)));
      return exits.unusable;
    }
    return await studied(read.value.study, read.problems, out, options, surroundings);
  } catch (error) {
    if (!(error instanceof FolderError)) throw error;
    terminal.progress();
    terminal.remark(`axlewright: ${error.message}\n`);
    return exits.unusable;
  } finally {
    if (temporary !== undefined) rmSync(temporary, { recursive: true, force: true });
  }
}

/** Tries everything with the journal beside it, then writes and prints what came of it. */
async function studied(
  bound: BoundStudy,
  warnings: readonly Problem[],
  out: string,
  options: Options,
  surroundings: Surroundings,
): Promise<Exit> {
  const { terminal } = surroundings;
  makeFolder(out);
  const journal = openJournal(
    join(out, 'journal.jsonl'),
    headOf(bound, surroundings.version),
    options.resume === true,
  );
  try {
    const about = new Tryout(bound, record).about();
    const tried = await tryOut(bound, journal, out, options, surroundings);
    if (tried === undefined) return exits.unusable;
    const results = resultsOf(bound, tried.tally, tried, about);
    const report: StudyReport = {
      mode: 'study',
      ...results,
      answer: answerOf(results),
      problems: warnings,
      pass: results.taken !== null,
    };
    const json = reportJson(report);
    const units = about.map(({ unit }) => unit);
    terminal.progress();
    if (options.out !== undefined) {
      const files = filesOf(bound, results, tried, units, journal, json);
      const paths = holdInterrupts(() => writeFolder(out, files));
      if (options.quiet !== true) terminal.remark(paths.map((path) => `wrote ${path}\n`).join(''));
    }
    if (options.json === true) terminal.result(json);
    else if (options.quiet !== true || !report.pass)
      terminal.result(
        options.quiet === true
          ? `${report.answer.slice(2).join('\n')}\n`
          : tunedText(results, terminal.style, terminal.width),
      );
    return report.pass ? exits.pass : exits.failed;
  } finally {
    journal.close();
  }
}

function makeFolder(out: string): void {
  try {
    mkdirSync(out, { recursive: true });
  } catch (error) {
    throw new FolderError(`'${out}' cannot be made: ${(error as Error).message}`);
  }
}

/**
 * Opens the journal of this study. Work that is there is never thrown away: an unfinished journal wants `--resume`, and
 * one of another study or a changed scenario is refused.
 * @throws FolderError
 */
function openJournal(path: string, head: Head, resume: boolean): JournalFile {
  const journal = new JournalFile(path);
  const refuse = (message: string): never => {
    journal.close();
    throw new FolderError(message);
  };
  if (journal.empty) {
    journal.begin(head);
    return journal;
  }
  const before = journal.head;
  if (before === undefined)
    return refuse(`'${path}' is no journal of a study: choose another folder, or take the file away`);
  const changes = changesBetween(before, head);
  if (changes.length > 0)
    return refuse(
      `the journal in '${path}' is of another study or scenario: ${changes.join('; ')}. Change that back, choose another folder, or take the journal away`,
    );
  if (!resume)
    return refuse(
      `'${path}' holds ${journal.size} designs of this study already: add --resume to go on with them, choose another folder, or take the journal away`,
    );
  return journal;
}

/** All that was found out. */
interface Everything extends Tried {
  readonly drawn: ReadonlyMap<number, ShownSureness>;
}

/** Runs the study until it is done; undefined when it was interrupted, which is said. */
async function tryOut(
  bound: BoundStudy,
  journal: JournalFile,
  out: string,
  { workers, quiet }: Options,
  { terminal, now }: Surroundings,
): Promise<Everything | undefined> {
  const free = freed(bound);
  const pool = startPool(free === undefined ? [bound] : [bound, free.study], workers);
  const pace = new Pace(now);
  let interrupted = false;
  const interrupt = (): void => {
    interrupted = true;
    pool.drain();
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.once(signal, interrupt);
  try {
    const progress =
      quiet === true ? () => {} : (step: Parameters<Pace['line']>[0]) => terminal.progress(pace.line(step));
    const means = { pool, journal, progress };
    const tried = await tryAll(bound, free, means);
    const drawn = await drawBest(bound, soundDesigns(bound, tried.tally, tried.driven), means);
    const stations = bandStationsOf(bound);
    return { ...tried, drawn: new Map(drawn.map((each) => [each.n, surenessShown(bound, each, stations)])) };
  } catch (error) {
    if (!(error instanceof Stopped) || !interrupted) {
      if (error instanceof FolderError)
        throw new FolderError(
          `${error.message}; ${journal.size} designs are kept in it: go on with --resume`,
        );
      throw error;
    }
    terminal.progress();
    terminal.remark(
      `axlewright: stopped; ${journal.size} designs are kept in '${join(out, 'journal.jsonl')}': go on with --resume\n`,
    );
    return undefined;
  } finally {
    for (const signal of signals) process.off(signal, interrupt);
    await pool.close();
  }
}

/** What is written. The journal is written anew in the order of the plan, so that it tells nothing of who was first. */
function filesOf(
  bound: BoundStudy,
  results: StudyResults,
  { tally }: Tried,
  units: readonly string[],
  journal: JournalFile,
  report: string,
): OutFile[] {
  const pictures = [
    ['field.svg', fieldSvg(results)],
    ['front.svg', frontSvg(results, tally.shown)],
    ['tornado.svg', tornadoSvg(results)],
    ['bands.svg', bandsSvg(results)],
    ['spreads.svg', spreadsSvg(results)],
  ] as const;
  return [
    { name: 'summary.md', text: summaryOf(results) },
    { name: 'samples.csv', text: samplesCsv(bound, units, journal.samples()) },
    ...pictures.flatMap(([name, text]) => (text === undefined ? [] : [{ name, text }])),
    { name: 'journal.jsonl', text: journal.inOrder() },
    { name: 'report.json', text: report },
  ];
}
