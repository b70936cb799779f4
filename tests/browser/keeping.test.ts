/** What is kept in the browser's database: against a real one, in a real page. All documents are invented. */
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import corrie from '../../scenarios/corrie-6x6.json?raw';
import { type Json, withoutValue, withValue } from '../../src/documents/json.ts';
import { type Beginning, begin } from '../../src/keeping/begin.ts';
import { Keeper } from '../../src/keeping/keeper.ts';
import { DATABASE, DATABASE_VERSION } from '../../src/keeping/shelf.ts';
import {
  commit,
  createDocumentStore,
  type DocumentStore,
  openDocument,
  redo,
  stepTo,
  textOf,
  undo,
} from '../../src/store/document.ts';
import { createKeepingStore } from '../../src/store/keeping.ts';

let count = 0;
let windows: { documents: DocumentStore; keeper: Keeper }[] = [];

/** One window: its store of the open document, and what keeps it. */
function windowOf(beginning: Beginning) {
  const documents = createDocumentStore();
  const keeping = createKeepingStore();
  const { begun } = beginning;
  if (begun !== undefined) openDocument(documents, begun.name, begun.text, begun.written, begun.known);
  const keeper = new Keeper(
    {
      documents,
      keeping,
      drawn: () => undefined,
      fresh: () => {
        count += 1;
        return `name-${count}`;
      },
      now: () => Date.now(),
      later: (ms, then) => {
        const id = setTimeout(then, ms);
        return () => clearTimeout(id);
      },
    },
    beginning,
  );
  const made = { documents, keeping, keeper };
  windows.push(made);
  return made;
}

const newWindow = async () => windowOf(await begin('', {}));

/** A window in which a copy of the six-wheeler was opened from a file. */
async function opened() {
  const page = await newWindow();
  openDocument(page.documents, 'corrie-6x6.json', corrie, JSON.parse(corrie) as Json);
  await page.keeper.flush();
  return { ...page, id: page.documents.getState().id ?? '' };
}

/** Another window that opens what is kept, as after a reload. The one before has let its locks go by then. */
async function reopened(before: Awaited<ReturnType<typeof opened>>) {
  await before.keeper.flush();
  openDocument(before.documents, 'other.json', '{}', {}, { demo: true });
  await before.keeper.settled();
  return windowOf(await begin('', { id: before.id, left: true }));
}

const mass = (n: number): Json => withValue(JSON.parse(corrie) as Json, ['vehicle', 'masses', 0, 'mass'], n);

