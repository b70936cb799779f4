import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import type { Left } from './journal.ts';
import type { Body, Head, Plan, StepRow } from './record.ts';
import { type Trouble, troubleOf } from './trouble.ts';

/** A state of a document that was given a name, to come back to. Kept as the text of its file. */
export interface Version {
  readonly id: string;
  readonly doc: string;
  readonly says: string;
  /** ms since 1970. */
  readonly at: number;
  readonly text: string;
}

/** A row with what the system's dialog gave for a file. */
interface HandleRow {
  readonly id: string;
  readonly handle: unknown;
}

interface Stores extends DBSchema {
  heads: { key: string; value: Head };
  bodies: { key: string; value: Body };
  steps: { key: [string, number]; value: StepRow };
  versions: { key: string; value: Version; indexes: { doc: string } };
  handles: { key: string; value: HandleRow };
}

export const DATABASE = 'axlewright';

/** Counts up with the form of the data. A database with a higher number was written by a newer version of the app. */
export const DATABASE_VERSION = 1;

/** All that was kept of a document. */
export interface Found {
  readonly head: Head;
  readonly body: Body;
  readonly rows: readonly StepRow[];
}

/** Rows of one document: IndexedDB orders texts before lists, so [id, []] lies behind all [id, n]. */
const allSteps = (id: string, from = Number.NEGATIVE_INFINITY): IDBKeyRange =>
  IDBKeyRange.bound([id, from], [id, []]);

function upgrade(database: IDBPDatabase<Stores>): void {
  database.createObjectStore('heads', { keyPath: 'id' });
  database.createObjectStore('bodies', { keyPath: 'id' });
  database.createObjectStore('steps', { keyPath: ['doc', 'n'] });
  database.createObjectStore('versions', { keyPath: 'id' }).createIndex('doc', 'doc');
  database.createObjectStore('handles', { keyPath: 'id' });
}

/** The document is no longer this window's: another one has taken it over, or it has been deleted. */
export class NotOurs extends Error {
  readonly kind: 'taken' | 'missing';
  constructor(kind: 'taken' | 'missing') {
    super(kind);
    this.kind = kind;
  }
}

/** The documents that this browser keeps. Every write is one transaction: all of it is there afterwards, or none. */
export class Shelf {
  readonly #database: IDBPDatabase<Stores>;

  constructor(database: IDBPDatabase<Stores>) {
    this.#database = database;
  }

  /** All documents, newest change first, those to be deleted too. */
  async heads(): Promise<readonly Head[]> {
    const heads = await this.#database.getAll('heads');
    return heads.sort((a, b) => b.changed - a.changed);
  }

  /** Everything that is kept of a document, undefined when nothing is. */
  async find(id: string): Promise<Found | undefined> {
    const tx = this.#database.transaction(['heads', 'bodies', 'steps']);
    const [head, body, rows] = await Promise.all([
      tx.objectStore('heads').get(id),
      tx.objectStore('bodies').get(id),
      tx.objectStore('steps').getAll(allSteps(id)),
    ]);
    return head === undefined || body === undefined ? undefined : { head, body, rows };
  }

