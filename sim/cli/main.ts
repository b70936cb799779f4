/** The command line, apart from the launcher: the process's streams, the verbs, the exit code. */
import { Command, CommanderError } from 'commander';
import { type Exit, exits } from './exit.ts';
import { demoFolder } from './input/demos.ts';
import { verbs } from './registry.ts';
import { openTerminal } from './terminal.ts';
import { clean } from './text/clean.ts';
import { table } from './text/table.ts';
import type { Surroundings } from './verb.ts';

/** What the launcher knows and the program does not. */
export interface Launch {
  /** Version of the package, such as `0.1.0`. */
  readonly version: string;
}

/**
 * Runs one command on this process's streams.
 * @param args the words after `axlewright`
 * @param launch what the launcher knows
 * @returns exit code: 0 pass, 1 a criterion failed, 2 bad input or a run that could not be finished
 */
export async function main(args: readonly string[], launch: Launch): Promise<Exit> {
  outliveReader(process.stdout);
  outliveReader(process.stderr);
  const terminal = openTerminal(process.stdout, process.stderr, process.env, Date.now);
  try {
    return await runCommand(args, launch, { terminal, stdin: process.stdin, demoFolder: demoFolder() });
  } catch (error) {
    // Node's own exit code for an exception is 1, which here means that a criterion failed.
    terminal.progress();
    terminal.remark(
      `axlewright: something went wrong inside, which is a mistake of the program: ${sayError(error)}\n`,
    );
    return exits.unusable;
  }
}

/** A reader that goes away (`| head`) ends the output, not the work: files are still written, the exit code stands. */
function outliveReader(stream: NodeJS.WriteStream): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

const sayError = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

/** Reads the words and runs the verb among them. */
async function runCommand(
  args: readonly string[],
  { version }: Launch,
  surroundings: Surroundings,
): Promise<Exit> {
  let exit: Exit = exits.pass;
  const program = programOf(version, surroundings, (code) => {
    exit = code;
  });
  try {
    await program.parseAsync(args.length === 0 ? ['--help'] : args, { from: 'user' });
    return args.length === 0 ? exits.unusable : exit;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    // Nothing but the program's name was said: the help is printed, but nothing was done.
    return error.exitCode === 0 && args.length > 0 ? exits.pass : exits.unusable;
  }
}

/** The program with its options, its verbs and its help. */
function programOf(version: string, surroundings: Surroundings, done: (exit: Exit) => void): Command {
  const { terminal } = surroundings;
  const program = new Command('axlewright')
    .description(
      'Suspension and articulation of multi-axle trucks over rough ground: wheel loads, travel, lift-off.',
    )
    .version(version, '-v, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .helpCommand('help [verb]', 'print help for a verb')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => terminal.result(text),
      writeErr: (text) => terminal.remark(text.replace(/^error: /, 'axlewright: ')),
      outputError: (text, write) => write(`${clean(text.replace(/\n/g, ' ').trim())}\n`),
    });
  for (const verb of verbs) {
    const command = program
      .command(verb.name)
      .summary(verb.summary)
      .description(`${sentence(verb.summary)}.`);
    verb.attach(command, surroundings, done);
    command.addHelpText('after', `\n${examplesText(verb.examples)}`);
  }
  const examples = verbs.flatMap((verb) => verb.examples);
  return program.addHelpText('after', `\n${examplesText(examples)}\n${exitText}`);
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function examplesText(examples: readonly (readonly [command: string, does: string])[]): string {
  const columns = [
    { head: 'Examples:', align: 'left' },
    { head: '', align: 'left' },
  ] as const;
  const [head = '', ...lines] = table(columns, examples);
  return [head, ...lines.map((line) => `  ${line}`)].join('\n');
}

const exitText = `
Numbers in a scenario and in --set are SI, or text with a unit ("45 mm", "0.9 N/mm"). Paths name a field:
  vehicle.drive.speed      vehicle.members[rear-beam].pivot.x      ground[0].height

Exit code: 0 all criteria held; 1 a criterion failed, or the vehicle got stuck or tipped over; 2 bad input, or a run
that could not be finished. The result is on standard output, problems and progress on standard error. The JSON
object is described in sim/cli/JSON.md of the source.`;