function rows(database: IDBDatabase, store: string): Promise<unknown[]> {
  return new Promise((resolve, reject) => {
    const request = database.transaction(store).objectStore(store).getAll();
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** The database itself, past everything of ours. */
function bare(version?: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, version);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function clearAll(): Promise<void> {
  const database = await bare();
  const stores = [...database.objectStoreNames];
  if (stores.length > 0) {
    const tx = database.transaction(stores, 'readwrite');
    for (const store of stores) tx.objectStore(store).clear();
    await new Promise((done) => {
      tx.oncomplete = done;
    });
  }
  database.close();
}

beforeEach(async () => {
  await begin('', {});
  await clearAll();
});
afterEach(async () => {
  vi.restoreAllMocks();
  for (const { documents, keeper } of windows) {
    openDocument(documents, 'other.json', '{}', {}, { demo: true });
    await keeper.settled();
  }
  windows = [];
});

/** Something that a hand may do to the document: set, add, take out, move. */
const anyEdit = fc.oneof(
  fc.tuple(fc.constant('mass'), fc.nat(9999)),
  fc.tuple(fc.constant('title'), fc.nat(9999)),
  fc.tuple(fc.constant('add'), fc.nat(9999)),
  fc.tuple(fc.constant('remove'), fc.nat(9999)),
  fc.tuple(fc.constant('turn round'), fc.nat(9999)),
  fc.tuple(fc.constant('leave out'), fc.nat(9999)),
);

function edited(document: Json, kind: string, n: number): Json {
  const ground = (document as { ground: readonly Json[] }).ground;
  if (kind === 'mass') return withValue(document, ['vehicle', 'masses', 0, 'mass'], `${n} g`);
  if (kind === 'title') return withValue(document, ['title'], `number ${n}`);
  if (kind === 'leave out') return withoutValue(document, ['title']);
  const at = n % (ground.length + 1);
  if (kind === 'add')
    return withValue(
      document,
      ['ground'],
      [...ground.slice(0, at), { kind: 'flat', length: n }, ...ground.slice(at)],
    );
  if (kind === 'remove')
    return withValue(
      document,
      ['ground'],
      ground.filter((_, i) => i !== at),
    );
  return withValue(document, ['ground'], [...ground].reverse());
}

describe('a kept document', () => {
  it('comes back with all of 200 random edits: undo all and redo all give the very same documents', async () => {
    const page = await opened();
    const texts = [JSON.stringify(page.documents.getState().raw)];
    const edits = fc.sample(anyEdit, { numRuns: 200, seed: 7 });
    for (const [kind, n] of edits) {
      const { raw, past } = page.documents.getState();
      commit(page.documents, { says: `${kind} ${n}`, document: edited(raw, kind, n) });
      if (page.documents.getState().past.length > past.length) {
        texts.push(JSON.stringify(page.documents.getState().raw));
      }
      // Writes come in between, in the middle of everything, as they do under a hand.
      if (n % 17 === 0) await page.keeper.flush();
    }
    expect(texts.length).toBeGreaterThan(150);
    stepTo(page.documents, 120);
    const { past, future } = page.documents.getState();

    const { documents } = await reopened(page);
    const now = () => JSON.stringify(documents.getState().raw);
    expect(now()).toBe(texts[120]);
    expect(documents.getState().past.map(({ says }) => says)).toEqual(past.map(({ says }) => says));
    expect(documents.getState().future.map(({ says }) => says)).toEqual(future.map(({ says }) => says));
    for (let i = 119; i >= 0; i -= 1) {
      undo(documents);
      expect(now()).toBe(texts[i]);
    }
    expect(textOf(documents.getState())).toBe(corrie);
    for (let i = 1; i < texts.length; i += 1) {
      redo(documents);
      expect(now()).toBe(texts[i]);
    }
    undo(documents);
    stepTo(documents, texts.length - 1);
    expect(now()).toBe(texts.at(-1));
  });

  it('goes on with its history after a reload: what is done then lies on top of what was done before', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    commit(page.documents, { says: 'second', document: mass(2) });
    commit(page.documents, { says: 'gone for good', document: mass(20) });
    stepTo(page.documents, 1);
    const again = await reopened(page);
    commit(again.documents, { says: 'third', document: mass(3) });
    const last = await reopened({ ...again, id: page.id });
    expect(last.documents.getState().past.map(({ says }) => says)).toEqual(['first', 'third']);
    expect(last.documents.getState().future).toEqual([]);
    expect(last.documents.getState().raw).toEqual(mass(3));
    stepTo(last.documents, 0);
    expect(textOf(last.documents.getState())).toBe(corrie);
  });

  it('is written as what changed: a step costs some hundred bytes, not another copy of the document', async () => {
    const page = await opened();
    for (let i = 0; i < 40; i += 1) {
      const { raw } = page.documents.getState();
      commit(page.documents, {
        says: `mass ${i}`,
        document: withValue(raw, ['vehicle', 'masses', 0, 'mass'], i),
      });
      await page.keeper.flush();
    }
    const database = await bare();
    const steps = await rows(database, 'steps');
    database.close();
    expect(steps).toHaveLength(40);
    expect(JSON.stringify(steps).length / 40).toBeLessThan(300);
    expect(corrie.length).toBeGreaterThan(3000);
  });

  it('makes one step of a gesture, also when it was written in the middle of it', async () => {
    const page = await opened();
    for (let i = 1; i <= 5; i += 1) {
      commit(page.documents, { says: 'drag', document: mass(i) }, 'one drag');
      await page.keeper.flush();
    }
    const { documents } = await reopened(page);
    expect(documents.getState().past).toHaveLength(1);
    expect(documents.getState().raw).toEqual(mass(5));
    undo(documents);
    expect(textOf(documents.getState())).toBe(corrie);
  });

  it('is as it was before when a write is broken off in the middle', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    await page.keeper.flush();
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
      // The step goes in, what belongs to it does not: the browser ends in between.
      if (this.name === 'heads') {
        this.transaction.abort();
        throw new DOMException('gone', 'AbortError');
      }
      return put.apply(this, args);
    });
    commit(page.documents, { says: 'second', document: mass(2) });
    await page.keeper.flush();
    expect(page.keeping.getState().trouble?.kind).toBe('failed');
    vi.restoreAllMocks();
    const { documents } = windowOf(await begin('', { id: page.id }));
    expect(documents.getState().raw).toEqual(mass(1));
    expect(documents.getState().past.map(({ says }) => says)).toEqual(['first']);
  });

  it('is there after the page was left in the middle of a change, though the database heard nothing of it', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    await page.keeper.flush();
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
      throw new DOMException('the page is gone', 'InvalidStateError');
    });
    commit(page.documents, { says: 'drag', document: mass(2) }, 'one drag');
    commit(page.documents, { says: 'drag', document: mass(3) }, 'one drag');
    page.keeper.leave();
    vi.restoreAllMocks();
    const { begun } = await begin('', { id: page.id });
    expect(begun?.known.raw).toEqual(mass(3));
    expect(begun?.known.past?.map(({ says }) => says)).toEqual(['first', 'drag']);
    expect(Object.keys(localStorage).filter((key) => key.startsWith('axlewright-left'))).toEqual([]);
  });

  it('is not set back by what a page left behind long ago', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    page.keeper.leave();
    await page.keeper.flush();
    commit(page.documents, { says: 'second', document: mass(2) });
    await page.keeper.flush();
    const { begun } = await begin('', { id: page.id });
    expect(begun?.known.raw).toEqual(mass(2));
  });

  it('is kept again as soon as there is room again', async () => {
    const page = await opened();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    commit(page.documents, { says: 'first', document: mass(1) });
    await page.keeper.flush();
    expect(page.keeping.getState().trouble).toEqual({ kind: 'full' });
    vi.restoreAllMocks();
    await page.keeper.again();
    expect(page.keeping.getState().trouble).toBeUndefined();
    const { documents } = await reopened(page);
    expect(documents.getState().raw).toEqual(mass(1));
  });

  it('is written as a whole when somebody has cleared the browser’s data under it', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    await page.keeper.flush();
    await clearAll();
    commit(page.documents, { says: 'second', document: mass(2) });
    const { documents } = await reopened(page);
    expect(documents.getState().past.map(({ says }) => says)).toEqual(['first', 'second']);
  });

  it('that makes no sense is left where it is, and the reason is told', async () => {
    const page = await opened();
    commit(page.documents, { says: 'first', document: mass(1) });
    await page.keeper.flush();
    const database = await bare();
    const tx = database.transaction('steps', 'readwrite');
    tx.objectStore('steps').clear();
    await new Promise((done) => {
      tx.oncomplete = done;
    });
    const found = await begin('', { id: page.id });
    expect(found.begun).toBeUndefined();
    expect(found.toast?.says).toMatch(/corrie-6x6\.json could not be read/);
    expect(await rows(database, 'heads')).toHaveLength(1);
    database.close();
  });
});

