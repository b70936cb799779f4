/** The command line, apart from the process it runs in. */
import { Command, CommanderError } from 'commander';

/** What the launcher knows and the program does not. */
export interface Launch {
  /** Version of the package, such as `0.1.0`. */
  readonly version: string;
}

/**
 * Runs one command.
 * @param args the words after `axlewright`
 * @param launch what the launcher knows
 * @returns exit code: 0 pass, 2 bad input
 */
export async function main(args: readonly string[], launch: Launch): Promise<number> {
  const program = new Command('axlewright').version(launch.version).exitOverride();
  try {
    await program.parseAsync(args, { from: 'user' });
    return 0;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? 0 : 2;
  }
}
