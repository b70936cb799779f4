import type { Command } from 'commander';
import type { Exit } from './exit.ts';
import type { Terminal } from './terminal.ts';

/** What a verb may use of the world around the program. */
export interface Surroundings {
  readonly terminal: Terminal;
  /** Standard input, read only when a document is asked from it. */
  readonly stdin: AsyncIterable<Uint8Array>;
  /** Folder in which the command was started. */
  readonly cwd: string;
  /** Folder of the scenarios that ship. */
  readonly demoFolder: string;
  /** Version of the program. */
  readonly version: string;
  /** Clock, ms. */
  readonly now: () => number;
}

/** One word after `axlewright`: a file of its own, and a line in registry.ts. */
export interface Verb {
  readonly name: string;
  /** What it does, in a few words, for the list in `--help`. */
  readonly summary: string;
  /** Commands worth showing in `--help`, each with what it does. */
  readonly examples: readonly (readonly [command: string, does: string])[];
  /** Declares arguments and options on the verb's command, and what it does; `done` takes the exit code. */
  attach(command: Command, surroundings: Surroundings, done: (exit: Exit) => void): void;
}
