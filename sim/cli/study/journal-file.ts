import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readSync,
  writeSync,
} from 'node:fs';
import type { Design } from '../../tuning/dial.ts';
import { type Entry, entryOf, type Head, lineOf, readHead } from '../../tuning/journal.ts';
import { FolderError } from '../files/folder.ts';

/** Where a line stands in the file, bytes. */
interface Span {
  readonly at: number;
  readonly length: number;
}

const newline = 10;

/**
 * The journal of a study on disk: a line for every design that was tried, written as soon as it is known, so that nothing
 * of it is lost when the process ends in any way. Of the entries only their places are held in memory.
 */
export class JournalFile {
  readonly path: string;
  readonly #file: number;
  readonly #spans = new Map<string, Span>();
  #end = 0;
  #head: Head | undefined;

  /** Opens the journal at a path, or makes an empty one. @throws FolderError when the system refuses */
  constructor(path: string) {
    this.path = path;
    this.#file = wording(path, () => openSync(path, existsSync(path) ? 'r+' : 'w+'));
    wording(path, () => this.#scan());
  }

  /** What it is a journal of; undefined when it is empty, or no journal of this version. */
  get head(): Head | undefined {
    return this.#head;
  }

  /** Whether nothing stands in it. */
  get empty(): boolean {
    return this.#end === 0;
  }

  /** Number of entries. */
  get size(): number {
    return this.#spans.size;
  }

  /** Begins it anew. @throws FolderError when the system refuses */
  begin(head: Head): void {
    this.#spans.clear();
    wording(this.path, () => {
      if (fstatSync(this.#file).size > 0) ftruncateSync(this.#file);
    });
    this.#end = 0;
    this.#write(lineOf(head));
    this.#head = head;
  }

  /** Writes an entry down. @throws FolderError when the system refuses, such as for a full disk */
  append(entry: Entry): void {
    const span = this.#write(lineOf(entry));
    this.#spans.set(keyOf(entry.of, entry.n), span);
  }

  /** The entry of a design that was tried before. */
  find(of: Entry['of'], n: number): Entry | undefined {
    const span = this.#spans.get(keyOf(of, n));
    return span && entryOf(this.#read(span));
  }

  /** All of it in one order, whoever was first while it was written. */
  *inOrder(): Generator<string> {
    if (this.#head !== undefined) yield lineOf(this.#head);
    const places = [...this.#spans.keys()].map((key) => key.split(' ') as [Entry['of'], string]);
    places.sort(([a, m], [b, n]) => orderOf(a) - orderOf(b) || Number(m) - Number(n));
    for (const [of, n] of places) {
      const entry = this.find(of, Number(n));
      if (entry !== undefined) yield lineOf(entry);
    }
  }

  /** The samples in the order of the plan. */
  *samples(): Generator<Entry & { readonly design: Design }> {
    for (let n = 0; ; n++) {
      const entry = this.find('sample', n);
      if (entry?.design == null) return;
      yield entry as Entry & { readonly design: Design };
    }
  }

  close(): void {
    try {
      fsyncSync(this.#file);
    } catch {
      // What the system could not keep it said on writing.
    }
    closeSync(this.#file);
  }

  #write(line: string): Span {
    const bytes = Buffer.from(line, 'utf8');
    const span = { at: this.#end, length: bytes.length };
    wording(this.path, () => {
      for (let done = 0; done < bytes.length; )
        done += writeSync(this.#file, bytes, done, bytes.length - done, span.at + done);
    });
    this.#end += bytes.length;
    return span;
  }

  #read({ at, length }: Span): string {
    const bytes = Buffer.alloc(length);
    for (let done = 0; done < length; ) {
      const read = readSync(this.#file, bytes, done, length - done, at + done);
      if (read === 0) break;
      done += read;
    }
    return bytes.toString('utf8');
  }

  /** Goes through a journal that is there, line by line; a last line that was cut off is taken away. */
  #scan(): void {
    const piece = Buffer.alloc(1 << 16);
    let line: Buffer = Buffer.alloc(0);
    let at = 0;
    const { size } = fstatSync(this.#file);
    while (at + line.length < size) {
      const read = readSync(this.#file, piece, 0, piece.length, at + line.length);
      if (read === 0) break;
      line = Buffer.concat([line, piece.subarray(0, read)]);
      for (let cut = line.indexOf(newline); cut >= 0; cut = line.indexOf(newline)) {
        this.#take(line.subarray(0, cut).toString('utf8'), { at, length: cut + 1 });
        at += cut + 1;
        line = line.subarray(cut + 1);
      }
    }
    this.#end = at;
    if (line.length > 0) ftruncateSync(this.#file, at);
  }

  #take(line: string, span: Span): void {
    if (span.at === 0) {
      this.#head = readHead(line);
      return;
    }
    const entry = entryOf(line);
    if (entry !== undefined) this.#spans.set(keyOf(entry.of, entry.n), span);
  }
}

const order = ['today', 'sample', 'plain', 'free', 'driven', 'drawn', 'spread'];

/** Place of a kind of entry among the others, then by the design that it is of. */
function orderOf(of: Entry['of']): number {
  const [kind = '', design = '0'] = of.split(':');
  return order.indexOf(kind) * 1e9 + Number(design);
}

const keyOf = (of: Entry['of'], n: number): string => `${of} ${n}`;

const reasons: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full as far as you may use it',
  EFBIG: 'the file is as large as the system allows',
  EISDIR: 'it is a folder',
};

/** Turns an error of the system into a sentence. */
function wording<T>(path: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new FolderError(`the journal '${path}' cannot be written: ${reasons[code] ?? message}`);
  }
}
