import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';

/** A file to be written: its name, and its text in one or more pieces. */
export interface OutFile {
  readonly name: string;
  readonly text: string | Iterable<string>;
}

/** Why a folder cannot be written to, as a sentence for people. */
export class FolderError extends Error {
  override readonly name = 'FolderError';
}

/**
 * Refuses a target before a long run is spent on it: it must be a folder that may be written to, or a place where one
 * may be made. Writes nothing.
 * @throws FolderError
 */
export function checkFolder(folder: string): void {
  let existing = resolve(folder);
  while (!existsSync(existing) && dirname(existing) !== existing) existing = dirname(existing);
  if (!statSync(existing).isDirectory()) {
    const what =
      existing === resolve(folder) ? 'is a file, not a folder' : `lies below '${existing}', which is a file`;
    throw new FolderError(`'${folder}' ${what}`);
  }
  try {
    accessSync(existing, constants.W_OK | constants.X_OK);
  } catch {
    throw new FolderError(`'${folder}' may not be written to: no permission for '${existing}'`);
  }
}

/**
 * Writes files into a folder, which is made if it is missing. Every file is written whole under a name of its own
 * first; only when all are there do they take their names, so that a full disk or a broken text leaves nothing half
 * written, and files of an earlier run stay as they were. Works without giving way to other work of this process: an
 * interrupt that is handled (`holdInterrupts`) waits until it is done.
 * @returns full paths of the files
 * @throws FolderError when the system refuses; whatever a text throws while it is made
 */
export function writeFolder(folder: string, files: readonly OutFile[]): string[] {
  const made = withReason(folder, () => makeFolder(resolve(folder)));
  const drafts = files.map(({ name }) => join(folder, `.${name}.${process.pid}.draft`));
  try {
    files.forEach(({ name, text }, i) => {
      const target = join(folder, name);
      if (lstatSync(target, { throwIfNoEntry: false })?.isDirectory() === true)
        throw new FolderError(`'${target}' is a folder, so no file of that name can be written`);
      withReason(folder, () => writeWhole(drafts[i] ?? target, text));
    });
    const paths = files.map(({ name }) => resolve(folder, name));
    withReason(folder, () => {
      for (const [i, path] of paths.entries()) renameSync(drafts[i] ?? path, path);
    });
    return paths;
  } catch (error) {
    for (const draft of drafts) rmSync(draft, { force: true });
    removeEmpty(made);
    throw error;
  }
}

/** Writes all pieces of a text into a new file; what has its name, such as a link to elsewhere, gives way to it. */
function writeWhole(path: string, text: OutFile['text']): void {
  rmSync(path, { force: true });
  const file = openSync(path, 'wx');
  try {
    for (const piece of typeof text === 'string' ? [text] : text) {
      const bytes = Buffer.from(piece, 'utf8');
      for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
    }
  } finally {
    closeSync(file);
  }
}

/**
 * Makes a folder and the parents that it lacks; what was made is taken away again when a part of it cannot be made.
 * Node's own `recursive` never comes back where a file system answers 'no such entry' to an allowed place (/proc).
 * @returns the folders that were made, outermost first
 */
function makeFolder(folder: string): string[] {
  const missing: string[] = [];
  for (let path = folder; !existsSync(path); path = dirname(path)) missing.unshift(path);
  const made: string[] = [];
  try {
    for (const path of missing) {
      mkdirSync(path);
      made.push(path);
    }
  } catch (error) {
    removeEmpty(made);
    throw error;
  }
  if (!statSync(folder).isDirectory()) throw new FolderError(`'${folder}' is a file, not a folder`);
  return made;
}

/** Removes folders, innermost first, as far as they are empty. */
function removeEmpty(folders: readonly string[]): void {
  for (const path of [...folders].reverse()) {
    try {
      rmdirSync(path);
    } catch {
      return;
    }
  }
}

/** Turns an error of the system into a sentence; lets every other error through. */
function withReason<T>(folder: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined || error instanceof RangeError) throw error;
    throw new FolderError(`'${folder}' cannot be written to: ${reasons[code] ?? (error as Error).message}`);
  }
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'the system does not permit it',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
  ENOENT: 'the system allows no folder there',
  ENOTDIR: 'a part of its path is a file',
  EEXIST: 'a file of that name is in the way',
  ENAMETOOLONG: 'the name is too long',
};

/**
 * Keeps interrupts (Ctrl-C, hang-up, termination) from ending the process while `act` runs without giving way.
 * They are not lost to the user: with the files written the command is at its end anyway.
 */
export function holdInterrupts<T>(act: () => T): T {
  const hold = (): void => {};
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.on(signal, hold);
  try {
    return act();
  } finally {
    for (const signal of signals) process.off(signal, hold);
  }
}