  /**
   * Writes what has changed. Looks first whether the document is still this window's.
   * @throws NotOurs when it is not; the browser's own error when it could not be written
   */
  async write(head: Head, plan: Plan, isNew: boolean): Promise<void> {
    const tx = this.#database.transaction(['heads', 'bodies', 'steps'], 'readwrite', {
      durability: 'strict',
    });
    try {
      const now = isNew ? undefined : await tx.objectStore('heads').get(head.id);
      if (!isNew && now === undefined) throw new NotOurs('missing');
      if (now !== undefined && now.owner !== head.owner) throw new NotOurs('taken');
      const puts = this.#put(tx, head, plan);
      await Promise.all([...puts, tx.done]);
    } catch (error) {
      // What failed inside has called the transaction off already; then there is nothing left to call off.
      try {
        tx.abort();
      } catch {}
      await tx.done.catch(() => undefined);
      throw tx.error ?? error;
    }
  }

  /**
   * Writes at once, without looking: for a page that is being left, where nothing that waits is ever called again. The
   * caller holds the lock on the document.
   */
  writeLeaving(head: Head, plan: Plan): void {
    const tx = this.#database.transaction(['heads', 'bodies', 'steps'], 'readwrite');
    tx.done.catch(() => undefined);
    this.#put(tx, head, plan);
    tx.commit();
  }

  /** Makes writes that pages left behind, unless they are there or the document has another owner by now. */
  async catchUp(lefts: readonly Left[]): Promise<void> {
    for (const { head, plan } of lefts) {
      const tx = this.#database.transaction(['heads', 'bodies', 'steps'], 'readwrite', {
        durability: 'strict',
      });
      const now = await tx.objectStore('heads').get(head.id);
      const isNew =
        now === undefined ? plan.body !== undefined : now.owner === head.owner && now.changed < head.changed;
      if (isNew) await Promise.all(this.#put(tx, head, plan));
      await tx.done;
    }
  }

  #put(
    tx: WriteTransaction,
    head: Head,
    { body, rows, from, kept }: Left['plan'],
  ): readonly Promise<unknown>[] {
    const steps = tx.objectStore('steps');
    const before = IDBKeyRange.bound([head.id, Number.NEGATIVE_INFINITY], [head.id, kept.first], false, true);
    const requests = [
      () => steps.delete(allSteps(head.id, from)),
      () => steps.delete(before),
      ...rows.map((row) => () => steps.put(row)),
      ...(body === undefined ? [] : [() => tx.objectStore('bodies').put(body)]),
      () => tx.objectStore('heads').put(head),
    ];
    return requests.map((request) => {
      const asked = request();
      // One that fails calls the others off: they all end in the one error of the transaction.
      asked.catch(() => undefined);
      return asked;
    });
  }

  /** Changes the row of a document that lists show. @returns the row as it now is; undefined when there is none */
  async amend(id: string, change: (head: Head) => Head): Promise<Head | undefined> {
    const tx = this.#database.transaction('heads', 'readwrite', { durability: 'strict' });
    const head = await tx.store.get(id);
    const next = head === undefined ? undefined : change(head);
    await Promise.all([...(next === undefined ? [] : [tx.store.put(next)]), tx.done]);
    return next;
  }

  /** Copies a document with its history; its versions stay with the first. */
  async duplicate(id: string, head: Pick<Head, 'id' | 'name' | 'created' | 'changed'>): Promise<void> {
    const found = await this.find(id);
    if (found === undefined) throw new NotOurs('missing');
    const { deleted: _gone, ...rest } = found.head;
    const tx = this.#database.transaction(['heads', 'bodies', 'steps'], 'readwrite', {
      durability: 'strict',
    });
    await Promise.all([
      tx.objectStore('heads').put({ ...rest, ...head }),
      tx.objectStore('bodies').put({ ...found.body, id: head.id }),
      ...found.rows.map((row) => tx.objectStore('steps').put({ ...row, doc: head.id })),
      tx.done,
    ]);
  }

  /** Deletes documents for good, with everything that belongs to them. */
  async destroy(ids: readonly string[]): Promise<void> {
    const tx = this.#database.transaction(['heads', 'bodies', 'steps', 'versions', 'handles'], 'readwrite');
    for (const id of ids) {
      const versions = await tx.objectStore('versions').index('doc').getAllKeys(id);
      await Promise.all([
        tx.objectStore('heads').delete(id),
        tx.objectStore('bodies').delete(id),
        tx.objectStore('steps').delete(allSteps(id)),
        tx.objectStore('handles').delete(id),
        ...versions.map((key) => tx.objectStore('versions').delete(key)),
      ]);
    }
    await tx.done;
  }

  /** Named versions of a document, newest first. */
  async versions(doc: string): Promise<readonly Version[]> {
    const versions = await this.#database.getAllFromIndex('versions', 'doc', doc);
    return versions.sort((a, b) => b.at - a.at);
  }

  async saveVersion(version: Version): Promise<void> {
    await this.#database.put('versions', version);
  }

  async deleteVersion(id: string): Promise<void> {
    await this.#database.delete('versions', id);
  }

  async handle(id: string): Promise<unknown> {
    return (await this.#database.get('handles', id))?.handle;
  }

  /** Remembers the file that a document is saved in, or forgets it. */
  async keepHandle(id: string, handle: unknown): Promise<void> {
    if (handle === undefined) await this.#database.delete('handles', id);
    else await this.#database.put('handles', { id, handle });
  }
}

type WriteTransaction = IDBPTransaction<Stores, ('heads' | 'bodies' | 'steps')[], 'readwrite'>;

/**
 * Opens the browser's database.
 * @param lost called when the database has to be let go: a newer version of the app wants to change it, or the browser
 *   has closed it
 * @returns the shelf, or why there is none
 */
export async function openShelf(
  lost: (trouble: Trouble) => void,
): Promise<Shelf | { readonly trouble: Trouble }> {
  try {
    const database = await openDB<Stores>(DATABASE, DATABASE_VERSION, {
      upgrade,
      blocking: () => {
        database.close();
        lost({ kind: 'newer' });
      },
      terminated: () => lost({ kind: 'failed', why: 'the browser has closed its database' }),
    });
    return new Shelf(database);
  } catch (error) {
    return { trouble: troubleOf(error) };
  }
}
