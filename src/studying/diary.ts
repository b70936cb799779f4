import type { Entry, Head } from '../../sim/tuning/journal.ts';
import type { Journal } from './course.ts';
import type { StudyDraft } from './draft.ts';

/** How a study stood when it was kept last: 'running' goes on by itself after a reload. */
export type KeptPhase = 'written' | 'running' | 'paused' | 'done';

/** A study that this browser keeps beside its document. */
export interface KeptStudy {
  /** The document's. */
  readonly key: string;
  readonly study: StudyDraft;
  readonly phase: KeptPhase;
  /** What the entries below were computed of; undefined while there are none. */
  readonly head: Head | undefined;
}

const DATABASE = 'axlewright-studies';
const VERSION = 1;

const promised = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the browser keeps nothing'));
  });

const finished = (tx: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    tx.oncomplete = () => resolve();
    tx.onabort = () => reject(tx.error ?? new Error('the browser could not write'));
  });

/** All entries of one study: the database orders numbers before texts before lists. */
const allOf = (key: string): IDBKeyRange => IDBKeyRange.bound([key], [key, []]);

/** Studies and their journals in the browser's database, in one of their own: they can be large, and are computed again. */
export class Diary {
  readonly #database: IDBDatabase;

  constructor(database: IDBDatabase) {
    this.#database = database;
  }

  /** @throws (rejects) where the browser keeps nothing */
  static async open(factory: IDBFactory): Promise<Diary> {
    const request = factory.open(DATABASE, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('studies', { keyPath: 'key' });
      request.result.createObjectStore('entries', { keyPath: ['key', 'of', 'n'] });
    };
    const database = await promised(request);
    // A newer version in another window may have the database to itself.
    database.onversionchange = () => database.close();
    return new Diary(database);
  }

  find(key: string): Promise<KeptStudy | undefined> {
    return promised(this.#database.transaction('studies').objectStore('studies').get(key));
  }

  async entries(key: string): Promise<readonly Entry[]> {
    return promised(this.#database.transaction('entries').objectStore('entries').getAll(allOf(key)));
  }

  /** Keeps how a study stands. `clear`: what was computed of another one goes. */
  async put(study: KeptStudy, clear = false): Promise<void> {
    const tx = this.#database.transaction(['studies', 'entries'], 'readwrite');
    tx.objectStore('studies').put(study);
    if (clear) tx.objectStore('entries').delete(allOf(study.key));
    await finished(tx);
  }

  async append(key: string, entries: readonly Entry[]): Promise<void> {
    const tx = this.#database.transaction('entries', 'readwrite');
    for (const entry of entries) tx.objectStore('entries').put({ key, ...entry });
    await finished(tx);
  }
}

/**
 * The journal of a study that runs: entries go to the database as they come, those that come while a write is under way
 * with the next one.
 */
export class KeptJournal implements Journal {
  readonly #known: Map<string, Entry>;
  readonly #write: (entries: readonly Entry[]) => Promise<void>;
  readonly #onTrouble: (error: unknown) => void;
  #pending: Entry[] = [];
  #writing: Promise<void> | undefined;

  /** @param write keeps entries; `onTrouble` hears of the first that could not be kept, and nothing is tried after it */
  constructor(
    known: readonly Entry[],
    write: (entries: readonly Entry[]) => Promise<void>,
    onTrouble: (error: unknown) => void,
  ) {
    this.#known = new Map(known.map((entry) => [`${entry.of} ${entry.n}`, entry]));
    this.#write = write;
    this.#onTrouble = onTrouble;
  }

  find(of: Entry['of'], n: number): Entry | undefined {
    return this.#known.get(`${of} ${n}`);
  }

  append(entry: Entry): void {
    this.#known.set(`${entry.of} ${entry.n}`, entry);
    this.#pending.push(entry);
    this.#writing ??= this.#writeAll();
  }

  /** Waits until all that came is kept. */
  async flush(): Promise<void> {
    await this.#writing;
  }

  async #writeAll(): Promise<void> {
    try {
      while (this.#pending.length > 0) await this.#write(this.#pending.splice(0));
      this.#writing = undefined;
    } catch (error) {
      // The study goes on in this window; what it finds is not there after a reload.
      this.#onTrouble(error);
    }
  }
}