describe('two windows', () => {
  it('never write one document: the second only reads, until the first has closed it', async () => {
    const first = await opened();
    const second = windowOf(await begin('', { id: first.id }));
    expect(second.keeping.getState().elsewhere).toBe('open');
    expect(commit(second.documents, { says: 'not here', document: mass(9) })).toBe(false);
    commit(first.documents, { says: 'here', document: mass(1) });
    await first.keeper.flush();
    openDocument(first.documents, 'other.json', '{}', {}, { demo: true });
    await vi.waitFor(() => expect(second.documents.getState().readOnly).toBeUndefined());
    expect(second.documents.getState().raw).toEqual(mass(1));
    expect(commit(second.documents, { says: 'now here', document: mass(2) })).toBe(true);
  });

  it('hand a document over with everything that was done to it', async () => {
    const first = await opened();
    const second = windowOf(await begin('', { id: first.id }));
    commit(first.documents, { says: 'not written yet', document: mass(1) });
    await second.keeper.takeOver();
    await vi.waitFor(() => expect(second.documents.getState().readOnly).toBeUndefined());
    expect(second.documents.getState().raw).toEqual(mass(1));
    expect(first.keeping.getState().elsewhere).toBe('taken');
    expect(commit(first.documents, { says: 'no more', document: mass(3) })).toBe(false);
    expect(first.documents.getState().raw).toEqual(mass(1));
  });

  it('open a copy that goes its own way, history and all', async () => {
    const first = await opened();
    commit(first.documents, { says: 'first', document: mass(1) });
    await first.keeper.flush();
    const second = windowOf(await begin('', { id: first.id }));
    second.keeper.copy();
    commit(second.documents, { says: 'in the copy', document: mass(2) });
    await second.keeper.flush();
    const { name, id, past } = second.documents.getState();
    expect(name).toBe('corrie-6x6 copy.json');
    expect(id).not.toBe(first.id);
    expect(past.map(({ says }) => says)).toEqual(['first', 'in the copy']);
    expect(first.documents.getState().raw).toEqual(mass(1));
  });

  it('are safe from a late write even where the lock is gone: the row names its owner', async () => {
    const first = await opened();
    commit(first.documents, { says: 'late', document: mass(1) });
    const database = await bare();
    const [head] = (await rows(database, 'heads')) as { owner: string }[];
    const tx = database.transaction('heads', 'readwrite');
    tx.objectStore('heads').put({ ...head, owner: 'somebody else' });
    await new Promise((done) => {
      tx.oncomplete = done;
    });
    await first.keeper.flush();
    expect(first.keeping.getState().elsewhere).toBe('taken');
    expect(await rows(database, 'steps')).toEqual([]);
    database.close();
  });
});

describe('a browser that keeps nothing', () => {
  it('because it refuses is told apart from one whose data are newer', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('denied', 'SecurityError');
    });
    expect((await begin('', { id: 'x' })).trouble).toEqual({ kind: 'refused' });
    vi.restoreAllMocks();
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException(`${DATABASE_VERSION} is less than what is there`, 'VersionError');
    });
    expect((await begin('', { id: 'x' })).trouble).toEqual({ kind: 'newer' });
  });

  it('still lets the document be changed', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('denied', 'SecurityError');
    });
    const page = await opened();
    expect(commit(page.documents, { says: 'first', document: mass(1) })).toBe(true);
    expect(page.keeping.getState().trouble).toEqual({ kind: 'refused' });
    expect(page.documents.getState().id).toBeUndefined();
  });
});
