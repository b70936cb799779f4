import { Command, CommanderError } from 'commander';
import { type Exit, exits } from './exit.ts';
import { verbs } from './registry.ts';
import { clean } from './text/clean.ts';
import { table } from './text/table.ts';
import type { Surroundings } from './verb.ts';

/** What the launcher knows and the program does not. */
export interface Launch {
  /** Version of the package, such as `0.1.0`. */
  readonly version: string;
}

/**
 * Reads the words after `axlewright` and runs the verb among them.
 * @returns exit code; throws only what is a mistake of the program
 */
export async function runCommand(
  args: readonly string[],
  { version }: Launch,
  around: Omit<Surroundings, 'version'>,
): Promise<Exit> {
  const surroundings = { ...around, version };
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
