/** The command line's way into this process: its streams and its exit code. */
import { type Exit, exits } from './exit.ts';
import { demoFolder } from './input/demos.ts';
import { type Launch, runCommand } from './program.ts';
import { openTerminal } from './terminal.ts';

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
    return await runCommand(args, launch, {
      terminal,
      stdin: process.stdin,
      cwd: process.cwd(),
      demoFolder: demoFolder(),
      now: Date.now,
    });
  } catch (error) {
    // Node's own exit code for an exception is 1, which here means that a criterion failed.
    terminal.progress();
    terminal.remark(
      `axlewright: something went wrong inside, which is a mistake of the program: ${sayError(error)}\n`,
    );
    return exits.unusable;
  }
}

/**
 * A reader that goes away (`| head`) ends the output, not the work: files are still written, the exit code stands. A
 * stream that fails in any other way (a full disk) ends the command: without its result there is none.
 */
function outliveReader(stream: NodeJS.WriteStream): void {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    if (stream !== process.stderr)
      process.stderr.write(`axlewright: the result cannot be written: ${error.message}\n`);
    process.exit(exits.unusable);
  });
}

const sayError = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);
